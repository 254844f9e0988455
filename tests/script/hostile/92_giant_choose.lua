local t = {} for i = 1, 1e5 do t["name" .. i] = { i, "words" } end
choose(t)
