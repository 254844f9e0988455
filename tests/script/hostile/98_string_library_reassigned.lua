string.rep = nil
