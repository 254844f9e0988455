local name = "/etc/" .. "passwd"
use(name, {})
