// Parallel curves of whole paths. Life of a call: the source is cleaned (pieces without length dropped, cusps
// made corners); each piece gets its parallel; the parallels are joined at the corners into one raw curve;
// what loops the raw curve has are removed.
//
// Signs: `left` is the distance to the left of the source's direction, negative to its right. A corner is
// outer when the path turns away from that side, inner when it turns towards it. At an inner corner the
// parallels overlap: if they can be cut where they meet they are; if not, a straight link joins their ends. A
// link stays within the distance of the corner, as do the overlapping ends, so they are never part of the
// border and the loops they make can be dropped.
#include "geometry/offset.h"

#include <assert.h>

#include "base/memory.h"
#include "geometry/parallel.h"
#include "geometry/unloop.h"

#define MITRE_LIMIT 10.0
#define ARC_STEP_DEG 30.0
// The share of the tolerance the fit of the curves may use; the rest is for snapped joints and polished
// crossings.
#define FIT_SHARE 0.6
// Open parallels are made this much better still, since what is too near the source is told by the rest.
#define OPEN_SHARE 0.7
#define NEWTON_STEPS 10
// A crossing near a corner is sought at most this many times the trim of straight sides away from it.
#define TRIM_REACH 4.0

typedef enum CornerKind {
    CORNER_OPEN,  // an end of an open path
    CORNER_POINT, // both sides end at one point
    CORNER_MITRE, // a point to which straight pieces lead on from curved sides
    CORNER_CUT,   // squared off between two points
    CORNER_ARC,
    CORNER_LINK, // inner, not trimmed
} CornerKind;

// One piece of the source and the corner before it.
typedef struct Edge {
    const Segment *source;
    Point first, last; // unit tangents
    double length;     // of a line; 0 for a curve
    CornerKind kind;
    double trim;  // what a straight side loses at the corner; negative: what it gains
    Point at, to; // of a point, a mitre, a cut
} Edge;

typedef struct Raw {
    const Edge *edges;
    int count;
    bool closed;
    double left, tolerance;
    Path path;
    bool fine; // pieces without length may be left
} Raw;

static OffsetOptions filled(OffsetOptions options) {
    if (!(options.mitre_limit > 0.0))
        options.mitre_limit = MITRE_LIMIT;
    if (!(options.tolerance > 0.0))
        options.tolerance = CURVE_FIT_MM;
    return options;
}

// The source in regular pieces, each beginning where the last one ends.
static void clean_source(const Path *path, Path *out) {
    for (int i = 0; i < path->count; i++) {
        Segment pieces[PARALLEL_PIECES_MAX];
        const int n = segment_regular(&path->items[i], pieces);
        for (int j = 0; j < n; j++) {
            Segment s = pieces[j];
            if (out->count > 0) {
                const Point at = out->items[out->count - 1].p3;
                if (s.kind == SEGMENT_LINE) {
                    if (point_same(at, s.p3))
                        continue;
                    s = segment_line(at, s.p3);
                } else {
                    s.p1 = point_add(s.p1, point_sub(at, s.p0));
                    s.p0 = at;
                }
            }
            ARRAY_ADD(out, s);
        }
    }
}

// A closed source ends where it begins, however many pieces were dropped in between.
static void close_source(Path *path) {
    while (path->count > 1) {
        Segment *last = &path->items[path->count - 1];
        const Point start = path->items[0].p0;
        if (last->kind == SEGMENT_LINE) {
            if (point_same(last->p0, start)) {
                path->count--;
                continue;
            }
            *last = segment_line(last->p0, start);
        } else {
            last->p2 = point_add(last->p2, point_sub(start, last->p3));
            last->p3 = start;
        }
        return;
    }
}

static Point beside(Point p, Point tangent, double left) {
    return point_add(p, point_scale(point_left(tangent), left));
}

// Whether a corner where the path turns back on itself is an outer one. The sides a little way off tell: seen
// from the corner, the path comes along `in` and leaves along `out`.
static bool fold_is_outer(const Segment *before, const Segment *after, double left) {
    const Point corner = after->p0;
    const Point in = point_sub(corner, segment_point(before, 0.9)),
                out = point_sub(segment_point(after, 0.1), corner);
    return point_cross(in, out) * left <= 0.0;
}

