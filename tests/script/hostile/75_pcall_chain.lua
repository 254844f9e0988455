local args = {} for i = 1, 300 do args[i] = pcall end
local ok = pcall(table.unpack(args)) error(tostring(ok))
