local p = point(0/0, 1)
