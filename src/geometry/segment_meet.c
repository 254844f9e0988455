// Life of a question: (1) each end of either segment is dropped on the other; that finds shared ends,
// touching ends and the ends of every overlap, since two curves of degree 3 that share a stretch share it up
// to an end of one of them. (2) Neighbouring finds with everything between them on both segments make the
// overlap. (3) The rest is solved: two lines by formula; a line and a curve by the zeros of a cubic
// polynomial; two curves by halving both until the pieces are apart, or cross at an angle and Newton's method
// answers, or are too small to halve. Pieces are apart when their boxes are, or when one lies beside the
// strip of the other along its chord (the fat line of T. W. Sederberg and T. Nishita, "Curve intersection
// using Bezier clipping", Computer-Aided Design 22, 1990); the strip gets thin with the square of the size,
// so that also curves that touch leave few pieces. (4) Finds that belong together are made one.
#include "geometry/segment_meet.h"

#include "geometry/bernstein.h"

#define LEAF_MM 0.05
#define PIECES_MAX 3000
#define NEWTON_MAX 60

typedef struct Question {
    const Segment *a, *b;
    SegmentMeets *out;
    int pieces; // looked at so far
} Question;

static double distance_to(const Segment *s, Point p, double *t) {
    *t = segment_nearest(s, p);
    return point_distance(segment_point(s, *t), p);
}

// Whether a stays within POINT_SAME_MM of b between two places on a.
static bool runs_on(const Question *q, double t0, double t1) {
    static const double PLACES[3] = {0.5, 0.21, 0.83};
    for (int i = 0; i < 3; i++) {
        double u;
        if (!(distance_to(q->b, segment_point(q->a, t0 + (t1 - t0) * PLACES[i]), &u) <= POINT_SAME_MM))
            return false;
    }
    return true;
}

// The two ends of a segment that is a drop lie together and are still two places.
static bool meets_same(const Question *q, const SegmentMeet *m, const SegmentMeet *n) {
    return fabs(m->t - n->t) < 0.5 && fabs(m->u - n->u) < 0.5 &&
           point_same(segment_point(q->a, m->t), segment_point(q->a, n->t)) &&
           point_same(segment_point(q->b, m->u), segment_point(q->b, n->u));
}

static bool inside_overlap(const SegmentMeets *out, double t, double u) {
    return out->overlap && t > out->from.t && t < out->to.t && u > fmin(out->from.u, out->to.u) &&
           u < fmax(out->from.u, out->to.u);
}

// Keeps the items rising along a. A find that is one with another replaces it when it is nearer.
static void add(Question *q, double t, double u, double gap) {
    SegmentMeets *out = q->out;
    const SegmentMeet m = {.t = t, .u = u, .gap = gap};
    if (!(gap <= POINT_SAME_MM) || inside_overlap(out, t, u))
        return;
    int at = 0;
    while (at < out->count && out->items[at].t <= t)
        at++;
    for (int i = at - 1; i <= at; i++) { // the neighbours on both sides
        if (i < 0 || i >= out->count)
            continue;
        SegmentMeet *n = &out->items[i];
        if (meets_same(q, &m, n) || (!out->overlap && runs_on(q, t, n->t))) {
            if (gap < n->gap)
                *n = m;
            return;
        }
    }
    if (out->count == SEGMENT_MEETS_MAX)
        return;
    for (int i = out->count; i > at; i--)
        out->items[i] = out->items[i - 1];
    out->items[at] = m;
    out->count++;
}

// Ends are added without asking whether they belong together: they may bound an overlap.
static void add_end(Question *q, double t, double u) {
    SegmentMeets *out = q->out;
    const SegmentMeet m = {
        .t = t, .u = u, .gap = point_distance(segment_point(q->a, t), segment_point(q->b, u))};
    if (!(m.gap <= POINT_SAME_MM))
        return;
    int at = out->count;
    for (int i = 0; i < out->count; i++) {
        if (meets_same(q, &m, &out->items[i]))
            return;
        if (out->items[i].t > t && at == out->count)
            at = i;
    }
    for (int i = out->count; i > at; i--)
        out->items[i] = out->items[i - 1];
    out->items[at] = m;
    out->count++;
}

