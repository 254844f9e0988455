local a = arc { start = point(0, 0), heading = 0, length = 99999, sweep = 1e-9 }
local b = a:offset(1e5, "up")
