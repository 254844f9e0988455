local d, n = draft "Paper", 0
local t = {} for i = 1, 2000 do t[i] = i % 7 end
table.sort(t, function(a, b) n = n + 1 d["p" .. n] = point(n, 0) return a < b end)
