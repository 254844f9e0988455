#include "geometry/point.h"

Point point_unit(Point a) {
    const double size = point_size(a);
    if (!(size > 0) || !isfinite(size))
        return point(0, 0);
    return point(a.x / size, a.y / size);
}

Point point_heading(double angle) {
    const double turn = fmod(angle, 360);
    const double quarters = turn / 90;
    if (quarters == floor(quarters)) {
        static const Point AXES[4] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
        return AXES[((int)quarters + 4) % 4];
    }
    return point(cos(RADIANS(turn)), sin(RADIANS(turn)));
}

Point point_polar(Point from, double angle, double distance) {
    return point_add(from, point_scale(point_heading(angle), distance));
}

// atan2 gives -180 for a negative zero; the range here has one name for every direction.
static double angle_named_once(double radians) {
    const double degrees = DEGREES(radians);
    return degrees <= -180 ? 180 : degrees;
}

double point_angle(Point vector) {
    return angle_named_once(atan2(vector.y, vector.x));
}

double point_turn(Point a, Point b) {
    return angle_named_once(atan2(point_cross(a, b), point_dot(a, b)));
}

GeomError point_meet_lines(Point a0, Point a1, Point b0, Point b1, Point *out) {
    if (!point_finite(a0) || !point_finite(a1) || !point_finite(b0) || !point_finite(b1))
        return GEOM_NOT_FINITE;
    if (point_same(a0, a1) || point_same(b0, b1))
        return GEOM_NO_DIRECTION;

    // a0 + s u = b0 + t w, crossed with w: s (u x w) = (b0 - a0) x w, for unit vectors u and w.
    const Point u = point_unit(point_sub(a1, a0)), w = point_unit(point_sub(b1, b0));
    const double sine = point_cross(u, w);
    if (fabs(sine) <= PARALLEL_RAD)
        return GEOM_PARALLEL;
    const double s = point_cross(point_sub(b0, a0), w) / sine;
    const Point meet = point_add(a0, point_scale(u, s));
    if (!point_finite(meet))
        return GEOM_NOT_FINITE;
    *out = meet;
    return GEOM_OK;
}

GeomError point_foot_on_line(Point p, Point a, Point b, Point *out) {
    if (!point_finite(p) || !point_finite(a) || !point_finite(b))
        return GEOM_NOT_FINITE;
    if (point_same(a, b))
        return GEOM_NO_DIRECTION;
    const Point u = point_unit(point_sub(b, a));
    *out = point_add(a, point_scale(u, point_dot(point_sub(p, a), u)));
    return GEOM_OK;
}
