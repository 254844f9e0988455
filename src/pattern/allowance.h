// Seam allowance: the cut line outside an outline, its width edge by edge, its corners as the cutter asked.
//
// At a corner with the interior angle alpha, edge A (sewn first, allowance a) is crossed by edge B (allowance
// b). Measured along A beyond the end of its seam, its cut line ends at
//   PLAIN      (b + a cos alpha) / sin alpha   both cut lines run on until they meet
//   SQUARE     b / sin alpha                   cut square to A where the cut line of B crosses the seam line
//   of A REFLECTED  (b - a cos alpha) / sin alpha   the corner is the mirror image of B's cut line in A, so
//   it lies under B
//                                              once A is pressed to that side
// (plane geometry). BEVEL cuts a plain tip off at 1.5 allowances from the corner. A plain corner
// sharper than 30 degrees runs out to four allowances and more, cloth that is trimmed away anyway: its tip is
// cut off at 2.5 allowances from the corner (common practice, no source).
#ifndef REBATO_PATTERN_ALLOWANCE_H
#define REBATO_PATTERN_ALLOWANCE_H

#include "pattern/piece.h"

// How far A's cut line runs beyond the end of its seam, mm. alpha in degrees, strictly between 0 and 180.
double allowance_run(CornerStyle style, double a, double b, double alpha);

// The cut line of a piece: a simple closed outline, counter-clockwise, that contains the seam line. A fold
// has no allowance. Tight concave curves keep it simple: loops are taken out. heap path.
GeomError piece_cut_outline(const Piece *piece, Path *out);

#endif
