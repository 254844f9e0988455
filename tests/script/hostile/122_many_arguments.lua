local t = {} for i = 1, 200000 do t[i] = point(i % 9, i % 7) end
line(table.unpack(t))
