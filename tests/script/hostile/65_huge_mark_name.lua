draft("Paper")[("x"):rep(1e6)] = point(0, 0)
