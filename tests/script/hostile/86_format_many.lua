for i = 1, 1e8 do local s = string.format("%99d%99d%99d%99d", 1, 2, 3, 4) end
