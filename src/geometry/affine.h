// Rigid moves of the paper: move, swing, mirror, and laying one line to another. x' = a x + c y + e; y' = b x
// + d y + f.
#ifndef REBATO_GEOMETRY_AFFINE_H
#define REBATO_GEOMETRY_AFFINE_H

#include "geometry/point.h"

typedef struct Affine {
    double a, b, c, d, e, f;
} Affine;

Affine affine_identity(void);
Affine affine_move(Point by);
Affine affine_swing(Point centre, double degrees); // counter-clockwise, exact for quarter turns
Affine affine_scale(double k);
GeomError affine_mirror(Point a, Point b, Affine *out); // endless line a-b; GEOM_NO_DIRECTION
Affine affine_then(Affine first, Affine second);
Point affine_point(Affine m, Point p);
bool affine_turns_over(Affine m); // a mirror image: the determinant is negative

// Lays the line from-toward of one sheet on the line onto-along of another, from on onto, turned over so that
// two bodies drafted on the same side of their lines come to lie on opposite sides, then swung about onto by
// degrees, counter-clockwise. So with the line running right and the first body below it, a positive swing
// opens a gap between the two bodies and a negative one overlaps them. Source: plane geometry.
// GEOM_NO_DIRECTION, GEOM_NOT_FINITE.
GeomError affine_lay(Point from, Point toward, Point onto, Point along, double degrees, Affine *out);

#endif