static bool in_reach(Box box, Point p) {
    return box_touch(box, (Box){p, p}, POINT_SAME_MM) && box_distance(box, p) <= POINT_SAME_MM;
}

static void meet_ends(Question *q, Box box_a, Box box_b) {
    const Segment *a = q->a, *b = q->b;
    for (int i = 0; i < 2; i++) { // shared ends first: they keep their exact parameters
        for (int j = 0; j < 2; j++) {
            const Point on_a = i ? a->p3 : a->p0, on_b = j ? b->p3 : b->p0;
            if (box_touch((Box){on_a, on_a}, (Box){on_b, on_b}, POINT_SAME_MM))
                add_end(q, i, j);
        }
    }
    for (int i = 0; i < 2; i++) {
        const Point on_a = i ? a->p3 : a->p0, on_b = i ? b->p3 : b->p0;
        if (in_reach(box_b, on_a))
            add_end(q, i, segment_nearest(b, on_a));
        if (in_reach(box_a, on_b))
            add_end(q, segment_nearest(a, on_b), i);
    }
}

static void find_overlap(Question *q) {
    SegmentMeets *out = q->out;
    for (int i = 0; i + 1 < out->count; i++) {
        const SegmentMeet m = out->items[i], n = out->items[i + 1];
        const bool one_place =
            n.t - m.t < 0.5 && point_same(segment_point(q->a, m.t), segment_point(q->a, n.t));
        if (one_place || !runs_on(q, m.t, n.t))
            continue;
        if (!out->overlap)
            out->from = m;
        out->overlap = true;
        out->to = n;
    }
    if (!out->overlap)
        return;
    int kept = 0;
    for (int i = 0; i < out->count; i++) {
        if (!inside_overlap(out, out->items[i].t, out->items[i].u))
            out->items[kept++] = out->items[i];
    }
    out->count = kept;
}

static void meet_lines(Question *q) {
    const Point along_a = point_sub(q->a->p3, q->a->p0), along_b = point_sub(q->b->p3, q->b->p0);
    const double sine = point_cross(along_a, along_b);
    if (fabs(sine) <= PARALLEL_RAD * point_size(along_a) * point_size(along_b))
        return; // the ends told all
    const Point off = point_sub(q->b->p0, q->a->p0);
    const double t = point_cross(off, along_b) / sine, u = point_cross(off, along_a) / sine;
    if (t >= 0 && t <= 1 && u >= 0 && u <= 1)
        add(q, t, u, point_distance(segment_point(q->a, t), segment_point(q->b, u)));
}

static void add_on_curve(Question *q, bool curve_is_a, double t) {
    double u;
    const double gap = curve_is_a ? distance_to(q->b, segment_point(q->a, t), &u)
                                  : distance_to(q->a, segment_point(q->b, t), &u);
    add(q, curve_is_a ? t : u, curve_is_a ? u : t, gap);
}

// The distances of the control points from the line are the Bernstein coefficients of the curve's distance
// from it.
static void meet_line_and_curve(Question *q, const Segment *line, const Segment *curve, bool curve_is_a) {
    const Point normal = point_left(point_unit(point_sub(line->p3, line->p0)));
    const double d[4] = {
        point_dot(point_sub(curve->p0, line->p0), normal), point_dot(point_sub(curve->p1, line->p0), normal),
        point_dot(point_sub(curve->p2, line->p0), normal), point_dot(point_sub(curve->p3, line->p0), normal)};
    const double slope[3] = {d[1] - d[0], d[2] - d[1], d[3] - d[2]};
    double zeros[BERNSTEIN_ZEROS_MAX];
    int count = bernstein_zeros(d, 3, MEET_MM / 10, zeros);
    for (int i = 0; i < count; i++)
        add_on_curve(q, curve_is_a, zeros[i]);
    count = bernstein_zeros(slope, 2, 0, zeros); // touches that stay off by less than a point
    for (int i = 0; i < count; i++)
        add_on_curve(q, curve_is_a, zeros[i]);
}

