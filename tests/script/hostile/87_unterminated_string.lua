local s = "never ends
