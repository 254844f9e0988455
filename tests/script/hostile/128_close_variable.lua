local p <close> = point(0, 0)
