assert(not tostring({}):find("0x")) assert(not tostring(line):find("0x")) assert(not string.format("%s", {}):find("0x"))
error("no address is told")
