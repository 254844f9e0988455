note("x", 1) note("x", 2)
