// Life of a call: the source is cleaned (pieces without length dropped, cusps made corners); each piece gets
// its parallel; the parallels are joined at the corners.
//
// Signs: `left` is the distance to the left of the source's direction, negative to its right. A corner is
// outer when the path turns away from that side, inner when it turns towards it. At an inner corner the
// parallels overlap: if they can be cut where they meet they are; if not, a straight link joins their ends. A
// link stays within the distance of the corner, as do the overlapping ends, so they are never part of the
// border and the loops they make can be dropped.
#include "geometry/raw.h"

#include <string.h>

#include "base/memory.h"
#include "geometry/parallel.h"
#include "geometry/stretch.h"

#define ARC_STEP_DEG 30.0
// The share of the tolerance the fit of the curves may use; the rest is for snapped joints and polished
// crossings.
#define FIT_SHARE 0.6

typedef enum CornerKind {
    CORNER_OPEN,  // an end of an open path
    CORNER_POINT, // both sides end at one point
    CORNER_MITRE, // a point to which straight pieces lead on from curved sides
    CORNER_CUT,   // squared off between two points
    CORNER_ARC,
    CORNER_LINK, // inner, not trimmed
} CornerKind;

// One piece of the source, and the corner before it.
typedef struct Edge {
    Point first;   // unit tangent where it begins
    double length; // of a line; 0 for a curve
    double trim;   // what a straight side loses at the corner; negative: what it gains
    CornerKind kind;
} Edge;

typedef struct Raw {
    const Segment *source;
    Edge *edges; // one for each piece of the source
    int count;
    bool closed;
    double left;
    const OffsetOptions *options;
    Path path;
    bool fine; // pieces without length may be left
} Raw;

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
    while (path->count > 1 && path->items[path->count - 1].kind == SEGMENT_LINE &&
           point_same(path->items[path->count - 1].p0, path->items[0].p0))
        path->count--;
    if (path->count > 0)
        segment_pull_last(&path->items[path->count - 1], path->items[0].p0);
}

static Point beside(Point p, Point tangent, double left) {
    return point_add(p, point_scale(point_left(tangent), left));
}

static bool is_line(const Edge *edge) {
    return edge->length > 0.0;
}

// The unit tangent where an edge ends.
static Point edge_last(const Raw *raw, int i) {
    return is_line(&raw->edges[i]) ? raw->edges[i].first : segment_direction(&raw->source[i], 1.0);
}

static int index_before(const Raw *raw, int i) {
    return i > 0 ? i - 1 : raw->count - 1;
}

// -1 past the end of an open path.
static int index_after(const Raw *raw, int i) {
    return i + 1 < raw->count ? i + 1 : raw->closed ? 0 : -1;
}

// With theta the turn between the sides, the parallels of straight sides meet at vertex + left (n0 + n1) / (1
// + cos theta), which is left sin theta / (1 + cos theta) before the end of each.
static Point corner_point(const Raw *raw, int i) {
    const Point before = edge_last(raw, index_before(raw, i)), after = raw->edges[i].first;
    const Point normals = point_left(point_add(before, after));
    return point_add(raw->source[i].p0, point_scale(normals, raw->left / (1.0 + point_dot(before, after))));
}

// Where the line that squares a corner off meets the parallels of its two sides.
static Point cut_from(const Raw *raw, int i) {
    const Point tangent = edge_last(raw, index_before(raw, i));
    return point_sub(beside(raw->source[i].p0, tangent, raw->left), point_scale(tangent, raw->edges[i].trim));
}

static Point cut_to(const Raw *raw, int i) {
    const Edge *edge = &raw->edges[i];
    return point_add(beside(raw->source[i].p0, edge->first, raw->left), point_scale(edge->first, edge->trim));
}

// Whether a corner where the path turns back on itself is an outer one. The sides a little way off tell: seen
// from the corner, the path comes along `in` and leaves along `out`.
static bool fold_is_outer(const Segment *before, const Segment *after, double left) {
    const Point corner = after->p0;
    const Point in = point_sub(corner, segment_point(before, 0.9));
    const Point out = point_sub(segment_point(after, 0.1), corner);
    return point_cross(in, out) * left <= 0.0;
}

// An outer corner. It is cut off square to its bisector at `reach` distances from the vertex where it is to
// be squared; with h half the turn, the cut meets each side's parallel d (reach - cos h) / sin h past its
// end.
static void set_outer_corner(Raw *raw, int i, double cosine) {
    const OffsetOptions *options = raw->options;
    Edge *edge = &raw->edges[i];
    const double distance = fabs(raw->left);
    const double cos_h = sqrt(fmax(0.5 + 0.5 * cosine, 0.0)), sin_h = sqrt(fmax(0.5 - 0.5 * cosine, 0.0));
    const bool slight = distance * (1.0 - cos_h) <= 0.5 * options->tolerance * cos_h;
    double reach = 1.0;
    if (options->join == JOIN_MITRE || slight) {
        if (options->mitre_limit * cos_h >= 1.0) {
            edge->kind =
                is_line(&raw->edges[index_before(raw, i)]) && is_line(edge) ? CORNER_POINT : CORNER_MITRE;
            return;
        }
        reach = fmax(options->mitre_limit, 1.0);
    } else if (options->join == JOIN_ROUND) {
        edge->kind = CORNER_ARC;
        edge->trim = 0.0;
        return;
    }
    edge->kind = CORNER_CUT;
    edge->trim = -distance * (reach - cos_h) / sin_h;
}

