// Pieces and patterns that several tests share.
#ifndef REBATO_TESTS_PATTERN_SAMPLE_H
#define REBATO_TESTS_PATTERN_SAMPLE_H

#include "pattern/pattern.h"

// The half funnel of a collar set square into the shoulders: width h, height H above it, centre line on x =
// 0. Edges neckline (centre to shoulder point, at 45 degrees), side, top, centre. Lengths in mm.
Piece sample_half_funnel(Arena *arena, const char *name, double h, double height);

// The same opened out over the top and the centre, grain along the neckline.
Piece sample_funnel(Arena *arena, const char *name, double h, double height);

// A piece from straight edges between corners, named "a", "b", ...
Piece sample_polygon(Arena *arena, const char *name, const Point *corners, int count);

// A half neckline facing with curved edges: neckline, shoulder, outer, centre.
Piece sample_band(Arena *arena, const char *name);

// A whole pattern with something in every list: two funnels, drafts, notes, inputs, seams, a remark, a proof.
void sample_pattern(Pattern *pattern);

// The proof of that name, or NULL; proof_found fails the test instead.
const Proof *proof_find(const Pattern *pattern, const char *what);
const Proof *proof_found(const Pattern *pattern, const char *what);

// Proves with nothing accepted.
void prove_again(Pattern *pattern);

#endif
