local a = arc { centre = point(0, 0), radius = 1e-300, from = 0, sweep = 1e-300 }
