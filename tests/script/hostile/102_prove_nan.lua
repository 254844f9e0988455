prove "nothing" { 0/0, at_least = 1 }
