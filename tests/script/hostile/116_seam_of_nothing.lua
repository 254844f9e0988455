sew("seam", nil, {})
