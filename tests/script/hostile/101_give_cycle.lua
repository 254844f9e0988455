local t = {} t.t = t
give { bodice = t }
