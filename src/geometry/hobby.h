// Hobby's interpolating curve: a fair curve through points, with directions and tension where wanted.
// Source: J. D. Hobby, "Smooth, easy to compute interpolating splines", Discrete and Computational Geometry 1
// (1986); as used by METAFONT and MetaPost.
#ifndef REBATO_GEOMETRY_HOBBY_H
#define REBATO_GEOMETRY_HOBBY_H

#include "geometry/path.h"

typedef struct Knot {
    Point at;
    bool has_leave, has_arrive;     // a direction given; one alone serves both sides of an inner knot
    double leave, arrive;           // degrees
    double tension_out, tension_in; // 0 stands for 1; less than 3/4 counts as 3/4
} Knot;

// Through the knots in order; closed comes back to the first. Open ends without a direction get curl 1.
// Two knots without a
// direction give a straight line. Directions that differ before and after a knot make a corner there.
// GEOM_NO_DIRECTION when neighbours coincide or there are fewer than two knots, GEOM_TOO_MANY,
// GEOM_NOT_FINITE.
GeomError path_through(const Knot *knots, int count, bool closed, Path *out);

// The drafting curve of one cubic: handles lie on the given directions; the handle at a is k times the span
// of a-b across the axis a's direction runs along, the handle at b likewise on the other axis (common
// drafting practice, no source): |handle at a| = k |bx - ax|, |handle at b| = k |by - ay|, for a direction
// along x at a. In general the spans are the components of b - a along a's direction and square to it. k =
// 0.5523 is the quarter-ellipse value. A span of nothing leaves that handle without length. GEOM_NO_DIRECTION
// when a is b or k is negative, GEOM_NOT_FINITE.
GeomError path_box_curve(Point a, double leave, Point b, double arrive, double k, Path *out);

#endif
