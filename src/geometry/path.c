#include "geometry/path.h"

#include <assert.h>

#include "base/memory.h"

#define ARC_PIECE_DEGREES 22.5

void path_finish(Path *path) {
    if (path->capacity > 0)
        mem_free(path->items);
    *path = (Path){0};
}

void path_clear(Path *path) {
    if (path->capacity == 0)
        path->items = NULL;
    path->count = 0;
}

void path_copy(const Path *path, Path *out) {
    assert(out != path);
    path_clear(out);
    path_add_path(out, path);
}

// Moves the first point of a segment to `to`, its handle with it, so that the direction there stays.
static Segment started_at(Segment segment, Point to) {
    if (segment.kind == SEGMENT_LINE)
        return segment_line(to, segment.p3);
    segment.p1 = point_add(segment.p1, point_sub(to, segment.p0));
    segment.p0 = to;
    return segment;
}

static Segment ended_at(Segment segment, Point to) {
    if (segment.kind == SEGMENT_LINE)
        return segment_line(segment.p0, to);
    segment.p2 = point_add(segment.p2, point_sub(to, segment.p3));
    segment.p3 = to;
    return segment;
}

void path_add(Path *path, Segment segment) {
    assert(path->capacity > 0 || !path->items); // borrowed segments do not grow
    if (path->count > 0) {
        const Point last = path_last(path);
        if (last.x != segment.p0.x || last.y != segment.p0.y)
            segment = started_at(segment, last);
    }
    ARRAY_ADD(path, segment);
}

void path_add_line(Path *path, Point to) {
    path_add(path, segment_line(path_last(path), to));
}

void path_add_path(Path *path, const Path *more) {
    const int count = more->count; // more may be path itself
    for (int i = 0; i < count; i++)
        path_add(path, more->items[i]);
}

void path_line(Point from, Point to, Path *out) {
    path_clear(out);
    path_add(out, segment_line(from, to));
}

GeomError path_polyline(const Point *points, int count, Path *out) {
    if (count > PATH_SEGMENTS_MAX + 1)
        return GEOM_TOO_MANY;
    if (count < 2)
        return GEOM_NO_DIRECTION;
    for (int i = 0; i < count; i++) {
        if (!point_finite(points[i]))
            return GEOM_NOT_FINITE;
        if (i > 0 && point_same(points[i - 1], points[i]))
            return GEOM_NO_DIRECTION;
    }
    path_clear(out);
    for (int i = 1; i < count; i++)
        path_add(out, segment_line(points[i - 1], points[i]));
    return GEOM_OK;
}

// The cubic that follows an arc of a radius through the angle d has handles of 4/3 tan(d/4) radius: it meets
// the arc at both ends and in the middle (M. Goldapp, "Approximation of circular arcs by cubic polynomials",
// Computer Aided Geometric Design 8, 1991). Written by the length l = radius d of the arc it holds for a
// straight line too.
static double arc_handle(double length, double radians) {
    const double quarter = radians / 4;
    return quarter == 0 ? length / 3 : length / 3 * (tan(quarter) / quarter);
}

// 90 degrees are four pieces also where rounding makes them a hair more.
static int arc_pieces(double sweep) {
    const double count = ceil(fabs(sweep) / ARC_PIECE_DEGREES - 1e-9);
    return count < 1 ? 1 : (int)count;
}

GeomError path_arc(Point centre, double radius, double from, double sweep, Path *out) {
    if (!point_finite(centre) || !(fabs(radius) <= COORDINATE_LIMIT_MM) || !isfinite(from) ||
        !isfinite(sweep))
        return GEOM_NOT_FINITE;
    if (fabs(sweep) > ARC_PIECE_DEGREES * PATH_SEGMENTS_MAX)
        return GEOM_TOO_MANY;
    if (radius <= 0 || radius * RADIANS(fabs(sweep)) <= POINT_SAME_MM)
        return GEOM_NO_DIRECTION;
    const int count = arc_pieces(sweep);
    const double step = sweep / count;
    const double handle = arc_handle(radius * RADIANS(step), RADIANS(step));
    const Point start = point_polar(centre, from, radius);
    path_clear(out);
    Point p0 = start, along = point_left(point_heading(from));
    for (int i = 1; i <= count; i++) {
        const double angle = i == count ? from + sweep : from + step * i;
        const Point p3 = point_polar(centre, angle, radius);
        const Point next = point_left(point_heading(angle));
        const Point p1 = point_add(p0, point_scale(along, handle)),
                    p2 = point_sub(p3, point_scale(next, handle));
        path_add(out, segment_cubic(p0, p1, p2, i == count && fabs(sweep) == 360 ? start : p3));
        p0 = p3;
        along = next;
    }
    return GEOM_OK;
}

