local _ENV <const> = { a = 1 }
b = a + c