// Cuts an outer corner off square to its bisector at `reach` distances from the vertex. With h half the turn,
// the cut meets each side's parallel d (reach - cos h) / sin h past its end.
static void cut_corner(Edge *edge, const Edge *before, double left, double reach, double cos_h,
                       double sin_h) {
    const double past = fabs(left) * (reach - cos_h) / sin_h;
    const Point vertex = edge->source->p0;
    edge->kind = CORNER_CUT;
    edge->trim = -past;
    edge->at = point_add(beside(vertex, before->last, left), point_scale(before->last, past));
    edge->to = point_sub(beside(vertex, edge->first, left), point_scale(edge->first, past));
}

// With theta the turn between the sides, the parallels of straight sides meet at vertex + left (n0 + n1) / (1
// + cos theta), which is left sin theta / (1 + cos theta) before the end of each.
static void set_corner(Edge *edge, const Edge *before, double left, const OffsetOptions *options) {
    const double cosine = point_dot(before->last, edge->first), sine = point_cross(before->last, edge->first);
    const Point vertex = edge->source->p0;
    const double distance = fabs(left);
    const double whole = 1.0 + cosine;
    const bool fold = whole < 1e-9;
    const double trim = fold ? INFINITY : left * sine / whole;
    const bool outer = fold ? fold_is_outer(before->source, edge->source, left) : trim < 0.0;
    const double cos_h = sqrt(fmax(0.5 * whole, 0.0)), sin_h = sqrt(fmax(0.5 * (1.0 - cosine), 0.0));
    if (!fold) {
        const Point normals = point_left(point_add(before->last, edge->first));
        edge->at = point_add(vertex, point_scale(normals, left / whole));
    }
    edge->trim = trim;
    if (!fold && fabs(trim) <= 0.5 * options->tolerance) {
        edge->kind = CORNER_POINT;
        return;
    }
    if (!outer) {
        edge->kind = CORNER_LINK;
        edge->trim = fabs(trim);
        return;
    }
    const bool slight = !fold && distance * (1.0 - cos_h) <= 0.5 * options->tolerance * cos_h;
    if (options->join == JOIN_MITRE || slight) {
        if (options->mitre_limit * cos_h >= 1.0) {
            const bool lines = before->source->kind == SEGMENT_LINE && edge->source->kind == SEGMENT_LINE;
            edge->kind = lines ? CORNER_POINT : CORNER_MITRE;
        } else {
            cut_corner(edge, before, left, fmax(options->mitre_limit, 1.0), cos_h, sin_h);
        }
    } else if (options->join == JOIN_SQUARE) {
        cut_corner(edge, before, left, 1.0, cos_h, sin_h);
    } else {
        edge->kind = CORNER_ARC;
        edge->trim = 0.0;
    }
}

static bool survives(const Edge *edge, const Edge *after) {
    return edge->length - edge->trim - (after ? after->trim : 0.0) > POINT_SAME_MM;
}

static const Edge *edge_after(const Raw *raw, int i) {
    return i + 1 < raw->count ? &raw->edges[i + 1] : raw->closed ? &raw->edges[0] : NULL;
}

// Tangents and corners of every edge. Inner corners between two lines that keep some length are points.
static void set_edges(Edge *edges, const Path *source, bool closed, double left,
                      const OffsetOptions *options) {
    const int n = source->count;
    for (int i = 0; i < n; i++) {
        const Segment *s = &source->items[i];
        Edge *edge = &edges[i];
        edge->source = s;
        if (s->kind == SEGMENT_LINE) {
            const Point chord = point_sub(s->p3, s->p0);
            edge->length = sqrt(point_dot(chord, chord));
            edge->first = edge->last = point_scale(chord, 1.0 / edge->length);
        } else {
            edge->length = 0.0;
            edge->first = segment_direction(s, 0.0);
            edge->last = segment_direction(s, 1.0);
        }
        if (i > 0)
            set_corner(edge, edge - 1, left, options);
    }
    if (closed) {
        set_corner(&edges[0], &edges[n - 1], left, options);
    } else {
        edges[0].kind = CORNER_OPEN;
        edges[0].trim = 0.0;
    }
    for (int i = closed ? 0 : 1; i < n; i++) {
        Edge *edge = &edges[i];
        if (edge->kind != CORNER_LINK)
            continue;
        const Edge *before = &edges[i > 0 ? i - 1 : n - 1];
        const Edge *after = i + 1 < n ? edge + 1 : closed ? &edges[0] : NULL;
        if (edge->length > 0.0 && before->length > 0.0 && isfinite(edge->trim) && survives(edge, after) &&
            survives(before, edge))
            edge->kind = CORNER_POINT;
    }
}

