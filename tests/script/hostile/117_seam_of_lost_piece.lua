local p = piece("Lost", { a = line(point(0, 0), point(10, 0)), b = line(point(10, 0), point(5, 9)), c = line(point(5, 9), point(0, 0)) })
sew("seam", p.a, p.b)