static void set_corner(Raw *raw, int i) {
    const int before = index_before(raw, i);
    Edge *edge = &raw->edges[i];
    const Point in = edge_last(raw, before), out = edge->first;
    const double cosine = point_dot(in, out), sine = point_cross(in, out);
    const bool fold = 1.0 + cosine < 1e-9;
    edge->trim = fold ? INFINITY : raw->left * sine / (1.0 + cosine);
    if (fabs(edge->trim) <= 0.5 * raw->options->tolerance)
        edge->kind = CORNER_POINT;
    else if (fold ? fold_is_outer(&raw->source[before], &raw->source[i], raw->left) : edge->trim < 0.0)
        set_outer_corner(raw, i, cosine);
    else
        edge->kind = CORNER_LINK;
}

// Whether a line keeps some length between its two corners.
static bool survives(const Raw *raw, int i) {
    const int after = index_after(raw, i);
    const Edge *edge = &raw->edges[i];
    return is_line(edge) &&
           edge->length - edge->trim - (after >= 0 ? raw->edges[after].trim : 0.0) > POINT_SAME_MM;
}

// Tangents and corners of every edge. Inner corners between two lines that keep some length are points.
static void set_edges(Raw *raw) {
    for (int i = 0; i < raw->count; i++) {
        const Segment *s = &raw->source[i];
        Edge *edge = &raw->edges[i];
        if (s->kind == SEGMENT_LINE) {
            const Point chord = point_sub(s->p3, s->p0);
            edge->length = sqrt(point_dot(chord, chord));
            edge->first = point_scale(chord, 1.0 / edge->length);
        } else {
            edge->length = 0.0;
            edge->first = segment_direction(s, 0.0);
        }
        if (i > 0)
            set_corner(raw, i);
    }
    if (raw->closed) {
        set_corner(raw, 0);
    } else {
        raw->edges[0].kind = CORNER_OPEN;
        raw->edges[0].trim = 0.0;
    }
    for (int i = 0; i < raw->count; i++)
        if (raw->edges[i].kind == CORNER_LINK && survives(raw, i) && survives(raw, index_before(raw, i)))
            raw->edges[i].kind = CORNER_POINT;
}

static Point raw_at(const Raw *raw) {
    return raw->path.items[raw->path.count - 1].p3;
}

// A line on from where the raw path ends; nothing when it has no length.
static void raw_line(Raw *raw, Point to) {
    const Point from = raw_at(raw);
    if (from.x != to.x || from.y != to.y)
        ARRAY_ADD(&raw->path, segment_line(from, to));
}

// The arc round the vertex of an outer corner, in equal cubics with handles 4/3 tan(step / 4) of the radius.
static void raw_arc(Raw *raw, int i) {
    const Point vertex = raw->source[i].p0;
    const Point in = edge_last(raw, index_before(raw, i)), out = raw->edges[i].first;
    double turn = atan2(point_cross(in, out), point_dot(in, out));
    if (turn * raw->left > 0.0) // a fold: half a turn the outer way
        turn = copysign(PI, -raw->left);
    const int n = (int)ceil(fabs(turn) / RADIANS(ARC_STEP_DEG));
    const double handle = 4.0 / 3.0 * tan(turn / n / 4.0) * -raw->left;
    Point tangent = in, at = beside(vertex, in, raw->left);
    for (int k = 1; k <= n; k++) {
        const double angle = turn * k / n;
        const Point next =
            k == n ? out
                   : point(in.x * cos(angle) - in.y * sin(angle), in.x * sin(angle) + in.y * cos(angle));
        const Point to = beside(vertex, next, raw->left);
        ARRAY_ADD(&raw->path, segment_cubic(at, point_add(at, point_scale(tangent, handle)),
                                            point_sub(to, point_scale(next, handle)), to));
        tangent = next;
        at = to;
    }
}

// What joins the parallel of the edge before, which ends the raw path, to where the edge's parallel begins.
static void raw_corner(Raw *raw, int i) {
    const Edge *edge = &raw->edges[i];
    switch (edge->kind) {
    case CORNER_OPEN:
    case CORNER_POINT:
        return;
    case CORNER_ARC:
        raw_arc(raw, i);
        return;
    case CORNER_MITRE:
        raw_line(raw, corner_point(raw, i));
        break;
    case CORNER_CUT:
        raw_line(raw, cut_from(raw, i));
        raw_line(raw, cut_to(raw, i));
        break;
    case CORNER_LINK:
        break;
    }
    if (!is_line(edge) || edge->kind == CORNER_LINK)
        raw_line(raw, beside(raw->source[i].p0, edge->first, raw->left));
}

