// The parallel curve of one segment, the building block of every offset.
#ifndef REBATO_GEOMETRY_PARALLEL_H
#define REBATO_GEOMETRY_PARALLEL_H

#include "geometry/path.h"

#define PARALLEL_PIECES_MAX 4

// Cuts a segment at its cusps and turns straight curves into lines, so that each piece has a tangent
// everywhere and turns smoothly. Gives the number of pieces: 0 for a segment that is a point.
int segment_regular(const Segment *s, Segment pieces[PARALLEL_PIECES_MAX]);

// Moves an end of a segment, and of a curve the handle with it, so that its direction there stays.
void segment_pull_first(Segment *s, Point to);
void segment_pull_last(Segment *s, Point to);

// Adds the curve at distance `left` (negative: right) of a regular segment to out: from first point + left *
// normal to last point + left * normal. Where the segment turns tighter than the distance the parallel would
// run backwards; a straight link stands for that stretch. It stays within the distance of the segment, as the
// backward stretch does, so it is never part of the offset's border.
void parallel_add(const Segment *s, double left, double tolerance, Path *out);

#endif
