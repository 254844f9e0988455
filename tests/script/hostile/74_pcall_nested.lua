local f = function() error("deep") end
for i = 1, 300 do local g = f f = function() local ok, e = pcall(g) error(e) end end
f()
