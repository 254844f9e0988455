local s = ("x"):rep(1e6) for i = 1, 4 do s = s .. s end
local a, b = s .. "a", s .. "b"
for i = 1, 1e9 do local x = a < b end
