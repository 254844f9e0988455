#include "geometry/affine.h"

Affine affine_identity(void) {
    return (Affine){.a = 1, .d = 1};
}

Affine affine_move(Point by) {
    return (Affine){.a = 1, .d = 1, .e = by.x, .f = by.y};
}

// The move with this linear part that leaves p where it is.
static Affine about(double a, double b, double c, double d, Point p) {
    return (Affine){
        .a = a, .b = b, .c = c, .d = d, .e = p.x - (a * p.x + c * p.y), .f = p.y - (b * p.x + d * p.y)};
}

Affine affine_swing(Point centre, double degrees) {
    const Point h = point_heading(degrees);
    return about(h.x, h.y, -h.y, h.x, centre);
}

Affine affine_scale(double k) {
    return (Affine){.a = k, .d = k};
}

// For the unit vector u along the line: v' = 2 (v . u) u - v, so the matrix is 2 u u^T - 1.
GeomError affine_mirror(Point a, Point b, Affine *out) {
    if (!point_finite(a) || !point_finite(b))
        return GEOM_NOT_FINITE;
    if (point_same(a, b))
        return GEOM_NO_DIRECTION;
    const Point u = point_unit(point_sub(b, a));
    const double cos2 = u.x * u.x - u.y * u.y, sin2 = 2 * u.x * u.y;
    *out = about(cos2, sin2, sin2, -cos2, a);
    return GEOM_OK;
}

Affine affine_then(Affine first, Affine second) {
    return (Affine){
        .a = second.a * first.a + second.c * first.b,
        .b = second.b * first.a + second.d * first.b,
        .c = second.a * first.c + second.c * first.d,
        .d = second.b * first.c + second.d * first.d,
        .e = second.a * first.e + second.c * first.f + second.e,
        .f = second.b * first.e + second.d * first.f + second.f,
    };
}

Point affine_point(Affine m, Point p) {
    return point(m.a * p.x + m.c * p.y + m.e, m.b * p.x + m.d * p.y + m.f);
}

bool affine_turns_over(Affine m) {
    return m.a * m.d - m.b * m.c < 0;
}

// With the unit vectors u along from-toward and w along onto-along, the point from + a u + q left(u) goes to
// onto + a w - q left(w): its distance along the line is kept, its side is changed. Hence the linear part
// M = w u^T - left(w) left(u)^T, a reflection, and then the swing about onto.
GeomError affine_lay(Point from, Point toward, Point onto, Point along, double degrees, Affine *out) {
    if (!point_finite(from) || !point_finite(toward) || !point_finite(onto) || !point_finite(along) ||
        !isfinite(degrees))
        return GEOM_NOT_FINITE;
    if (point_same(from, toward) || point_same(onto, along))
        return GEOM_NO_DIRECTION;
    const Point u = point_unit(point_sub(toward, from)), w = point_unit(point_sub(along, onto));
    const Point nu = point_left(u), nw = point_left(w);
    const Affine turn = {.a = w.x * u.x - nw.x * nu.x,
                         .b = w.y * u.x - nw.y * nu.x,
                         .c = w.x * u.y - nw.x * nu.y,
                         .d = w.y * u.y - nw.y * nu.y};
    const Affine to_zero = affine_move(point_scale(from, -1));
    const Affine laid = affine_then(affine_then(to_zero, turn), affine_move(onto));
    *out = affine_then(laid, affine_swing(onto, degrees));
    return GEOM_OK;
}
