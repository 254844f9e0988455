// The shortest distance between two paths: at an end of a segment, or inside a pair of which one is a curve.
#include "geometry/crossing.h"

#include <assert.h>

// The distance from a place on one segment to the nearest on the other.
static double gap_at(const Segment *a, const Segment *b, double t, double *u) {
    const Point p = segment_point(a, t);
    *u = segment_nearest(b, p);
    return point_distance(p, segment_point(b, *u));
}

typedef struct Gap {
    double least;
    Point on_a, on_b;
} Gap;

static void gap_try(Gap *gap, const Segment *a, const Segment *b, double t) {
    double u;
    const double distance = gap_at(a, b, t, &u);
    if (distance >= gap->least)
        return;
    *gap = (Gap){.least = distance, .on_a = segment_point(a, t), .on_b = segment_point(b, u)};
}

// The distance to b as one runs along a, looked at in GAP_STEPS places; round the best of them it is closed
// in on by golden sections (J. Kiefer, "Sequential minimax search for a maximum", Proc. AMS 4, 1953).
static void gap_of_segments(Gap *gap, const Segment *a, const Segment *b) {
    enum { GAP_STEPS = 24 };
    const double golden = (sqrt(5) - 1) / 2;
    double u, best = INFINITY, at = 0;
    for (int i = 0; i <= GAP_STEPS; i++) {
        const double t = (double)i / GAP_STEPS, distance = gap_at(a, b, t, &u);
        if (distance < best) {
            best = distance;
            at = t;
        }
    }
    gap_try(gap, a, b, at);
    double low = fmax(at - 1.0 / GAP_STEPS, 0), high = fmin(at + 1.0 / GAP_STEPS, 1);
    double left = high - golden * (high - low), right = low + golden * (high - low);
    double at_left = gap_at(a, b, left, &u), at_right = gap_at(a, b, right, &u);
    for (int i = 0; i < 45; i++) {
        if (at_left < at_right) {
            high = right;
            right = left, at_right = at_left;
            left = high - golden * (high - low);
            at_left = gap_at(a, b, left, &u);
        } else {
            low = left;
            left = right, at_left = at_right;
            right = low + golden * (high - low);
            at_right = gap_at(a, b, right, &u);
        }
    }
    gap_try(gap, a, b, (low + high) / 2);
}

static double box_gap(Box a, Box b) {
    const double dx = fmax(fmax(a.least.x - b.most.x, b.least.x - a.most.x), 0);
    const double dy = fmax(fmax(a.least.y - b.most.y, b.least.y - a.most.y), 0);
    return hypot(dx, dy);
}

double path_gap(const Path *a, const Path *b, Point *on_a, Point *on_b) {
    assert(a->count > 0 && b->count > 0);
    Gap gap = {.least = INFINITY, .on_a = path_first(a), .on_b = path_first(b)};
    CrossingList list = {0};
    path_crossings(a, b, &list);
    if (list.count > 0)
        gap = (Gap){.least = 0, .on_a = list.items[0].point, .on_b = list.items[0].point};
    crossings_finish(&list);
    for (int i = 0; i <= a->count && gap.least > 0; i++) {
        const Point p = i < a->count ? a->items[i].p0 : path_last(a);
        const Point q = path_spot_point(b, path_nearest(b, p));
        if (point_distance(p, q) < gap.least)
            gap = (Gap){.least = point_distance(p, q), .on_a = p, .on_b = q};
    }
    for (int j = 0; j <= b->count && gap.least > 0; j++) {
        const Point q = j < b->count ? b->items[j].p0 : path_last(b);
        const Point p = path_spot_point(a, path_nearest(a, q));
        if (point_distance(p, q) < gap.least)
            gap = (Gap){.least = point_distance(p, q), .on_a = p, .on_b = q};
    }
    for (int i = 0; i < a->count && gap.least > 0; i++) {
        const Box box = segment_hull_box(&a->items[i]);
        for (int j = 0; j < b->count; j++) {
            // two lines apart are nearest at an end, and all ends are asked
            const bool lines = a->items[i].kind == SEGMENT_LINE && b->items[j].kind == SEGMENT_LINE;
            if (!lines && box_gap(box, segment_hull_box(&b->items[j])) < gap.least)
                gap_of_segments(&gap, &a->items[i], &b->items[j]);
        }
    }
    if (on_a)
        *on_a = gap.on_a;
    if (on_b)
        *on_b = gap.on_b;
    return gap.least;
}
