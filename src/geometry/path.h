// A path: segments joined end to end. A straight line is a path of one segment; curves, arcs, chains and
// closed outlines are paths too. Distances are measured along it from its first point, in millimetres.
#ifndef REBATO_GEOMETRY_PATH_H
#define REBATO_GEOMETRY_PATH_H

#include <stddef.h>

#include "geometry/segment.h"

// capacity 0 with items set: borrowed segments, which path_finish leaves alone. A zeroed Path is an empty
// path. An empty path measures nothing; functions that give a place on a path want at least one segment (an
// assert). A segment may be a point: it has no direction and is passed over where one is asked for.
typedef struct Path {
    Segment *items;
    int count;
    int capacity;
} Path;

// A place on a path: segment index and its parameter t.
typedef struct PathSpot {
    int index;
    double t;
} PathSpot;

typedef enum PathEnd { PATH_FIRST, PATH_LAST } PathEnd;
typedef enum Side { SIDE_LEFT, SIDE_RIGHT } Side; // looking along the path

void path_finish(Path *path);
void path_clear(Path *path); // empties it, keeps its memory
// All functions below that give a Path replace what out held; out may not be one of the inputs. On failure
// out is untouched unless said.
void path_copy(const Path *path, Path *out);
// The first point of the segment becomes the path's last one exactly, its handle moving along.
void path_add(Path *path, Segment segment);
void path_add_line(Path *path, Point to); // on a path with at least one segment
void path_add_path(Path *path, const Path *more);
void path_line(Point from, Point to, Path *out);
// GEOM_NO_DIRECTION when neighbours are one or there are fewer than two, GEOM_TOO_MANY, GEOM_NOT_FINITE.
GeomError path_polyline(const Point *points, int count, Path *out);

// An arc round centre from angle `from` through `sweep` degrees (positive counter-clockwise), as cubics of at
// most 22.5 degrees: the radius is right to 1 part in 10^7. GEOM_NO_DIRECTION when the radius is not positive
// or the arc is a point, GEOM_TOO_MANY, GEOM_NOT_FINITE; so too below.
GeomError path_arc(Point centre, double radius, double from, double sweep, Path *out);

// The arc that leaves `from` in the direction `angle`, with the given length, turning `sweep` degrees in all;
// a straight line for 0.
GeomError path_arc_of_length(Point from, double angle, double length, double sweep, Path *out);

Point path_first(const Path *path);
Point path_last(const Path *path);
Point path_end(const Path *path, PathEnd end);
bool path_is_closed(const Path *path);   // last point is the first
bool path_is_straight(const Path *path); // within POINT_SAME_MM of its chord
bool path_finite(const Path *path);
double path_length(const Path *path);

// The place at a distance; negative counts from the far end. GEOM_BEYOND_END past an end by over
// POINT_SAME_MM, GEOM_NOT_FINITE.
GeomError path_spot_at(const Path *path, double distance, PathSpot *out);
GeomError path_at(const Path *path, double distance, Point *out);
Point path_spot_point(const Path *path, PathSpot spot);
Point path_spot_direction(const Path *path, PathSpot spot); // unit tangent
double path_spot_distance(const Path *path, PathSpot spot);
PathSpot path_end_spot(const Path *path, PathEnd end);
// Unit tangent at an end, along the path; (0,0) for a path that is a point.
Point path_direction(const Path *path, PathEnd end);

PathSpot path_nearest(const Path *path, Point p);
double path_distance(const Path *path, Point p); // from p to its nearest point

// How far along the path p lies. GEOM_NOT_ON_PATH when it is off by more than POINT_ON_MM.
GeomError path_along(const Path *path, Point p, double *out);

// The nearest point from which the perpendicular to the path passes through p; p itself where it is on the
// path. The corners of a path are no feet, its ends only where the perpendicular stands on them.
// GEOM_NO_FOOT.
GeomError path_foot(const Path *path, Point p, Point *out);

// The stretch between two distances; to before from gives it turned round. GEOM_NO_DIRECTION when they are
// one place, GEOM_BEYOND_END, GEOM_NOT_FINITE.
GeomError path_between(const Path *path, double from, double to, Path *out);
void path_between_spots(const Path *path, PathSpot from, PathSpot to, Path *out); // from before to
// Either part may be NULL. Pieces that are points are left out. GEOM_NO_DIRECTION at an end, GEOM_BEYOND_END,
// GEOM_NOT_FINITE.
GeomError path_split(const Path *path, double at, Path *before, Path *after);
// Straight on along the tangent; a line grows, a curve gets a line. GEOM_NO_DIRECTION when the distance is
// not positive, GEOM_NOT_FINITE.
GeomError path_extend(const Path *path, PathEnd end, double distance, Path *out);
void path_reverse(const Path *path, Path *out);
void path_transform(const Path *path, Affine m, Path *out);

// Joins parts in the order given, each turned round where that lets it follow on (the first by the second).
// Gaps up to POINT_ON_MM are closed, also between the last part and the first. GEOM_TOO_MANY,
// GEOM_NOT_JOINED; *at (may be NULL) is the index of the part that does not follow.
GeomError path_join(const Path *const *parts, int count, Path *out, int *at);

// Signed, counter-clockwise positive. Area and winding take an open path as closed by a straight line.
double path_area(const Path *path);
int path_winding(const Path *path, Point p);
bool path_contains(const Path *path, Point p); // winding not 0, or on the path
Box path_box(const Path *path);

// The total turn of the tangent in degrees, corners included, also the one where it closes.
double path_turning(const Path *path);

// Chords within tolerance of the path, first and last points included; allocates *points, the caller frees it
// with mem_free.
void path_flatten(const Path *path, double tolerance, Point **points, int *count);

#endif
