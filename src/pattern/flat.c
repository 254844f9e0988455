#include "pattern/flat.h"

#include <stdlib.h>

#include "base/memory.h"
#include "geometry/chords.h"
#include "geometry/crossing.h"

bool outline_is_simple(const Path *outline) {
    Chords chords;
    chords_init(&chords, outline, true, false);
    bool simple = chords_apart(&chords);
    chords_finish(&chords);
    if (simple)
        return true;
    CrossingList crossings = {0};
    path_self_crossings(outline, &crossings);
    simple = crossings.count == 0;
    crossings_finish(&crossings);
    return simple;
}

static void flat_measure(Flat *flat) {
    flat->box = box_empty();
    for (int i = 0; i < flat->count; i++)
        flat->box = box_add(flat->box, flat->points[i]);
}

void flat_make(const Piece *piece, Flat *out) {
    Path outline = {0};
    piece_outline(piece, &outline);
    path_flatten(&outline, FLAT_MM, &out->points, &out->count);
    path_finish(&outline);
    flat_measure(out);
}

void flat_finish(Flat *flat) {
    mem_free(flat->points);
    *flat = (Flat){0};
}

void flat_turned(const Flat *flat, double degrees, Flat *out) {
    const Affine turn = affine_swing(point(0, 0), degrees);
    *out = (Flat){.points = mem_new(sizeof *out->points * (size_t)flat->count), .count = flat->count};
    for (int i = 0; i < flat->count; i++)
        out->points[i] = affine_point(turn, flat->points[i]);
    flat_measure(out);
}

static bool contains(const Flat *flat, Point p) {
    bool inside = false;
    for (int i = 0; i + 1 < flat->count; i++) {
        const Point a = flat->points[i], b = flat->points[i + 1];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    return inside;
}

// A line reaches into a box when some of it is left after cutting away what lies beyond each side.
bool flat_line_in_box(Point a, Point b, Box box) {
    if ((a.x <= box.least.x && b.x <= box.least.x) || (a.x >= box.most.x && b.x >= box.most.x) ||
        (a.y <= box.least.y && b.y <= box.least.y) || (a.y >= box.most.y && b.y >= box.most.y))
        return false;
    const double from[2] = {a.x, a.y}, by[2] = {b.x - a.x, b.y - a.y};
    const double least[2] = {box.least.x, box.least.y}, most[2] = {box.most.x, box.most.y};
    double t0 = 0, t1 = 1;
    for (int k = 0; k < 2; k++) {
        if (by[k] == 0) {
            if (from[k] <= least[k] || from[k] >= most[k])
                return false;
            continue;
        }
        const double u = (least[k] - from[k]) / by[k], v = (most[k] - from[k]) / by[k];
        t0 = fmax(t0, fmin(u, v));
        t1 = fmin(t1, fmax(u, v));
    }
    return t0 < t1;
}

bool flat_holds_box(const Flat *flat, Box box) {
    for (int i = 0; i + 1 < flat->count; i++)
        if (flat_line_in_box(flat->points[i], flat->points[i + 1], box))
            return false;
    return contains(flat, point_mix(box.least, box.most, 0.5));
}

typedef struct Stretch {
    double from, to;
} Stretch;

static int by_start(const void *a, const void *b) {
    const double x = ((const Stretch *)a)->from, y = ((const Stretch *)b)->from;
    return (x > y) - (x < y);
}

static void reach(Stretch *stretch, double x) {
    stretch->from = fmin(stretch->from, x);
    stretch->to = fmax(stretch->to, x);
}

// The part of the level line that lies nearer to the side ab than `clear`: what it cuts out of the discs
// round a and b and of the band between them, which together are convex. False where it passes by.
static bool near_side(Point a, Point b, double y, double clear, Stretch *out) {
    Stretch near = {INFINITY, -INFINITY};
    const Point ends[2] = {a, b};
    for (int k = 0; k < 2; k++) {
        const double up = y - ends[k].y;
        if (fabs(up) > clear)
            continue;
        const double half = sqrt(clear * clear - up * up);
        reach(&near, ends[k].x - half);
        reach(&near, ends[k].x + half);
    }
    const double span = point_distance(a, b);
    for (int k = -1; k <= 1 && span > 0; k += 2) {
        const Point beside = point_scale(point_right(point_sub(b, a)), k * clear / span);
        const Point c = point_add(a, beside), d = point_add(b, beside);
        if ((c.y > y) != (d.y > y))
            reach(&near, c.x + (d.x - c.x) * (y - c.y) / (d.y - c.y));
    }
    *out = near;
    return near.from <= near.to;
}

// The side stretches in order from left to right, and between them what is clear: inside where an odd number
// of sides was crossed to the left of it.
bool flat_clear_stretch(const Flat *flat, double y, double clear, double *from, double *to) {
    Stretch *near = mem_new(sizeof *near * (size_t)(flat->count + 1));
    int count = 0;
    for (int i = 0; i + 1 < flat->count; i++) {
        const Point a = flat->points[i], b = flat->points[i + 1];
        if (fmin(a.y, b.y) - clear <= y && fmax(a.y, b.y) + clear >= y &&
            near_side(a, b, y, clear, &near[count]))
            count++;
    }
    qsort(near, (size_t)count, sizeof *near, by_start);
    double widest = 0, reached = -INFINITY;
    for (int i = 0; i < count; i++) {
        const double gap = near[i].from - reached;
        if (i > 0 && gap > widest && contains(flat, point((near[i].from + reached) / 2, y))) {
            widest = gap;
            *from = reached;
            *to = near[i].from;
        }
        reached = fmax(reached, near[i].to);
    }
    mem_free(near);
    return widest > 0;
}
