local a = arc { centre = point(0, 0), radius = 10, from = 0, sweep = 360 }
local o = a:offset(20, "inward")
