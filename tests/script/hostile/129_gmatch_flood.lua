for i = 1, 1e9 do for w in ("a b c d e f g h"):gmatch("%a+%s*%a*") do end end
