local t = {} for i = 1, 1e7 do t = { t, point(i % 1000, 0) } end