static Point raw_at(const Raw *raw) {
    return raw->path.items[raw->path.count - 1].p3;
}

// A line from `from` on; nothing when it has no length.
static void raw_line(Raw *raw, Point from, Point to) {
    if (from.x == to.x && from.y == to.y)
        return;
    ARRAY_ADD(&raw->path, segment_line(from, to));
}

// The arc round the vertex of an outer corner, in equal cubics with handles 4/3 tan(step / 4) of the radius.
static void raw_arc(Raw *raw, const Edge *before, const Edge *edge) {
    const Point vertex = edge->source->p0;
    const double cosine = point_dot(before->last, edge->first), sine = point_cross(before->last, edge->first);
    double turn = atan2(sine, cosine);
    if (turn * raw->left > 0.0) // a fold: half a turn the outer way
        turn = copysign(PI, -raw->left);
    const int n = (int)ceil(fabs(turn) / RADIANS(ARC_STEP_DEG));
    const double handle = 4.0 / 3.0 * tan(turn / n / 4.0) * -raw->left;
    Point tangent = before->last;
    Point at = beside(vertex, tangent, raw->left);
    for (int i = 1; i <= n; i++) {
        const double angle = turn * i / n;
        const Point next = i == n ? edge->first
                                  : point(before->last.x * cos(angle) - before->last.y * sin(angle),
                                          before->last.x * sin(angle) + before->last.y * cos(angle));
        const Point to = beside(vertex, next, raw->left);
        ARRAY_ADD(&raw->path, segment_cubic(at, point_add(at, point_scale(tangent, handle)),
                                            point_sub(to, point_scale(next, handle)), to));
        tangent = next;
        at = to;
    }
}

// Cuts the ends of two parallels at an inner corner where they cross near it; *a and *b are cut, or left as
// they are.
static bool cut_at_crossing(Segment *a, Segment *b, double trim, double left) {
    const double size_a = point_size(segment_derivative(a, 1.0)),
                 size_b = point_size(segment_derivative(b, 0.0));
    if (!isfinite(trim) || size_a <= POINT_SAME_MM || size_b <= POINT_SAME_MM)
        return false;
    double t = fmax(1.0 - trim / size_a, 0.0), u = fmin(trim / size_b, 1.0);
    for (int i = 0; i < NEWTON_STEPS; i++) {
        const Point gap = point_sub(segment_point(b, u), segment_point(a, t));
        const Point da = segment_derivative(a, t), db = segment_derivative(b, u);
        const double det = point_cross(da, db);
        if (det * left <= PARALLEL_RAD * PARALLEL_RAD * point_size(da) * point_size(db))
            return false; // they must cross as the path turns
        if (point_size(gap) <= MEET_MM) {
            const Point at = point_mix(segment_point(a, t), segment_point(b, u), 0.5);
            if (point_distance(at, a->p3) > TRIM_REACH * trim ||
                point_distance(at, b->p0) > TRIM_REACH * trim || point_distance(at, a->p0) <= POINT_SAME_MM ||
                point_distance(at, b->p3) <= POINT_SAME_MM)
                return false;
            *a = segment_between(a, 0.0, t);
            *b = segment_between(b, u, 1.0);
            segment_pull_last(a, at);
            segment_pull_first(b, at);
            return true;
        }
        t += point_cross(gap, db) / det;
        u += point_cross(gap, da) / det;
        if (!(t > 0.0 && t < 1.0 && u > 0.0 && u < 1.0))
            return false;
    }
    return false;
}

