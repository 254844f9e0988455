local function f(n) return solve { from = 0, to = 1, wanted = 0.5, function(x) return n > 0 and f(n - 1) or x end } end
f(400)
