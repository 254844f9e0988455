// One piece of a path: a straight line or a cubic Bezier curve. A value; a line keeps its handles at its
// thirds, so that every formula for cubics holds for it too.
#ifndef REBATO_GEOMETRY_SEGMENT_H
#define REBATO_GEOMETRY_SEGMENT_H

#include "geometry/affine.h"
#include "geometry/point.h"

typedef enum SegmentKind { SEGMENT_LINE, SEGMENT_CUBIC } SegmentKind;

typedef struct Segment {
    SegmentKind kind;
    Point p0, p1, p2, p3; // first point, its handle, the last point's handle, last point
} Segment;

typedef struct Box {
    Point least, most; // empty when least.x > most.x
} Box;

Segment segment_line(Point from, Point to);
Segment segment_cubic(Point p0, Point p1, Point p2, Point p3);

Point segment_point(const Segment *s, double t);      // t in 0..1
Point segment_derivative(const Segment *s, double t); // dp/dt, mm
Point segment_second(const Segment *s, double t);     // d2p/dt2
// Unit tangent. Where a handle is zero, the limit; at a cusp, the direction it leaves in; (0,0) for a point.
Point segment_direction(const Segment *s, double t);
// 1/mm, positive turning left; 0 where the tangent vanishes.
double segment_curvature(const Segment *s, double t);

// A segment that is not finite has length NaN.
double segment_length(const Segment *s);
double segment_length_to(const Segment *s, double t);        // arc length from 0 to t
double segment_at_length(const Segment *s, double distance); // the t at that arc length, held to 0..1

// Cut pieces of a line are lines; every piece starts and ends exactly where its neighbour does.
void segment_split(const Segment *s, double t, Segment *left, Segment *right); // either may be NULL
Segment segment_between(const Segment *s, double t0, double t1);
Segment segment_reverse(const Segment *s);
Segment segment_transform(const Segment *s, Affine m);
double segment_nearest(const Segment *s, Point p); // the t nearest to p, the first of equals

// Every t where the perpendicular to the segment passes through p (within POINT_SAME_MM at the two ends),
// rising; at most SEGMENT_FEET_MAX. A point segment has none.
#define SEGMENT_FEET_MAX 18
int segment_feet(const Segment *s, Point p, double *out);

Box segment_box(const Segment *s);      // tight
Box segment_hull_box(const Segment *s); // round the control points: quicker, never smaller
// The integral of (x dy - y dx) / 2 along it: sums to the signed area of an outline.
double segment_area(const Segment *s);
bool segment_finite(const Segment *s);
bool segment_is_point(const Segment *s); // all of it within POINT_SAME_MM of its first point

Box box_empty(void);
Box box_join(Box a, Box b);
Box box_add(Box a, Point p);
bool box_is_empty(Box a);
bool box_touch(Box a, Box b, double margin); // nearer than margin along both axes; false for an empty box
double box_distance(Box a, Point p);         // 0 inside; infinite for an empty box

#endif
