#include "geometry/stretch.h"

#include "base/memory.h"
#include "geometry/parallel.h"

#define POLISH_STEPS 8
#define CUT_STEPS 10
// A crossing near a joint is sought at most this many times the trim of straight sides away from it.
#define TRIM_REACH 4.0

// Newton's method for A(t) = B(u). Curves that nearly run along each other have no sharp crossing; there the
// middle between the two places on the chords is as good.
Point meet_polish(const Path *path, PathSpot *a, PathSpot *b) {
    const Segment *sa = &path->items[a->index], *sb = &path->items[b->index];
    double t = a->t, u = b->t;
    const Point start = point_mix(segment_point(sa, t), segment_point(sb, u), 0.5);
    for (int i = 0; i < POLISH_STEPS; i++) {
        const Point gap = point_sub(segment_point(sb, u), segment_point(sa, t));
        if (point_size(gap) <= MEET_MM)
            break;
        const Point da = segment_derivative(sa, t), db = segment_derivative(sb, u);
        const double det = point_cross(da, db);
        if (fabs(det) <= PARALLEL_RAD * point_size(da) * point_size(db))
            return start;
        t += point_cross(gap, db) / det;
        u += point_cross(gap, da) / det;
        if (!(t >= 0.0 && t <= 1.0 && u >= 0.0 && u <= 1.0))
            return start;
    }
    const Point found = point_mix(segment_point(sa, t), segment_point(sb, u), 0.5);
    // On one and the same segment every t = u solves the equation: not a crossing.
    const bool trivial = sa == sb && fabs(t - u) < 0.5 * fabs(a->t - b->t);
    if (trivial || point_distance(segment_point(sa, t), segment_point(sb, u)) > MEET_MM ||
        point_distance(found, start) > POLISH_REACH_MM)
        return start;
    a->t = t;
    b->t = u;
    return found;
}

// Adds a segment moved at its ends to follow on from `at` and to end at `end`; what is too short is left for
// the next segment to bridge.
static void add_pulled(Path *out, Point *at, Segment s, Point end) {
    const double span = point_distance(*at, end);
    if (span <= POINT_SAME_MM &&
        point_distance(s.p0, s.p1) + point_distance(s.p2, s.p3) <= 2.0 * POINT_SAME_MM)
        return;
    segment_pull_first(&s, *at);
    segment_pull_last(&s, end);
    ARRAY_ADD(out, s);
    *at = end;
}

void stretch_add(const Path *path, PathSpot from, Point at_from, PathSpot to, Point at_to, Path *out) {
    Point at = at_from;
    if (from.index == to.index && from.t <= to.t) {
        add_pulled(out, &at, segment_between(&path->items[from.index], from.t, to.t), at_to);
    } else {
        const Segment *s = &path->items[from.index];
        if (from.t < 1.0)
            add_pulled(out, &at, segment_between(s, from.t, 1.0), s->p3);
        for (int i = from.index + 1;; i++) {
            i = i < path->count ? i : 0;
            if (i == to.index)
                break;
            add_pulled(out, &at, path->items[i], path->items[i].p3);
        }
        if (to.t > 0.0)
            add_pulled(out, &at, segment_between(&path->items[to.index], 0.0, to.t), at_to);
    }
    // A last piece too short to add: what came before ends at the wanted point instead.
    if (out->count > 0 && point_distance(at, at_to) > 0.0) {
        segment_pull_last(&out->items[out->count - 1], at_to);
    }
}

bool cut_at_crossing(Segment *a, Segment *b, double trim, double turn) {
    const double size_a = point_size(segment_derivative(a, 1.0));
    const double size_b = point_size(segment_derivative(b, 0.0));
    if (!isfinite(trim) || size_a <= POINT_SAME_MM || size_b <= POINT_SAME_MM)
        return false;
    double t = fmax(1.0 - trim / size_a, 0.0), u = fmin(trim / size_b, 1.0);
    for (int i = 0; i < CUT_STEPS; i++) {
        const Point gap = point_sub(segment_point(b, u), segment_point(a, t));
        const Point da = segment_derivative(a, t), db = segment_derivative(b, u);
        const double det = point_cross(da, db);
        if (copysign(1.0, turn) * det <= PARALLEL_RAD * point_size(da) * point_size(db))
            return false;
        if (point_size(gap) <= MEET_MM) {
            const Point at = point_mix(segment_point(a, t), segment_point(b, u), 0.5);
            const double reach = TRIM_REACH * trim;
            if (point_distance(at, a->p3) > reach || point_distance(at, b->p0) > reach ||
                point_distance(at, a->p0) <= POINT_SAME_MM || point_distance(at, b->p3) <= POINT_SAME_MM)
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
