line = nil
