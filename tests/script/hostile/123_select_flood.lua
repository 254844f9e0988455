local t = {} for i = 1, 100000 do t[i] = i end
for i = 1, 1e9 do local x = select("#", table.unpack(t)) end
