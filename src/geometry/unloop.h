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

#endif
