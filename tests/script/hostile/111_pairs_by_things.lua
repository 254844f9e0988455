local t = {} t[point(0, 0)] = 1 t[{}] = 2
for k, v in pairs(t) do error(tostring(k)) end
