// Each edge gets its own parallel; then every corner is made between two of them. Where the corner lies
// beyond their ends, they run on along their tangents. Where it lies before (inside corners, tapering
// widths), they are cut back: exactly where they are straight, at their true crossing where they are curved.
#include "pattern/beside.h"

#include <string.h>

#include "base/memory.h"
#include "geometry/crossing.h"
#include "geometry/offset.h"
#include "pattern/corner_cut.h"
#include "pattern/flat.h"
#include "pattern/own.h"

#define NUDGE_MM 0.05 // a curve's end may be moved this far to meet its neighbour
#define REACH 3.0     // allowances by which curves are run on to find their crossing

void beside_finish(Beside *beside) {
    for (int i = 0; i < beside->count; i++)
        path_finish(&beside->edges[i]);
    mem_free(beside->edges);
    *beside = (Beside){0};
}

static void move_end(Path *path, PathEnd end, Point to) {
    if (end == PATH_LAST)
        own_path_ends(path, path_first(path), to);
    else
        own_path_ends(path, to, path_last(path));
}

// How far `to` lies before the end, along the tangent there, mm; negative beyond it.
static double cut_back(const Path *path, PathEnd end, Point to) {
    const double along = point_dot(point_sub(to, path_end(path, end)), path_direction(path, end));
    return end == PATH_LAST ? -along : along;
}

// Brings an end of a path to a point on it or on its tangent beyond: true when that could be done exactly.
static bool bring_end(Path *path, PathEnd end, Point to) {
    const double back = cut_back(path, end, to);
    if (fabs(back) <= POINT_SAME_MM) {
        move_end(path, end, to);
        return true;
    }
    const int last = end == PATH_LAST ? path->count - 1 : 0;
    const Segment *s = &path->items[last];
    if (back < 0)
        return true; // the joining line does it
    if (back <= NUDGE_MM ||
        (s->kind == SEGMENT_LINE && point_distance(s->p0, s->p3) > back + POINT_SAME_MM)) {
        move_end(path, end, to);
        return true;
    }
    return false;
}

// Whether b, which follows on a, goes back the way a came.
static bool turns_back(const Segment *a, const Segment *b) {
    return point_dot(segment_direction(a, 1), segment_direction(b, 0)) < 0;
}

// Where an edge bends toward its parallel with a radius smaller than the distance, the parallel runs
// backward. At an end of the edge such a stretch has nothing to cross, so it would stay as a spur: it is left
// out as far as the cusp, and from there the parallel runs on to its corner as any other does.
static void drop_turned_ends(Path *parallel, const Path *edge) {
    int from = 0, to = parallel->count;
    if (point_dot(path_direction(parallel, PATH_FIRST), path_direction(edge, PATH_FIRST)) < 0)
        do
            from++;
        while (from < to && !turns_back(&parallel->items[from - 1], &parallel->items[from]));
    if (from < to && point_dot(path_direction(parallel, PATH_LAST), path_direction(edge, PATH_LAST)) < 0)
        do
            to--;
        while (to > from && !turns_back(&parallel->items[to - 1], &parallel->items[to]));
    if (from == to || to - from == parallel->count)
        return; // all of it runs backward: the corners cut it away
    Path kept = {0};
    for (int i = from; i < to; i++)
        ARRAY_ADD(&kept, parallel->items[i]);
    path_finish(parallel);
    *parallel = kept;
}

static void swap_in(Path *path, Path *with) {
    path_finish(path);
    *path = *with;
    *with = (Path){0};
}

// Cuts two neighbours at the crossing nearest to where their tangents meet; false where they do not cross.
static bool cut_at_crossing(Path *in, Path *out, Point near, double reach) {
    Path longer_in = {0}, longer_out = {0};
    CrossingList crossings = {0};
    int best = -1;
    if (path_extend(in, PATH_LAST, reach, &longer_in) == GEOM_OK &&
        path_extend(out, PATH_FIRST, reach, &longer_out) == GEOM_OK) {
        path_crossings(&longer_in, &longer_out, &crossings);
        for (int i = 0; i < crossings.count; i++)
            if (best < 0 || point_distance(crossings.items[i].point, near) <
                                point_distance(crossings.items[best].point, near))
                best = i;
    }
    if (best >= 0) {
        const Crossing at = crossings.items[best];
        Path cut = {0};
        path_between_spots(&longer_in, path_end_spot(&longer_in, PATH_FIRST), at.on_a, &cut);
        swap_in(in, &cut);
        path_between_spots(&longer_out, at.on_b, path_end_spot(&longer_out, PATH_LAST), &cut);
        swap_in(out, &cut);
        if (in->count == 0 || out->count == 0)
            best = -1;
    }
    crossings_finish(&crossings);
    path_finish(&longer_in);
    path_finish(&longer_out);
    return best >= 0;
}

