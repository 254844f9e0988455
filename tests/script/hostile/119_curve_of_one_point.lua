local p = point(1, 1)
curve(p, p, p)