// Where the parallel of an edge begins, and where it ends.
static Point edge_begin(const Raw *raw, int i) {
    const Edge *edge = &raw->edges[i];
    if (edge->kind == CORNER_POINT || (is_line(edge) && edge->kind == CORNER_MITRE))
        return corner_point(raw, i);
    if (is_line(edge) && edge->kind == CORNER_CUT)
        return cut_to(raw, i);
    return beside(raw->source[i].p0, edge->first, raw->left);
}

static Point edge_end(const Raw *raw, int i) {
    const Edge *edge = &raw->edges[i];
    const int after = index_after(raw, i);
    const CornerKind kind = after >= 0 ? raw->edges[after].kind : CORNER_OPEN;
    if (kind == CORNER_POINT || (is_line(edge) && kind == CORNER_MITRE))
        return corner_point(raw, after);
    if (is_line(edge) && kind == CORNER_CUT)
        return cut_from(raw, after);
    return beside(raw->source[i].p3, edge_last(raw, i), raw->left);
}

static void raw_edge(Raw *raw, int i) {
    const int first = raw->path.count;
    const Point begin = first > 0 ? raw_at(raw) : edge_begin(raw, i), end = edge_end(raw, i);
    if (is_line(&raw->edges[i])) {
        const double dx = end.x - begin.x, dy = end.y - begin.y;
        if (dx * dx + dy * dy <= POINT_SAME_MM * POINT_SAME_MM)
            raw->fine = true;
        ARRAY_ADD(&raw->path, segment_line(begin, end));
        return;
    }
    parallel_add(&raw->source[i], raw->left, FIT_SHARE * raw->options->tolerance, &raw->path);
    if (raw->path.count > first) {
        segment_pull_first(&raw->path.items[first], begin);
        segment_pull_last(&raw->path.items[raw->path.count - 1], end);
    }
    for (int k = first; k < raw->path.count; k++)
        raw->fine |= point_same(raw->path.items[k].p0, raw->path.items[k].p3);
}

// Lines in a row that turn tighter than the distance leave no length of their parallels. Where one vertex
// among them is within the distance of both ends of all those parallels, the whole row is inside the disc
// round it, and so is one straight link past the row. Gives the index of the first edge after the row, or
// `first` when there is no such row.
static int tight_row(const Raw *raw, int first) {
    const Edge *edges = raw->edges;
    const Segment *source = raw->source;
    int last = first;
    while (last + 1 < raw->count && edges[last + 1].kind == CORNER_LINK && is_line(&edges[last]) &&
           !survives(raw, last))
        last++;
    const double reach = fabs(raw->left) + CHORD_TOUCH_MM;
    for (; last > first; last = first + (last - first) / 2) {
        const Point middle = source[(first + last) / 2].p3;
        bool inside = point_distance(middle, raw_at(raw)) <= reach;
        for (int i = first; inside && i <= last; i++)
            inside = point_distance(middle, beside(source[i].p0, edges[i].first, raw->left)) <= reach &&
                     (i == last ||
                      point_distance(middle, beside(source[i].p3, edges[i].first, raw->left)) <= reach);
        if (inside)
            return last;
    }
    return first;
}

static void raw_build(Raw *raw) {
    raw_edge(raw, 0);
    for (int i = 1; i < raw->count; i++) {
        if (raw->edges[i].kind == CORNER_LINK)
            i = tight_row(raw, i);
        const int link = raw->path.count;
        raw_corner(raw, i);
        const bool linked = raw->edges[i].kind == CORNER_LINK && raw->path.count > link;
        raw_edge(raw, i);
        Segment *items = raw->path.items;
        if (linked && link + 1 < raw->path.count &&
            cut_at_crossing(&items[link - 1], &items[link + 1], raw->edges[i].trim, raw->left)) {
            memmove(&items[link], &items[link + 1], sizeof *items * (size_t)(raw->path.count - link - 1));
            raw->path.count--;
        }
    }
    if (!raw->closed)
        return;
    const int link = raw->path.count;
    raw_corner(raw, 0);
    if (raw->edges[0].kind == CORNER_LINK && raw->path.count > link && link > 1 &&
        cut_at_crossing(&raw->path.items[link - 1], &raw->path.items[0], raw->edges[0].trim, raw->left))
        raw->path.count--;
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

GeomError raw_parallel(const Path *path, bool closed, double left, const OffsetOptions *options, Path *out) {
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
    Raw raw = {
        .source = source->items, .count = source->count, .closed = closed, .left = left, .options = options};
    raw.edges = mem_resize(NULL, sizeof *raw.edges * (size_t)source->count);
    set_edges(&raw);
    raw.path.capacity = source->count + source->count / 2 + 16; // room for mitres and for curves in parts
    raw.path.items = mem_resize(NULL, sizeof *raw.path.items * (size_t)raw.path.capacity);
    raw_build(&raw);
    mem_free(raw.edges);
    path_finish(&cleaned);
    if (raw.fine)
        drop_fine(&raw.path, closed);
    path_finish(out);
    *out = raw.path;
    return GEOM_OK;
}
