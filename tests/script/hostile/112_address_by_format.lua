error(string.format("%p", {}))
