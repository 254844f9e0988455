local d, n = draft "Paper", 0
local s = ("x"):rep(60000)
s:gsub("x", function() n = n + 1 d["p" .. n] = point(n, 0) end)
