for i = 1, 1e6 do needs { ["m" .. i] = { "nothing", optional = true } } end
