draft("a\0b")
