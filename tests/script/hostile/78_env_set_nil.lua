_ENV = nil
x = 1
