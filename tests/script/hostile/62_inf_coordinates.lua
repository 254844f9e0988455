local p = point(0, 0):up(math.huge)
