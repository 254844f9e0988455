local m = getmetatable(point(0, 0))
m.__index = nil
