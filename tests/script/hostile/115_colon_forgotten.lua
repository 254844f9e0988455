local p = point.up(4)
