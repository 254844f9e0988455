note("two words", 3)
