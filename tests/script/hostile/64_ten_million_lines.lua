for i = 1, 1e7 do local l = line(point(0, 0), point(i % 100 + 1, 1)) end
