local s = string.format("%5000d", 1)
