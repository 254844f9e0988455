solve { from = 0, to = 1, wanted = 0.5, function(x) while true do end end }
