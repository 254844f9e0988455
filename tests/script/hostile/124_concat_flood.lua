local s = ("x"):rep(1e6) for i = 1, 4 do s = s .. s end
for i = 1, 1e9 do local x = s .. i end
