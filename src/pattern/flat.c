#include "pattern/flat.h"

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

bool flat_stretch(const Flat *flat, double y, double *from, double *to) {
    double few[64], *crossings = few;
    int count = 0;
    if (flat->count > (int)(sizeof few / sizeof few[0]))
        crossings = mem_new(sizeof *crossings * (size_t)flat->count);
    for (int i = 0; i + 1 < flat->count; i++) {
        const Point a = flat->points[i], b = flat->points[i + 1];
        if ((a.y > y) == (b.y > y))
            continue;
        const double x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
        int place = count++;
        for (; place > 0 && crossings[place - 1] > x; place--)
            crossings[place] = crossings[place - 1];
        crossings[place] = x;
    }
    double widest = 0;
    for (int i = 0; i + 1 < count; i += 2) {
        if (crossings[i + 1] - crossings[i] <= widest)
            continue;
        widest = crossings[i + 1] - crossings[i];
        *from = crossings[i];
        *to = crossings[i + 1];
    }
    if (crossings != few)
        mem_free(crossings);
    return widest > 0;
}
