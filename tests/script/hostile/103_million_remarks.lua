for i = 1, 1e6 do warn("remark " .. i) end
