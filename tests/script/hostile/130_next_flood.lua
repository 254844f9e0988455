local t = {} for i = 1, 20000 do t["k" .. i] = i end
local k repeat k = next(t, k) until false