// Cuts a curve back to the place on it nearest to a corner that lies before its end.
static void cut_at_nearest(Path *path, PathEnd end, Point to) {
    Path cut = {0};
    const PathSpot spot = path_nearest(path, to);
    if (end == PATH_LAST)
        path_between_spots(path, path_end_spot(path, PATH_FIRST), spot, &cut);
    else
        path_between_spots(path, spot, path_end_spot(path, PATH_LAST), &cut);
    if (cut.count > 0)
        swap_in(path, &cut);
    path_finish(&cut);
}

static void line_to(Path *path, Point to) {
    if (!point_same(path_last(path), to))
        path_add_line(path, to);
}

// Joins the line beside edge `in` to the one beside edge `out`; what lies between them is added to the first.
static void join(const Piece *piece, const double *distances, bool plain, int in, int out, Beside *made) {
    Path *const first = &made->edges[in], *const second = &made->edges[out];
    const Edge *edge = &piece->edges.items[in];
    const CornerCut corner = {.at = piece_edge_end(edge, PATH_LAST),
                              .in = piece_edge_direction(edge, PATH_LAST),
                              .out = piece_edge_direction(&piece->edges.items[out], PATH_FIRST),
                              .a = distances[in],
                              .b = distances[out],
                              .style = plain ? CORNER_PLAIN : edge->corner,
                              .other_first = edge->other_first};
    Point points[3];
    const int count = corner_cut_points(&corner, points);
    if (count == 0)
        return;
    const bool met_first = bring_end(first, PATH_LAST, points[0]);
    const bool met_second = bring_end(second, PATH_FIRST, points[count - 1]);
    if (count == 1 && !(met_first && met_second)) {
        const double reach = REACH * fmax(fabs(corner.a), fabs(corner.b));
        if (in == out || !cut_at_crossing(first, second, points[0], reach))
            made->rough = true;
        return;
    }
    if (!met_first)
        cut_at_nearest(first, PATH_LAST, points[0]);
    if (!met_second)
        cut_at_nearest(second, PATH_FIRST, points[count - 1]);
    for (int i = 0; i < count; i++)
        line_to(first, points[i]);
}

GeomError beside_make(const Piece *piece, const double *distances, bool plain, Beside *out) {
    const int count = piece->edges.count;
    *out = (Beside){.edges = mem_new(sizeof(Path) * (size_t)count), .count = count};
    for (int i = 0; i < count; i++) {
        Path edge = {0};
        piece_edge_path(&piece->edges.items[i], &edge);
        GeomError error = GEOM_OK;
        if (distances[i] == 0)
            swap_in(&out->edges[i], &edge);
        else
            error = path_offset_raw(&edge, fabs(distances[i]), distances[i] > 0 ? SIDE_RIGHT : SIDE_LEFT, 0,
                                    &out->edges[i]);
        if (error == GEOM_OK && distances[i] != 0)
            drop_turned_ends(&out->edges[i], &edge);
        path_finish(&edge);
        if (error != GEOM_OK)
            return error;
    }
    for (int i = 0; i < count; i++)
        join(piece, distances, plain, i, (i + 1) % count, out);
    for (int i = 0; i < count; i++)
        line_to(&out->edges[i], path_first(&out->edges[(i + 1) % count]));
    for (int i = 0; i < count; i++)
        move_end(&out->edges[i], PATH_LAST, path_first(&out->edges[(i + 1) % count]));
    if (!out->rough) {
        Path outline = {0};
        beside_outline(out, &outline);
        out->rough = !outline_is_simple(&outline);
        path_finish(&outline);
    }
    return GEOM_OK;
}

void beside_outline(const Beside *beside, Path *out) {
    path_clear(out);
    for (int i = 0; i < beside->count; i++)
        path_add_path(out, &beside->edges[i]);
}
