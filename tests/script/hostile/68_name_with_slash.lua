local d = draft("../../etc/passwd")
d["../x/y"] = point(0, 0)
