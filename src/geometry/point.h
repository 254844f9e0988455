// Points and vectors in millimetres, x to the right, y up. Angles are degrees, counter-clockwise from the x
// axis.
#ifndef REBATO_GEOMETRY_POINT_H
#define REBATO_GEOMETRY_POINT_H

#include <math.h>
#include <stdbool.h>

#include "geometry/error.h"
#include "geometry/tolerance.h"

#define PI 3.14159265358979323846
#define DEGREES(rad) ((rad) * (180.0 / PI))
#define RADIANS(deg) ((deg) * (PI / 180.0))

typedef struct Point {
    double x, y;
} Point;

static inline Point point(double x, double y) {
    return (Point){x, y};
}
static inline Point point_add(Point a, Point b) {
    return (Point){a.x + b.x, a.y + b.y};
}
static inline Point point_sub(Point a, Point b) {
    return (Point){a.x - b.x, a.y - b.y};
}
static inline Point point_scale(Point a, double k) {
    return (Point){a.x * k, a.y * k};
}
static inline Point point_mix(Point a, Point b, double t) {
    return (Point){a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t};
}
static inline double point_dot(Point a, Point b) {
    return a.x * b.x + a.y * b.y;
}
static inline double point_cross(Point a, Point b) {
    return a.x * b.y - a.y * b.x;
}
static inline double point_size(Point a) {
    return hypot(a.x, a.y);
}
static inline double point_distance(Point a, Point b) {
    return hypot(b.x - a.x, b.y - a.y);
}
static inline bool point_same(Point a, Point b) {
    return point_distance(a, b) <= POINT_SAME_MM;
}
// Turned 90 degrees counter-clockwise, and clockwise.
static inline Point point_left(Point a) {
    return (Point){-a.y, a.x};
}
static inline Point point_right(Point a) {
    return (Point){a.y, -a.x};
}
static inline bool point_finite(Point a) {
    return fabs(a.x) <= COORDINATE_LIMIT_MM && fabs(a.y) <= COORDINATE_LIMIT_MM; // false for NaN too
}

// The unit vector along a; (0, 0) for a vector without size or one that is not finite.
Point point_unit(Point a);

// The unit vector in the direction angle (degrees); exact on the axes.
Point point_heading(double angle);

// distance from `from` in the direction angle (degrees).
Point point_polar(Point from, double angle, double distance);

// The direction of a vector in degrees, in (-180, 180]; 0 for the zero vector.
double point_angle(Point vector);

// The turn from direction a to direction b, in degrees, in (-180, 180]; counter-clockwise is positive. 0
// where one of them is the zero vector.
double point_turn(Point a, Point b);

// The meeting point of the endless lines a0-a1 and b0-b1. GEOM_NO_DIRECTION, GEOM_PARALLEL
// (below PARALLEL_RAD), GEOM_NOT_FINITE (also when they meet beyond the limit).
GeomError point_meet_lines(Point a0, Point a1, Point b0, Point b1, Point *out);

// The foot of the perpendicular from p to the endless line a-b. GEOM_NO_DIRECTION, GEOM_NOT_FINITE.
GeomError point_foot_on_line(Point p, Point a, Point b, Point *out);

#endif
