local E = _ENV
for i = 1, 1e6 do E["n" .. i] = i end
