// Rigid moves of the paper: move, swing, mirror, and laying one line to another. x' = a x + c y + e; y' = b x + d y + f.
#ifndef REBATO_GEOMETRY_AFFINE_H
#define REBATO_GEOMETRY_AFFINE_H

#include "geometry/point.h"

typedef struct Affine {
    double a, b, c, d, e, f;
} Affine;

Affine affine_identity(void);
Affine affine_move(Point by);
Affine affine_swing(Point about, double degrees); // counter-clockwise
Affine affine_scale(double k);
GeomError affine_mirror(Point a, Point b, Affine *out); // over the endless line a-b; GEOM_NO_DIRECTION
Affine affine_then(Affine first, Affine second);
Point affine_point(Affine m, Point p);
bool affine_turns_over(Affine m); // a mirror image: the determinant is negative

// Lays the line from-toward of one sheet on the line onto-along of another, from on onto, turned over so that the two
// bodies lie on opposite sides of the shared line, then swung about the shared point by angle (degrees,
// counter-clockwise). Source: trade notes 0.5 (plane geometry). GEOM_NO_DIRECTION.
GeomError affine_lay(Point from, Point toward, Point onto, Point along, double degrees, Affine *out);

#endif
