local t = {} for i = 1, 5000 do t[i] = i end
table.sort(t, function(a, b) return true end)