// The chord of an arc of length l turning through d is l sin(d/2) / (d/2) long and lies at d/2 to its start;
// that needs no centre, so it holds up to the straight line.
GeomError path_arc_of_length(Point from, double angle, double length, double sweep, Path *out) {
    if (!point_finite(from) || !isfinite(angle) || !(fabs(length) <= COORDINATE_LIMIT_MM) || !isfinite(sweep))
        return GEOM_NOT_FINITE;
    if (fabs(sweep) > ARC_PIECE_DEGREES * PATH_SEGMENTS_MAX)
        return GEOM_TOO_MANY;
    if (length <= POINT_SAME_MM)
        return GEOM_NO_DIRECTION;
    path_clear(out);
    if (sweep == 0) {
        path_line(from, point_polar(from, angle, length), out);
        return GEOM_OK;
    }
    const int count = arc_pieces(sweep);
    const double step = sweep / count, piece = length / count, half = RADIANS(step) / 2;
    const double chord = piece * (sin(half) / half), handle = arc_handle(piece, RADIANS(step));
    Point p0 = from;
    for (int i = 0; i < count; i++) {
        const double leave = angle + step * i, arrive = angle + step * (i + 1);
        const Point p3 = point_polar(p0, leave + step / 2, chord);
        path_add(out,
                 segment_cubic(p0, point_polar(p0, leave, handle), point_polar(p3, arrive, -handle), p3));
        p0 = p3;
    }
    return GEOM_OK;
}

Point path_first(const Path *path) {
    assert(path->count > 0);
    return path->items[0].p0;
}

Point path_last(const Path *path) {
    assert(path->count > 0);
    return path->items[path->count - 1].p3;
}

Point path_end(const Path *path, PathEnd end) {
    return end == PATH_FIRST ? path_first(path) : path_last(path);
}

bool path_is_closed(const Path *path) {
    if (path->count == 0 || !point_same(path_first(path), path_last(path)))
        return false;
    return path->count > 1 || !segment_is_point(&path->items[0]);
}

bool path_finite(const Path *path) {
    for (int i = 0; i < path->count; i++) {
        if (!segment_finite(&path->items[i]))
            return false;
    }
    return true;
}

// Adds the pieces that count; a piece that is a point is left out, and the last segment or the first to come
// is moved over its gap.
static void add_solid(Path *out, Segment piece) {
    if (!segment_is_point(&piece))
        path_add(out, piece);
}

void path_between_spots(const Path *path, PathSpot from, PathSpot to, Path *out) {
    assert(out != path && from.index >= 0 && to.index < path->count && from.index <= to.index);
    path_clear(out);
    const Point first = path_spot_point(path, from), last = path_spot_point(path, to);
    for (int i = from.index; i <= to.index; i++) {
        const double t0 = i == from.index ? from.t : 0, t1 = i == to.index ? to.t : 1;
        if (t0 < t1)
            add_solid(out, segment_between(&path->items[i], t0, t1));
    }
    if (out->count == 0) {
        path_add(out, segment_line(first, last));
        return;
    }
    out->items[0] = started_at(out->items[0], first);
    out->items[out->count - 1] = ended_at(out->items[out->count - 1], last);
}

GeomError path_between(const Path *path, double from, double to, Path *out) {
    assert(out != path);
    PathSpot spot_from, spot_to;
    GeomError error = path_spot_at(path, from, &spot_from);
    if (!error)
        error = path_spot_at(path, to, &spot_to);
    if (error)
        return error;
    const double at_from = path_spot_distance(path, spot_from), at_to = path_spot_distance(path, spot_to);
    if (fabs(at_to - at_from) <= POINT_SAME_MM)
        return GEOM_NO_DIRECTION;
    if (at_from < at_to) {
        path_between_spots(path, spot_from, spot_to, out);
        return GEOM_OK;
    }
    Path forward = {0};
    path_between_spots(path, spot_to, spot_from, &forward);
    path_reverse(&forward, out);
    path_finish(&forward);
    return GEOM_OK;
}

