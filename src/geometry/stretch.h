// Cutting a raw parallel at its crossings: the crossing on the curves, and the stretch between two of them.
#ifndef REBATO_GEOMETRY_STRETCH_H
#define REBATO_GEOMETRY_STRETCH_H

#include "geometry/path.h"

// The crossing at a meeting of chords, polished on the curves themselves, and where it is on each.
Point meet_polish(const Path *path, PathSpot *a, PathSpot *b);

// Adds the stretch of a path between two spots, as the curve goes on forward (past the end of a closed path
// to its beginning), pulled to begin and end exactly at two points; leaves out what is shorter than
// POINT_SAME_MM.
void stretch_add(const Path *path, PathSpot from, Point at_from, PathSpot to, Point at_to, Path *out);

// Cuts the end of a and the beginning of b where they cross near by, b turning to the side of `turn`
// (positive: left) there; straight sides would lose `trim`. False, and both left as they are, when there is
// no such crossing.
bool cut_at_crossing(Segment *a, Segment *b, double trim, double turn);

#endif
