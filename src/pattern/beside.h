// A line beside the outline of a piece, each edge at its own distance: the cut line, or the outline of an
// interfacing.
#ifndef REBATO_PATTERN_BESIDE_H
#define REBATO_PATTERN_BESIDE_H

#include "pattern/piece.h"

typedef struct Beside {
    Path *edges; // one for each edge of the piece, in outline order, each run on to where the next starts;
                 // all on the heap
    int count;
    bool rough; // somewhere two neighbours do not meet, or the line crosses itself: loops must be taken out
} Beside;

// distances: mm, one for each edge, outside the outline where positive, inside where negative. The corners
// are those of the piece, or all PLAIN. Errors are those of path_offset_raw; out is finished by the caller in
// any case.
GeomError beside_make(const Piece *piece, const double *distances, bool plain, Beside *out);
void beside_finish(Beside *beside);
void beside_outline(const Beside *beside, Path *out); // heap path, closed

#endif
