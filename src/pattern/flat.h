// An outline as a polygon, coarse enough to be asked many times where there is room.
#ifndef REBATO_PATTERN_FLAT_H
#define REBATO_PATTERN_FLAT_H

#include "pattern/piece.h"

#define FLAT_MM 0.2 // how far the polygon may lie off the outline

// Whether a closed path does not cross itself. Quick where it stays well clear of itself.
bool outline_is_simple(const Path *outline);

typedef struct Flat {
    Point *points; // closed: the last is the first again
    int count;
    Box box;
} Flat;

void flat_make(const Piece *piece, Flat *out);
void flat_finish(Flat *flat);
void flat_turned(const Flat *flat, double degrees,
                 Flat *out); // about the origin, counter-clockwise; a new one

// Whether a straight line reaches into an upright rectangle.
bool flat_line_in_box(Point a, Point b, Box box);

// Whether an upright rectangle lies inside.
bool flat_holds_box(const Flat *flat, Box box);

// The widest stretch of the level line at height y that lies inside and at least `clear` from the outline;
// false where there is none.
bool flat_clear_stretch(const Flat *flat, double y, double clear, double *from, double *to);

#endif
