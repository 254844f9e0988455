local function saw(n, h) local t = {} for i = 0, n do t[#t + 1] = point(i, (i % 2) * h) end return line(table.unpack(t)) end
local a, b = saw(900, 100), saw(900, 99)
for i = 1, 4 do a = join(a, a:move(a.last.x - a.first.x, 0)) b = join(b, b:move(b.last.x - b.first.x, 0)) end
for i = 1, 1e6 do local all = a:meets(b) end
