math.floor = function() return 0 end
