local src = {} local f for i = 1, 1000 do local a = i local g = f f = function() return a + (g and 1 or 0) end end
while true do f() end
