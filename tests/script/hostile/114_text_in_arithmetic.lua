local l = "14 cm" + 1