GeomError path_split(const Path *path, double at, Path *before, Path *after) {
    assert(before != path && after != path);
    PathSpot spot;
    const GeomError error = path_spot_at(path, at, &spot);
    if (error)
        return error;
    const double distance = path_spot_distance(path, spot);
    if (distance <= POINT_SAME_MM || path_length(path) - distance <= POINT_SAME_MM)
        return GEOM_NO_DIRECTION;
    if (before)
        path_between_spots(path, path_end_spot(path, PATH_FIRST), spot, before);
    if (after)
        path_between_spots(path, spot, path_end_spot(path, PATH_LAST), after);
    return GEOM_OK;
}

GeomError path_extend(const Path *path, PathEnd end, double distance, Path *out) {
    assert(out != path && path->count > 0);
    const Point direction = path_direction(path, end), from = path_end(path, end);
    if (!(distance > 0) || point_size(direction) == 0)
        return GEOM_NO_DIRECTION;
    const Point to = point_add(from, point_scale(direction, end == PATH_LAST ? distance : -distance));
    if (!point_finite(to))
        return GEOM_NOT_FINITE;
    path_clear(out);
    const int at = end == PATH_FIRST ? 0 : path->count - 1;
    const bool line = path->items[at].kind == SEGMENT_LINE; // a line grows; a curve gets a line added
    if (end == PATH_FIRST && !line)
        path_add(out, segment_line(to, from));
    for (int i = 0; i < path->count; i++) {
        Segment s = path->items[i];
        if (i == at && line)
            s = end == PATH_FIRST ? segment_line(to, s.p3) : segment_line(s.p0, to);
        path_add(out, s);
    }
    if (end == PATH_LAST && !line)
        path_add_line(out, to);
    return GEOM_OK;
}

void path_reverse(const Path *path, Path *out) {
    assert(out != path);
    path_clear(out);
    for (int i = path->count - 1; i >= 0; i--)
        path_add(out, segment_reverse(&path->items[i]));
}

void path_transform(const Path *path, Affine m, Path *out) {
    assert(out != path);
    path_clear(out);
    for (int i = 0; i < path->count; i++)
        path_add(out, segment_transform(&path->items[i], m));
}

static bool near(Point a, Point b) {
    return point_distance(a, b) <= POINT_ON_MM;
}

static void add_turned(Path *out, const Path *part, bool turned) {
    for (int i = 0; i < part->count; i++)
        path_add(out, turned ? segment_reverse(&part->items[part->count - 1 - i]) : part->items[i]);
}

GeomError path_join(const Path *const *parts, int count, Path *out, int *at) {
    Path joined = {0};
    for (int i = 0; i < count; i++) {
        const Path *part = parts[i];
        assert(part->count > 0 && part != out);
        if (joined.count + part->count > PATH_SEGMENTS_MAX) {
            path_finish(&joined);
            return GEOM_TOO_MANY;
        }
        bool turned;
        if (i > 0) {
            const double ahead = point_distance(path_last(&joined), path_first(part));
            const double back = point_distance(path_last(&joined), path_last(part));
            if (!(fmin(ahead, back) <= POINT_ON_MM)) {
                path_finish(&joined);
                if (at)
                    *at = i;
                return GEOM_NOT_JOINED;
            }
            turned = back < ahead;
        } else {
            const Path *second = count > 1 ? parts[1] : part;
            const Point ends[2] = {path_first(second), path_last(second)};
            turned = !near(path_last(part), ends[0]) && !near(path_last(part), ends[1]) &&
                     (near(path_first(part), ends[0]) || near(path_first(part), ends[1]));
            turned = turned && count > 1;
        }
        add_turned(&joined, part, turned);
    }
    if (joined.count > 1 && near(path_first(&joined), path_last(&joined))) {
        Segment *last = &joined.items[joined.count - 1];
        *last = ended_at(*last, path_first(&joined));
    }
    path_clear(out);
    path_add_path(out, &joined);
    path_finish(&joined);
    return GEOM_OK;
}