// Newton's method on a(t) = b(u), held to 0..1, from the middle of the pieces: with r = a - b, crossing
// r + a' dt - b' du = 0 with b' and with a' gives dt = -(r x b') / (a' x b') and du = (a' x r) / (a' x b').
static bool newton(const Question *q, double *t, double *u, double *gap) {
    double best_t = *t, best_u = *u, best = INFINITY;
    for (int i = 0, worse = 0; i < NEWTON_MAX && worse < 4; i++) {
        const Point r = point_sub(segment_point(q->a, *t), segment_point(q->b, *u));
        const double size = point_size(r);
        worse = size < best * 0.9 ? 0 : worse + 1;
        if (size < best) {
            best = size;
            best_t = *t;
            best_u = *u;
        }
        const Point da = segment_derivative(q->a, *t), db = segment_derivative(q->b, *u);
        const double sine = point_cross(da, db);
        if (best == 0 || sine == 0 || !isfinite(size))
            break;
        *t = fmin(fmax(*t - point_cross(r, db) / sine, 0), 1);
        *u = fmin(fmax(*u + point_cross(da, r) / sine, 0), 1);
    }
    *t = best_t;
    *u = best_u;
    *gap = best;
    return best <= MEET_MM;
}

typedef struct Range {
    double from, to;
} Range;

static bool covered_by_overlap(const SegmentMeets *out, Range on_a, Range on_b) {
    return out->overlap && on_a.from >= out->from.t && on_a.to <= out->to.t &&
           on_b.from >= fmin(out->from.u, out->to.u) && on_b.to <= fmax(out->from.u, out->to.u);
}

static double size_of(const Box *box) {
    return fmax(box->most.x - box->least.x, box->most.y - box->least.y);
}

// Whether b lies beside the strip of a.
static bool beside(const Segment *a, const Segment *b) {
    const Point along = point_sub(a->p3, a->p0);
    const double length = point_size(along);
    if (length <= POINT_SAME_MM)
        return false;
    const Point normal = point(-along.y / length, along.x / length);
    const double d1 = point_dot(point_sub(a->p1, a->p0), normal),
                 d2 = point_dot(point_sub(a->p2, a->p0), normal);
    const double low = fmin(fmin(d1, d2), 0) - POINT_SAME_MM, high = fmax(fmax(d1, d2), 0) + POINT_SAME_MM;
    const double e[4] = {
        point_dot(point_sub(b->p0, a->p0), normal), point_dot(point_sub(b->p1, a->p0), normal),
        point_dot(point_sub(b->p2, a->p0), normal), point_dot(point_sub(b->p3, a->p0), normal)};
    return fmin(fmin(e[0], e[1]), fmin(e[2], e[3])) > high || fmax(fmax(e[0], e[1]), fmax(e[2], e[3])) < low;
}

// The directions of the piece lie within this many degrees of its chord's.
static double spread(const Segment *s) {
    const Point along = point_sub(s->p3, s->p0);
    double most = 0;
    const Point d[3] = {point_sub(s->p1, s->p0), point_sub(s->p2, s->p1), point_sub(s->p3, s->p2)};
    for (int i = 0; i < 3; i++)
        most = fmax(most, fabs(point_turn(along, d[i])));
    return most;
}

// Pieces whose directions cannot be the same cross at most once.
static bool cross_at_an_angle(const Segment *a, const Segment *b) {
    const double turn = fabs(point_turn(point_sub(a->p3, a->p0), point_sub(b->p3, b->p0)));
    const double angle = fmin(turn, 180 - turn), room = spread(a) + spread(b);
    return room < 90 && angle > room;
}

// Two pieces too small to halve: they cross where Newton's method says, or are as near as they get.
static void meet_leaves(Question *q, Range on_a, Range on_b) {
    double t = (on_a.from + on_a.to) / 2, u = (on_b.from + on_b.to) / 2, gap;
    if (newton(q, &t, &u, &gap)) {
        add(q, t, u, gap);
        return;
    }
    double best_t = 0, best_u = 0, best = INFINITY;
    for (int i = 0; i <= 2; i++) {
        t = on_a.from + (on_a.to - on_a.from) * i / 2;
        gap = distance_to(q->b, segment_point(q->a, t), &u);
        if (gap < best) {
            best = gap;
            best_t = t;
            best_u = u;
        }
    }
    add(q, best_t, best_u, best);
}

