// Measures of paths: lengths and places along them, nearest points and feet, areas and windings. Each walks
// the segments once; what one segment measures is in segment.c.
#include "geometry/path.h"

#include <assert.h>

#include "base/memory.h"

double path_length(const Path *path) {
    double sum = 0;
    for (int i = 0; i < path->count; i++)
        sum += segment_length(&path->items[i]);
    return sum;
}

// The hull of a curve holds it, so a path whose control points lie along its chord in order is straight.
bool path_is_straight(const Path *path) {
    if (path->count == 0)
        return false;
    const Segment chord = segment_line(path_first(path), path_last(path));
    const double length = segment_length(&chord);
    double so_far = 0;
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        const Point hull[4] = {s->p0, s->p1, s->p2, s->p3};
        for (int j = 0; j < 4; j++) {
            const double t = segment_nearest(&chord, hull[j]);
            if (!(point_distance(segment_point(&chord, t), hull[j]) <= POINT_SAME_MM))
                return false;
            if (t * length < so_far - POINT_SAME_MM)
                return false;
            so_far = fmax(so_far, t * length);
        }
    }
    return true;
}

PathSpot path_end_spot(const Path *path, PathEnd end) {
    assert(path->count > 0);
    return end == PATH_FIRST ? (PathSpot){0, 0} : (PathSpot){path->count - 1, 1};
}

GeomError path_spot_at(const Path *path, double distance, PathSpot *out) {
    assert(path->count > 0);
    if (!isfinite(distance))
        return GEOM_NOT_FINITE;
    if (distance < 0) {
        double left = -distance;
        for (int i = path->count - 1; i >= 0; i--) {
            const double length = segment_length(&path->items[i]);
            if (left <= length) {
                *out = (PathSpot){i, segment_at_length(&path->items[i], length - left)};
                return GEOM_OK;
            }
            left -= length;
        }
        if (!(left <= POINT_SAME_MM))
            return GEOM_BEYOND_END;
        *out = path_end_spot(path, PATH_FIRST);
        return GEOM_OK;
    }
    double left = distance;
    for (int i = 0; i < path->count; i++) {
        const double length = segment_length(&path->items[i]);
        if (left <= length) {
            *out = (PathSpot){i, segment_at_length(&path->items[i], left)};
            return GEOM_OK;
        }
        left -= length;
    }
    if (!(left <= POINT_SAME_MM))
        return GEOM_BEYOND_END;
    *out = path_end_spot(path, PATH_LAST);
    return GEOM_OK;
}

GeomError path_at(const Path *path, double distance, Point *out) {
    PathSpot spot;
    const GeomError error = path_spot_at(path, distance, &spot);
    if (!error)
        *out = path_spot_point(path, spot);
    return error;
}

Point path_spot_point(const Path *path, PathSpot spot) {
    assert(spot.index >= 0 && spot.index < path->count);
    return segment_point(&path->items[spot.index], spot.t);
}

Point path_spot_direction(const Path *path, PathSpot spot) {
    assert(spot.index >= 0 && spot.index < path->count);
    return segment_direction(&path->items[spot.index], spot.t);
}

double path_spot_distance(const Path *path, PathSpot spot) {
    assert(spot.index >= 0 && spot.index < path->count);
    double sum = 0;
    for (int i = 0; i < spot.index; i++)
        sum += segment_length(&path->items[i]);
    return sum + segment_length_to(&path->items[spot.index], spot.t);
}

// Segments that are points have no direction, so the next one in from the end answers.
Point path_direction(const Path *path, PathEnd end) {
    assert(path->count > 0);
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[end == PATH_FIRST ? i : path->count - 1 - i];
        if (!segment_is_point(s))
            return segment_direction(s, end == PATH_FIRST ? 0 : 1);
    }
    return point(0, 0);
}

