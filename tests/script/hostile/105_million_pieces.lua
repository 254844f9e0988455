local d = draft "Paper"
for i = 1, 1e6 do
  local p = piece("Piece " .. i, { a = line(point(0, 0), point(10, 0)), b = line(point(10, 0), point(5, 9)), c = line(point(5, 9), point(0, 0)) })
  d["p" .. i] = p
end
