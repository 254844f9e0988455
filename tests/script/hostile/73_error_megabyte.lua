error(("message "):rep(1e5))
