local p = line(point(0, 0), point(1, 1), point(2, 0))
for i = 1, 60 do p = join(p, p:move(p.last.x - p.first.x, p.last.y - p.first.y)) end
