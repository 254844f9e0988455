local p = piece("P", { a = line(point(0, 0), point(10, 0)), b = line(point(10, 0), point(5, 9)), c = line(point(5, 9), point(0, 0)) })
for i = 1, 1e7 do p = p:notch("a", 5) end
