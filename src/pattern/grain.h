// The grain of a piece: its arrow and its name.
#ifndef REBATO_PATTERN_GRAIN_H
#define REBATO_PATTERN_GRAIN_H

#include "base/buffer.h"
#include "pattern/flat.h"
#include "pattern/piece.h"

// A line inside the piece in the grain's direction: as long and as central as fits, at least half the piece
// or 100 mm where there is room, and 5 mm clear of the seam line; less on narrow pieces, but never outside.
// False for a piece without grain.
bool piece_grain_line(const Piece *piece, Point *from, Point *to);
bool flat_grain_line(const Flat *outline, const Piece *piece, Point *from,
                     Point *to); // the outline flattened already

// The grain runs at 45 degrees (within half a degree: 1 mm in 12 cm) to the fold or the centre of the piece;
// where it has neither, it was asked for as bias.
bool piece_is_true_bias(const Piece *piece);

// The same, but for a piece whose grain was given along or across an edge: there the arrow is named after that
// edge, which lies on the straight grain.
bool piece_is_called_bias(const Piece *piece);

// In words: "grain along neckline".
void piece_grain_words(const Piece *piece, Buffer *out);

#endif