// What joins the parallel of `before`, which ends the raw path, to where the edge's parallel begins.
static void raw_corner(Raw *raw, const Edge *before, const Edge *edge) {
    const Point begin = beside(edge->source->p0, edge->first, raw->left);
    switch (edge->kind) {
    case CORNER_OPEN:
    case CORNER_POINT:
        return;
    case CORNER_MITRE:
        raw_line(raw, raw_at(raw), edge->at);
        if (edge->length <= 0.0)
            raw_line(raw, edge->at, begin);
        return;
    case CORNER_CUT:
        raw_line(raw, raw_at(raw), edge->at);
        raw_line(raw, raw_at(raw), edge->to);
        if (edge->length <= 0.0)
            raw_line(raw, raw_at(raw), begin);
        return;
    case CORNER_ARC:
        raw_arc(raw, before, edge);
        return;
    case CORNER_LINK:
        raw_line(raw, raw_at(raw), begin);
        return;
    }
}

// Where the parallel of an edge begins, and where it ends at the corner before `after`.
static Point edge_begin(const Raw *raw, const Edge *edge) {
    if (edge->kind == CORNER_POINT || (edge->length > 0.0 && edge->kind == CORNER_MITRE))
        return edge->at;
    if (edge->length > 0.0 && edge->kind == CORNER_CUT)
        return edge->to;
    return beside(edge->source->p0, edge->first, raw->left);
}

static Point edge_end(const Raw *raw, const Edge *edge, const Edge *after) {
    if (after && (after->kind == CORNER_POINT ||
                  (edge->length > 0.0 && (after->kind == CORNER_MITRE || after->kind == CORNER_CUT))))
        return after->at;
    return beside(edge->source->p3, edge->last, raw->left);
}

static void raw_edge(Raw *raw, int index) {
    const Edge *edge = &raw->edges[index];
    const Point begin = edge_begin(raw, edge), end = edge_end(raw, edge, edge_after(raw, index));
    if (edge->length > 0.0) {
        const double dx = end.x - begin.x, dy = end.y - begin.y;
        raw->fine |= dx * dx + dy * dy <= POINT_SAME_MM * POINT_SAME_MM;
        raw_line(raw, begin, end);
        return;
    }
    const int first = raw->path.count;
    parallel_add(edge->source, raw->left, FIT_SHARE * raw->tolerance, &raw->path);
    if (raw->path.count > first) {
        segment_pull_first(&raw->path.items[first], begin);
        segment_pull_last(&raw->path.items[raw->path.count - 1], end);
    }
}

// Lines in a row that turn tighter than the distance leave no length of their parallels. Where one vertex
// among them is within the distance of both ends of all those parallels, the whole row is inside the disc
// round it, and so is one straight link past the row: returns the index of the first edge after the row, or
// `first` when there is no such row.
static int tight_row(const Raw *raw, int first) {
    const Edge *edges = raw->edges;
    int last = first; // last edge of the row
    for (int i = first; i < raw->count && edges[i].length > 0.0 && edges[i].kind == CORNER_LINK; i++) {
        if (survives(&edges[i], edge_after(raw, i)) || i + 1 >= raw->count ||
            edges[i + 1].kind != CORNER_LINK)
            break;
        last = i + 1;
    }
    const double reach = fabs(raw->left) + CHORD_TOUCH_MM;
    for (; last > first; last = first + (last - first) / 2) {
        const Point middle = edges[(first + last) / 2].source->p3;
        bool inside = point_distance(middle, raw_at(raw)) <= reach;
        for (int i = first; inside && i <= last; i++)
            inside =
                point_distance(middle, beside(edges[i].source->p0, edges[i].first, raw->left)) <= reach &&
                (i == last ||
                 point_distance(middle, beside(edges[i].source->p3, edges[i].last, raw->left)) <= reach);
        if (inside)
            return last;
    }
    return first;
}

