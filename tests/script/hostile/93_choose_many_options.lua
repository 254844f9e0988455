local o = {} for i = 1, 1e5 do o[i] = "option " .. i end
choose { which = o }