PathSpot path_nearest(const Path *path, Point p) {
    assert(path->count > 0);
    PathSpot best = {0, 0};
    double least = point_distance(path_first(path), p);
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        if (box_distance(segment_hull_box(s), p) > least)
            continue;
        const double t = segment_nearest(s, p);
        const double distance = point_distance(segment_point(s, t), p);
        if (distance < least) {
            least = distance;
            best = (PathSpot){i, t};
        }
    }
    return best;
}

double path_distance(const Path *path, Point p) {
    return point_distance(path_spot_point(path, path_nearest(path, p)), p);
}

GeomError path_along(const Path *path, Point p, double *out) {
    const PathSpot spot = path_nearest(path, p);
    if (!(point_distance(path_spot_point(path, spot), p) <= POINT_ON_MM))
        return GEOM_NOT_ON_PATH;
    *out = path_spot_distance(path, spot);
    return GEOM_OK;
}

GeomError path_foot(const Path *path, Point p, Point *out) {
    assert(path->count > 0);
    const Point nearest = path_spot_point(path, path_nearest(path, p));
    if (point_same(nearest, p)) { // on the path every direction is the perpendicular's
        *out = nearest;
        return GEOM_OK;
    }
    double least = INFINITY;
    Point best = nearest;
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        if (box_distance(segment_hull_box(s), p) >= least)
            continue;
        double feet[SEGMENT_FEET_MAX];
        const int count = segment_feet(s, p, feet);
        for (int j = 0; j < count; j++) {
            const Point foot = segment_point(s, feet[j]);
            const double distance = point_distance(foot, p);
            if (distance < least) {
                least = distance;
                best = foot;
            }
        }
    }
    if (least == INFINITY)
        return GEOM_NO_FOOT;
    *out = best;
    return GEOM_OK;
}

// Measured from the first point, so that little is lost far from the origin; that also makes the straight
// line back to it worth nothing.
double path_area(const Path *path) {
    if (path->count == 0)
        return 0;
    const Affine to_zero = affine_move(point_scale(path_first(path), -1));
    double sum = 0;
    for (int i = 0; i < path->count; i++) {
        const Segment moved = segment_transform(&path->items[i], to_zero);
        sum += segment_area(&moved);
    }
    return sum;
}

Box path_box(const Path *path) {
    Box box = box_empty();
    for (int i = 0; i < path->count; i++)
        box = box_join(box, segment_box(&path->items[i]));
    return box;
}

// A stretch of a segment that only rises or only falls, against the ray from p to the right. It counts where
// it goes from below p's level to p's level or above, or back: half-open, so that a joint on the ray counts
// once.
static int winding_of_stretch(const Segment *s, double t0, double t1, Point p) {
    const Point from = segment_point(s, t0), to = segment_point(s, t1);
    const bool from_below = from.y <= p.y, to_below = to.y <= p.y;
    if (from_below == to_below)
        return 0;
    double low = t0, high = t1;
    Point at = from;
    for (int i = 0; i < 60; i++) {
        const double t = (low + high) / 2;
        at = segment_point(s, t);
        if ((at.y <= p.y) == from_below)
            low = t;
        else
            high = t;
    }
    if (at.x <= p.x)
        return 0;
    return from_below ? 1 : -1;
}

static int winding_of_segment(const Segment *s, Point p) {
    const Box hull = segment_hull_box(s);
    if (hull.least.y > p.y || hull.most.y < p.y || hull.most.x <= p.x)
        return 0;
    if (hull.least.x > p.x || s->kind == SEGMENT_LINE)
        return winding_of_stretch(s, 0, 1, p); // only whether it passes the level counts
    double cuts[4] = {0, 1, 1, 1};
    int count = 1;
    const double d0 = s->p1.y - s->p0.y, d1 = s->p2.y - s->p1.y, d2 = s->p3.y - s->p2.y;
    const double a = d0 - 2 * d1 + d2, b = d1 - d0, inside = b * b - a * d0;
    if (inside > 0) {
        const double q = -(b + copysign(sqrt(inside), b));
        const double r0 = fmin(q / a, d0 / q), r1 = fmax(q / a, d0 / q);
        if (r0 > 0 && r0 < 1)
            cuts[count++] = r0;
        if (r1 > 0 && r1 < 1)
            cuts[count++] = r1;
    }
    cuts[count] = 1;
    int sum = 0;
    for (int i = 0; i < count; i++)
        sum += winding_of_stretch(s, cuts[i], cuts[i + 1], p);
    return sum;
}

