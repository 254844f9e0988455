local t = {} for i = 0, 900 do t[#t + 1] = point(i * 3, (i * 7919 % 13) * 2) end
local c = curve(table.unpack(t))
for i = 1, 4 do c = join(c, c:move(c.last.x - c.first.x, c.last.y - c.first.y)) end
for i = 1, 1e5 do local o = c:offset(5, "up") end
