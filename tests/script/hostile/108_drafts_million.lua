for i = 1, 1e6 do draft("Draft " .. i) end
