local d = draft "Paper"
for i = 1, 1e6 do d:measure(point(0, 0), point(i, 0)) end
