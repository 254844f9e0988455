// Rounding a corner.
#ifndef REBATO_GEOMETRY_CORNER_H
#define REBATO_GEOMETRY_CORNER_H

#include "geometry/path.h"

// Replaces the corner where two straight or curved parts of a path meet, at distance `at` along it, by an arc
// of the radius, tangent to both sides. Each side reaches to the next corner or the end of the path and may
// be used up whole. On a closed path the corner may be where it closes (at 0); the outline then starts after
// the arc. A joint that is smooth already is left as it is. GEOM_TOO_TIGHT when the radius does not fit;
// *fits (may be NULL) is then the largest smaller one that does, 0 when none does. GEOM_NOT_ON_PATH when no
// two parts meet there, GEOM_BEYOND_END, GEOM_NO_DIRECTION for a radius that is not positive,
// GEOM_NOT_FINITE.
GeomError path_round_corner(const Path *path, double at, double radius, Path *out, double *fits);

#endif