static void meet_curves(Question *q, Segment a, Range on_a, Segment b, Range on_b) {
    if (++q->pieces > PIECES_MAX)
        return;
    const Box box_a = segment_hull_box(&a), box_b = segment_hull_box(&b);
    if (!box_touch(box_a, box_b, POINT_SAME_MM) || beside(&a, &b) || beside(&b, &a))
        return;
    if (covered_by_overlap(q->out, on_a, on_b))
        return;
    const double size_a = size_of(&box_a), size_b = size_of(&box_b);
    if (size_a <= LEAF_MM && size_b <= LEAF_MM) {
        meet_leaves(q, on_a, on_b);
        return;
    }
    if (cross_at_an_angle(&a, &b)) {
        double t = (on_a.from + on_a.to) / 2, u = (on_b.from + on_b.to) / 2, gap;
        if (newton(q, &t, &u, &gap) && t >= on_a.from && t <= on_a.to && u >= on_b.from && u <= on_b.to) {
            add(q, t, u, gap);
            return;
        }
    }
    Segment left, right;
    if (size_a >= size_b) {
        const double middle = (on_a.from + on_a.to) / 2;
        segment_split(&a, 0.5, &left, &right);
        meet_curves(q, left, (Range){on_a.from, middle}, b, on_b);
        meet_curves(q, right, (Range){middle, on_a.to}, b, on_b);
    } else {
        const double middle = (on_b.from + on_b.to) / 2;
        segment_split(&b, 0.5, &left, &right);
        meet_curves(q, a, on_a, left, (Range){on_b.from, middle});
        meet_curves(q, a, on_a, right, (Range){middle, on_b.to});
    }
}

void segment_meets(const Segment *a, const Segment *b, SegmentMeets *out) {
    out->count = 0;
    out->overlap = false;
    Question q = {.a = a, .b = b, .out = out};
    const Box box_a = segment_hull_box(a), box_b = segment_hull_box(b);
    if (!segment_finite(a) || !segment_finite(b) || !box_touch(box_a, box_b, POINT_SAME_MM))
        return;
    meet_ends(&q, box_a, box_b);
    if (segment_is_point(a) || segment_is_point(b)) {
        out->count = out->count > 1 ? 1 : out->count; // both its ends are found
        return;
    }
    find_overlap(&q);
    const bool line_a = a->kind == SEGMENT_LINE, line_b = b->kind == SEGMENT_LINE;
    if (line_a && line_b)
        meet_lines(&q);
    else if (line_a)
        meet_line_and_curve(&q, a, b, false);
    else if (line_b)
        meet_line_and_curve(&q, b, a, true);
    else
        meet_curves(&q, *a, (Range){0, 1}, *b, (Range){0, 1});
}

// With p = a t^3 + b t^2 + c t + d, p(t) = p(u) for t other than u leaves (s^2 - q) a + s b + c = 0 where s =
// t + u and q = t u. Crossed with a: s = -(c x a) / (b x a); then q follows, and t and u solve z^2 - s z + q
// = 0.
bool segment_self_meet(const Segment *s, double *t, double *u) {
    if (s->kind == SEGMENT_LINE)
        return false;
    const Point c = point_scale(point_sub(s->p1, s->p0), 3);
    const Point b = point_scale(point_add(point_sub(s->p2, point_scale(s->p1, 2)), s->p0), 3);
    const Point a = point_add(point_sub(s->p3, s->p0), point_scale(point_sub(s->p1, s->p2), 3));
    const double square = point_dot(a, a), sine = point_cross(b, a);
    const double sum = -point_cross(c, a) / sine;
    const double product = sum * sum + (sum * point_dot(b, a) + point_dot(c, a)) / square;
    const double inside = sum * sum - 4 * product;
    if (!isfinite(sum) || !isfinite(product) || inside <= 0)
        return false;
    const double root = sqrt(inside), t0 = (sum - root) / 2, t1 = (sum + root) / 2;
    if (t0 < 0 || t1 > 1 || point_distance(segment_point(s, t0), segment_point(s, t1)) > POINT_SAME_MM)
        return false;
    *t = t0;
    *u = t1;
    return true;
}
