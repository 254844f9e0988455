// The raw parallel of a whole path: parallels of its pieces joined at the corners, with the loops that makes.
#ifndef REBATO_GEOMETRY_RAW_H
#define REBATO_GEOMETRY_RAW_H

#include "geometry/offset.h"

// At distance `left` (negative: right) of the path; every field of options is filled. No point of the loops
// is further than the distance from the path, mitres apart. GEOM_NO_DIRECTION when the path is a point.
GeomError raw_parallel(const Path *path, bool closed, double left, const OffsetOptions *options, Path *out);

#endif
