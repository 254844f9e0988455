local s = [[ never
ends
