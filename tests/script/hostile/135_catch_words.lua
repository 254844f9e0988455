local d = draft "Paper"
for i = 1, 2000 do d["mark " .. i] = point(i, 0) end
while true do pcall(function() return d.mark_1999x end) end
