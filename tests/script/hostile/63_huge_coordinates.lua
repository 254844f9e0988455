local p = point(1e308, -1e308)
