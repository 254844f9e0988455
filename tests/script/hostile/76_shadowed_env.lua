local _ENV = {}
x = point(0, 0)
