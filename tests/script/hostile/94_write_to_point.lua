local p = point(0, 0)
p.x = 5
