warn("\u{9B}2J")
