// Removing the loops of a raw closed offset outline.
#ifndef REBATO_GEOMETRY_UNLOOP_H
#define REBATO_GEOMETRY_UNLOOP_H

#include "geometry/chords.h"

// Whether a point may be on the border of the result.
typedef bool (*UnloopKeep)(const void *context, Point p);

// Replaces a closed raw outline by its largest part: a simple outline that winds counter-clockwise with
// winding number 1 inside and 0 outside, all of whose points keep() allows (NULL allows every point). *parts
// (may be NULL) counts such parts; slivers no wider than the tolerance are none. GEOM_VANISHES when there is
// no part; raw is then untouched.
GeomError unloop(Path *raw, double tolerance, UnloopKeep keep, const void *context, int *parts);

// Whether a closed path crosses itself by more than slivers no wider than the tolerance.
bool outline_crosses_itself(const Path *path, double tolerance);

// Replaces the raw parallel of an open source by its longest stretch all of whose points are the distance
// away from the source. GEOM_VANISHES; raw is then untouched.
GeomError unloop_open(Path *raw, const Path *source, double distance, double tolerance);

// The crossing at a meeting of chords, polished on the curves themselves, and where it is on each.
Point meet_polish(const Path *path, PathSpot *a, PathSpot *b);

// Adds the stretch of a path between two spots, as the curve goes on forward (past the end of a closed path
// to its beginning), pulled to begin and end exactly at two points; leaves out what is shorter than
// POINT_SAME_MM.
void stretch_add(const Path *path, PathSpot from, Point at_from, PathSpot to, Point at_to, Path *out);

#endif