int path_winding(const Path *path, Point p) {
    if (path->count == 0)
        return 0;
    int sum = 0;
    for (int i = 0; i < path->count; i++)
        sum += winding_of_segment(&path->items[i], p);
    const Segment back = segment_line(path_last(path), path_first(path));
    return sum + winding_of_segment(&back, p);
}

bool path_contains(const Path *path, Point p) {
    return path->count > 0 && (path_winding(path, p) != 0 || path_distance(path, p) <= POINT_SAME_MM);
}

// The turn of the tangent from d0 to d2, where p' runs as the quadratic Bezier curve d0, d1, d2. Where the
// two turns of its control polygon stay below half a turn, the curve turns as the polygon does; else it is
// halved.
static double turning(Point d0, Point d1, Point d2, int depth) {
    const double first = point_turn(d0, d1), second = point_turn(d1, d2);
    if (fabs(first) + fabs(second) < 179)
        return first + second;
    if (depth == 0) // across a cusp
        return point_turn(d0, d2);
    const Point a = point_mix(d0, d1, 0.5), b = point_mix(d1, d2, 0.5), middle = point_mix(a, b, 0.5);
    return turning(d0, a, middle, depth - 1) + turning(middle, b, d2, depth - 1);
}

static double segment_turning(const Segment *s) {
    if (s->kind == SEGMENT_LINE)
        return 0;
    Point d[3] = {point_sub(s->p1, s->p0), point_sub(s->p2, s->p1), point_sub(s->p3, s->p2)};
    for (int i = 0; i < 3; i++) {
        if (point_size(d[i]) <= HANDLE_ZERO_MM)
            d[i] = point(0, 0); // turns nothing; the next one carries the direction
    }
    if (d[1].x == 0 && d[1].y == 0)
        return point_turn(d[0], d[2]);
    return turning(d[0], d[1], d[2], 40);
}

double path_turning(const Path *path) {
    double sum = 0;
    Point before = path_is_closed(path) ? path_direction(path, PATH_LAST) : point(0, 0);
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        if (segment_is_point(s))
            continue;
        sum += point_turn(before, segment_direction(s, 0)) + segment_turning(s);
        before = segment_direction(s, 1);
    }
    return sum;
}

// A chord over the step h of t leaves the curve by at most h^2/8 max |p''|, and |p''| is at most 6 times the
// larger second difference of the control points.
static int chords_for(const Segment *s, double tolerance) {
    if (s->kind == SEGMENT_LINE)
        return 1;
    const double a = hypot(s->p0.x - 2 * s->p1.x + s->p2.x, s->p0.y - 2 * s->p1.y + s->p2.y);
    const double b = hypot(s->p1.x - 2 * s->p2.x + s->p3.x, s->p1.y - 2 * s->p2.y + s->p3.y);
    const double count = ceil(sqrt(6 * fmax(a, b) / (8 * tolerance)));
    return count >= 1 ? (int)fmin(count, 20000) : 1; // 20000 only past the limit of coordinates
}

void path_flatten(const Path *path, double tolerance, Point **points, int *count) {
    assert(path->count > 0 && tolerance > 0);
    int chords = 0;
    for (int i = 0; i < path->count; i++)
        chords += chords_for(&path->items[i], tolerance);
    Point *const all = mem_new(sizeof *all * ((size_t)chords + 1));
    int n = 0;
    all[n++] = path_first(path);
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        const int pieces = chords_for(s, tolerance);
        for (int j = 1; j <= pieces; j++)
            all[n++] = segment_point(s, (double)j / pieces);
    }
    *points = all;
    *count = n;
}
