draft("Front \u{202E}edis gnorw")
