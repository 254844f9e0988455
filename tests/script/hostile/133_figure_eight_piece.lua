local p = piece("Eight", { a = line(point(0, 0), point(10, 10)), b = line(point(10, 10), point(10, 0)), c = line(point(10, 0), point(0, 10)), d = line(point(0, 10), point(0, 0)) })
draft("Paper").p = p