static void raw_build(Raw *raw) {
    for (int i = 0; i < raw->count; i++) {
        const Edge *edge = &raw->edges[i];
        int link = -1;
        if (i > 0) {
            const int row = edge->kind == CORNER_LINK ? tight_row(raw, i) : i;
            if (row > i) {
                i = row;
                edge = &raw->edges[i];
            }
            const int before = raw->path.count;
            raw_corner(raw, edge - 1, edge);
            if (edge->kind == CORNER_LINK && raw->path.count > before)
                link = before;
        }
        raw_edge(raw, i);
        if (link > 0 && link + 1 < raw->path.count) {
            Segment *items = raw->path.items;
            if (cut_at_crossing(&items[link - 1], &items[link + 1], edge->trim, raw->left)) {
                for (int j = link; j + 1 < raw->path.count; j++)
                    items[j] = items[j + 1];
                raw->path.count--;
            }
        }
    }
    if (!raw->closed || raw->path.count == 0)
        return;
    const Edge *first = &raw->edges[0], *last = &raw->edges[raw->count - 1];
    const int before = raw->path.count;
    raw_corner(raw, last, first);
    if (first->kind == CORNER_LINK && raw->path.count > before && before > 1) {
        if (cut_at_crossing(&raw->path.items[before - 1], &raw->path.items[0], first->trim, raw->left))
            raw->path.count--;
    }
    segment_pull_last(&raw->path.items[raw->path.count - 1], raw->path.items[0].p0);
}

// Drops pieces shorter than POINT_SAME_MM, which a trim can leave.
static void drop_fine(Path *path, bool closed) {
    Path kept = {0};
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        if (point_same(s->p0, s->p3) && point_same(s->p0, s->p1) && point_same(s->p2, s->p3) &&
            path->count > 2)
            continue;
        path_add(&kept, *s);
    }
    if (kept.count > 0)
        segment_pull_last(&kept.items[kept.count - 1], closed ? kept.items[0].p0 : path_last(path));
    path_finish(path);
    *path = kept;
}

static bool needs_cleaning(const Path *path) {
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        const double dx = s->p3.x - s->p0.x, dy = s->p3.y - s->p0.y;
        if (s->kind != SEGMENT_LINE || dx * dx + dy * dy <= POINT_SAME_MM * POINT_SAME_MM)
            return true;
    }
    return false;
}

// The raw parallel of a path. GEOM_NO_DIRECTION when the path is a point.
static GeomError raw_parallel(const Path *path, bool closed, double left, const OffsetOptions *options,
                              Path *out) {
    Path cleaned = {0};
    const Path *source = path;
    if (needs_cleaning(path)) {
        clean_source(path, &cleaned);
        if (closed)
            close_source(&cleaned);
        source = &cleaned;
    }
    if (source->count == 0 || (closed && source->count == 1 && source->items[0].kind == SEGMENT_LINE)) {
        path_finish(&cleaned);
        return GEOM_NO_DIRECTION;
    }
    Edge *edges = mem_resize(NULL, sizeof *edges * (size_t)source->count);
    set_edges(edges, source, closed, left, options);
    Raw raw = {.edges = edges,
               .count = source->count,
               .closed = closed,
               .left = left,
               .tolerance = options->tolerance};
    raw.path.capacity = source->count + source->count / 4 + 16;
    raw.path.items = mem_resize(NULL, sizeof *raw.path.items * (size_t)raw.path.capacity);
    raw_build(&raw);
    mem_free(edges);
    path_finish(&cleaned);
    if (raw.fine)
        drop_fine(&raw.path, closed);
    path_finish(out);
    *out = raw.path;
    return GEOM_OK;
}

// Of the border of an inward offset, every point is the distance away from the source.
typedef struct Inside {
    const Chords *source;
    double least;
} Inside;

static bool is_far_enough(const void *context, Point p) {
    const Inside *inside = context;
    return !chords_within(inside->source, p, inside->least);
}

static GeomError offset_checked(const Path *outline, const Chords *chords, double distance,
                                const OffsetOptions *options, Path *out, int *parts) {
    Path turned = {0};
    const bool clockwise = chords_area(chords) < 0.0;
    if (clockwise)
        path_reverse(outline, &turned);
    Path raw = {0};
    GeomError error = raw_parallel(clockwise ? &turned : outline, true, -distance, options, &raw);
    path_finish(&turned);
    if (error == GEOM_OK) {
        const Inside inside = {.source = chords, .least = fabs(distance) - 3.0 * options->tolerance};
        error = unloop(&raw, options->tolerance, distance < 0.0 ? is_far_enough : NULL, &inside, parts);
    }
    if (error == GEOM_OK && raw.count > PATH_SEGMENTS_MAX)
        error = GEOM_TOO_MANY;
    if (error != GEOM_OK) {
        path_finish(&raw);
        return error;
    }
    if (clockwise) {
        path_reverse(&raw, out);
        path_finish(&raw);
        return GEOM_OK;
    }
    path_finish(out);
    *out = raw;
    return GEOM_OK;
}

