warn("a\27[31mred\27[0m")
