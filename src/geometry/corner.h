// Rounding a corner.
#ifndef REBATO_GEOMETRY_CORNER_H
#define REBATO_GEOMETRY_CORNER_H

#include "geometry/path.h"

// Replaces the corner where two straight or curved parts of a path meet, at distance `at` along it, by an arc of the
// radius, tangent to both sides. GEOM_TOO_TIGHT when the radius does not fit; *fits (may be NULL) is the largest that does.
GeomError path_round_corner(const Path *path, double at, double radius, Path *out, double *fits);

// Two paths that share an end (last of a, first of b), joined with their corner rounded.
GeomError path_join_rounded(const Path *a, const Path *b, double radius, Path *out, double *fits);

#endif