GeomError outline_offset(const Path *outline, double distance, OffsetOptions options, Path *out, int *parts) {
    assert(out != outline);
    if (outline->count == 0 || !path_is_closed(outline))
        return GEOM_NOT_CLOSED;
    if (!path_finite(outline) || !(fabs(distance) <= COORDINATE_LIMIT_MM))
        return GEOM_NOT_FINITE;
    if (outline->count > PATH_SEGMENTS_MAX)
        return GEOM_TOO_MANY;
    options = filled(options);
    Chords chords;
    chords_init(&chords, outline, true, false);
    GeomError error = GEOM_OK;
    if (!chords_apart(&chords) && outline_crosses_itself(outline, options.tolerance))
        error = GEOM_CROSSES_ITSELF;
    else if (distance == 0.0)
        path_copy(outline, out);
    else
        error = offset_checked(outline, &chords, distance, &options, out, parts);
    if (error == GEOM_OK && distance == 0.0 && parts)
        *parts = 1;
    chords_finish(&chords);
    return error;
}

GeomError outline_unloop(const Path *raw, bool inner, double tolerance, Path *out, int *parts) {
    assert(out != raw);
    if (raw->count == 0 || !path_is_closed(raw))
        return GEOM_NOT_CLOSED;
    if (!path_finite(raw))
        return GEOM_NOT_FINITE;
    Path work = {0};
    path_copy(raw, &work);
    int found = 0;
    const GeomError error = unloop(&work, tolerance > 0.0 ? tolerance : CURVE_FIT_MM, NULL, NULL, &found);
    if (error != GEOM_OK) {
        path_finish(&work);
        return error;
    }
    if (parts)
        *parts = inner ? found : 1;
    path_finish(out);
    *out = work;
    return GEOM_OK;
}

static GeomError check_open(const Path *path, double distance) {
    if (path->count == 0)
        return GEOM_NO_DIRECTION;
    if (!path_finite(path) || !(distance <= COORDINATE_LIMIT_MM))
        return GEOM_NOT_FINITE;
    return path->count > PATH_SEGMENTS_MAX ? GEOM_TOO_MANY : GEOM_OK;
}

GeomError path_offset(const Path *path, double distance, Side side, OffsetOptions options, Path *out) {
    assert(out != path && distance >= 0.0);
    GeomError error = check_open(path, distance);
    if (error != GEOM_OK)
        return error;
    if (path_is_closed(path) && path->count > 1) {
        const bool left_is_inside = path_area(path) > 0.0;
        return outline_offset(path, left_is_inside == (side == SIDE_LEFT) ? -distance : distance, options,
                              out, NULL);
    }
    if (distance == 0.0) {
        path_copy(path, out);
        return GEOM_OK;
    }
    options = filled(options);
    const double tolerance = options.tolerance;
    options.tolerance *= OPEN_SHARE;
    Path raw = {0};
    error = raw_parallel(path, false, side == SIDE_LEFT ? distance : -distance, &options, &raw);
    if (error == GEOM_OK)
        error = unloop_open(&raw, path, distance, tolerance);
    if (error == GEOM_OK && raw.count > PATH_SEGMENTS_MAX)
        error = GEOM_TOO_MANY;
    if (error != GEOM_OK) {
        path_finish(&raw);
        return error;
    }
    path_finish(out);
    *out = raw;
    return GEOM_OK;
}

GeomError path_offset_raw(const Path *path, double distance, Side side, double tolerance, Path *out) {
    assert(out != path && distance >= 0.0);
    const GeomError error = check_open(path, distance);
    if (error != GEOM_OK)
        return error;
    if (distance == 0.0) {
        path_copy(path, out);
        return GEOM_OK;
    }
    const OffsetOptions options = filled((OffsetOptions){.join = JOIN_MITRE, .tolerance = tolerance});
    return raw_parallel(path, false, side == SIDE_LEFT ? distance : -distance, &options, out);
}
