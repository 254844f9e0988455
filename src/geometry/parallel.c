// The parallel of a cubic p(t) at distance d to its left is q(t) = p(t) + d n(t), n the left normal. With the
// speed v = |p'| and the cross product c = p' x p'', the curvature of p is c / v^3, and
//     q' = g T,   g = v - d c / v^2,   T the unit tangent of p;
// q runs forward where g > 0, has a cusp where g = 0, and its own curvature is c / (v^2 g).
//
// Life of a call: parallel_add cuts the parameter range at inflections (c = 0), where a coordinate turns
// round (so that a part never turns by more than 90 degrees), and where g changes sign. Forward parts go to
// fit_part, which sets one cubic on each and halves the part until the cubic is near enough; backward parts
// become a straight link.
#include "geometry/parallel.h"

#include <assert.h>

#include "base/memory.h"

// Parts are halved at most this often: each halving divides the error of the fit by 2^6 or so.
#define HALVINGS_MAX 14
#define FIT_SAMPLES 8
#define NEWTON_STEPS 5
#define BREAKS_MAX 10
#define SCAN_STEPS 8

// p(t) = ((a t + b) t + c) t + d; size is the length of the control polygon.
typedef struct Cubic {
    Point a, b, c, d;
    double size;
} Cubic;

// What the fit needs to know of the parallel at one parameter.
typedef struct Jet {
    double t;
    Point p, tangent;
    double bend; // c / v^2: turning of the tangent per unit of t, radians
    double pace; // g: speed of the parallel
} Jet;

typedef struct Fit {
    Cubic cubic;
    double left, tolerance;
    Path *out;
} Fit;

static Cubic cubic_of(const Segment *s) {
    const Point c = point_scale(point_sub(s->p1, s->p0), 3.0);
    const Point b = point_sub(point_scale(point_sub(s->p2, s->p1), 3.0), c);
    const Point a = point_sub(point_sub(point_sub(s->p3, s->p0), c), b);
    const double size =
        point_distance(s->p0, s->p1) + point_distance(s->p1, s->p2) + point_distance(s->p2, s->p3);
    return (Cubic){.a = a, .b = b, .c = c, .d = s->p0, .size = size};
}

static Point cubic_point(const Cubic *k, double t) {
    return point(((k->a.x * t + k->b.x) * t + k->c.x) * t + k->d.x,
                 ((k->a.y * t + k->b.y) * t + k->c.y) * t + k->d.y);
}

static Point cubic_first(const Cubic *k, double t) {
    return point((3.0 * k->a.x * t + 2.0 * k->b.x) * t + k->c.x,
                 (3.0 * k->a.y * t + 2.0 * k->b.y) * t + k->c.y);
}

static Point cubic_second(const Cubic *k, double t) {
    return point(6.0 * k->a.x * t + 2.0 * k->b.x, 6.0 * k->a.y * t + 2.0 * k->b.y);
}

// Real roots of a t^2 + b t + c strictly between from and to, added to list; gives the new count.
static int roots_between(double a, double b, double c, double from, double to, double *list, int count) {
    const double scale = fmax(fabs(a), fmax(fabs(b), fabs(c)));
    if (scale == 0.0)
        return count;
    double roots[2];
    int found = 0;
    if (fabs(a) <= 1e-12 * scale) {
        if (b != 0.0)
            roots[found++] = -c / b;
    } else {
        double square = b * b - 4.0 * a * c;
        if (square < 0.0 && square > -1e-12 * scale * scale)
            square = 0.0;
        if (square >= 0.0) {
            // The sum without cancellation gives one root, their product c / a the other.
            const double q = -0.5 * (b + copysign(sqrt(square), b));
            roots[found++] = q / a;
            if (q != 0.0)
                roots[found++] = c / q;
        }
    }
    for (int i = 0; i < found; i++)
        if (roots[i] > from && roots[i] < to)
            list[count++] = roots[i];
    return count;
}

static void sort_numbers(double *list, int count) {
    for (int i = 1; i < count; i++) {
        const double x = list[i];
        int j = i;
        for (; j > 0 && list[j - 1] > x; j--)
            list[j] = list[j - 1];
        list[j] = x;
    }
}

// A cusp: p' = 0. Both coordinates of p' vanish there, so the roots of each are the places to look; two steps
// towards the least |p'|^2 follow. A speed of 1e-4 of the size means that the whole turn happens within 1e-8
// of the size.
static int cubic_cusps(const Cubic *k, double *list) {
    double places[4];
    int count = roots_between(3.0 * k->a.x, 2.0 * k->b.x, k->c.x, 0.0, 1.0, places, 0);
    count = roots_between(3.0 * k->a.y, 2.0 * k->b.y, k->c.y, 0.0, 1.0, places, count);
    sort_numbers(places, count);
    int found = 0;
    for (int i = 0; i < count; i++) {
        double t = places[i];
        for (int step = 0; step < 2; step++) {
            const Point first = cubic_first(k, t), second = cubic_second(k, t);
            const double square = point_dot(second, second);
            if (square > 0.0)
                t -= point_dot(first, second) / square;
        }
        if (t < 1e-4 || t > 1.0 - 1e-4 || (found > 0 && t - list[found - 1] < 1e-4))
            continue;
        if (point_size(cubic_first(k, t)) <= 1e-4 * k->size)
            list[found++] = t;
    }
    return found;
}

static bool segment_is_straight(const Segment *s) {
    const Point chord = point_sub(s->p3, s->p0);
    const double length = point_size(chord);
    if (length <= POINT_SAME_MM)
        return false;
    const Point along = point_scale(chord, 1.0 / length);
    const Point h1 = point_sub(s->p1, s->p0), h2 = point_sub(s->p2, s->p0);
    const double s1 = point_dot(h1, along), s2 = point_dot(h2, along);
    return fabs(point_cross(along, h1)) <= CURVE_STRAIGHT_MM &&
           fabs(point_cross(along, h2)) <= CURVE_STRAIGHT_MM && s1 >= 0.0 && s2 >= 0.0 && s1 <= length &&
           s2 <= length;
}

int segment_regular(const Segment *s, Segment pieces[PARALLEL_PIECES_MAX]) {
    const Cubic k = cubic_of(s);
    if (k.size <= POINT_SAME_MM)
        return 0;
    if (s->kind == SEGMENT_LINE || segment_is_straight(s)) {
        pieces[0] = segment_line(s->p0, s->p3);
        return 1;
    }
    double cusps[4];
    const int cuts = cubic_cusps(&k, cusps);
    Segment rest = *s;
    double from = 0.0;
    int count = 0;
    for (int i = 0; i < cuts && count < PARALLEL_PIECES_MAX - 1; i++) {
        Segment before;
        segment_split(&rest, (cusps[i] - from) / (1.0 - from), &before, &rest);
        from = cusps[i];
        before.p2 = before.p3; // the speed is zero there
        rest.p1 = rest.p0;
        pieces[count++] = before;
    }
    pieces[count++] = rest;
    for (int i = 0; i < count; i++)
        if (segment_is_straight(&pieces[i]))
            pieces[i] = segment_line(pieces[i].p0, pieces[i].p3);
    return count;
}

// The jet at t, of the part that lies on the side of `toward`. Where the speed vanishes, which after
// segment_regular is only at an end (a handle of no length), the tangent is that of the second derivative,
// and bend and pace, which have limits, are read a little way in.
static Jet jet_at(const Fit *fit, double t, double toward) {
    const Cubic *k = &fit->cubic;
    Point first = cubic_first(k, t);
    double speed = point_size(first);
    Jet jet = {.t = t, .p = cubic_point(k, t)};
    double at = t;
    if (speed <= 3.0 * HANDLE_ZERO_MM) {
        const double inward = t < 0.5 ? 1.0 : -1.0;
        const Point second = cubic_second(k, t);
        const double size = point_size(second);
        jet.tangent = size > 6.0 * HANDLE_ZERO_MM ? point_scale(second, inward / size)
                                                  : point_unit(k->a); // both handles vanish: p = d + a t^3
        at = t + inward * fmax(1e-3 * fabs(toward - t), 1e-6);
        first = cubic_first(k, at);
        speed = fmax(point_size(first), 1e-300);
    } else {
        jet.tangent = point_scale(first, 1.0 / speed);
    }
    jet.bend = point_cross(first, cubic_second(k, at)) / (speed * speed);
    jet.pace = speed - fit->left * jet.bend;
    return jet;
}

static Point jet_parallel(const Fit *fit, const Jet *jet) {
    return point_add(jet->p, point_scale(point_left(jet->tangent), fit->left));
}

// One cubic with the ends, tangents and, where it can, curvatures of the parallel between two jets. With D
// from end to end, T0 and T1 the tangents, K0 and K1 the curvatures, the handle lengths a and b of a cubic
// satisfy
//     1.5 K0 a^2 = T0 x D - b T0 x T1,   1.5 K1 b^2 = D x T1 - a T0 x T1
// (the curvature of a Bezier curve at its ends). Newton's method starts from the handles that match the
// speeds; where it leaves 0.3 to 3 times them, the start is kept.
static Segment fit_cubic(const Fit *fit, const Jet *j0, const Jet *j1) {
    const Point q0 = jet_parallel(fit, j0), q1 = jet_parallel(fit, j1);
    const Point chord = point_sub(q1, q0), t0 = j0->tangent, t1 = j1->tangent;
    const double third = (j1->t - j0->t) / 3.0;
    const double a0 = fmax(j0->pace, 0.0) * third, b0 = fmax(j1->pace, 0.0) * third;
    double a = a0, b = b0;
    const double turn = point_cross(t0, t1), c0 = point_cross(t0, chord), c1 = point_cross(chord, t1);
    const double tiny = 1e-9 * fit->cubic.size;
    if (a0 > tiny && b0 > tiny) {
        const double k0 = 1.5 * j0->bend / j0->pace, k1 = 1.5 * j1->bend / j1->pace;
        for (int i = 0; i < NEWTON_STEPS; i++) {
            const double f = k0 * a * a + b * turn - c0, g = k1 * b * b + a * turn - c1;
            const double fa = 2.0 * k0 * a, gb = 2.0 * k1 * b;
            const double det = fa * gb - turn * turn;
            if (fabs(det) < 1e-300)
                break;
            a -= (f * gb - g * turn) / det;
            b -= (g * fa - f * turn) / det;
        }
    } else if (fabs(turn) > 1e-9) {
        // One end is a cusp, where the handle has no length: the other handle ends where the tangents meet.
        if (b0 <= tiny)
            a = c1 / turn;
        else
            b = c0 / turn;
    }
    const bool good = a >= 0.3 * a0 && a <= 3.0 * a0 && b >= 0.3 * b0 && b <= 3.0 * b0;
    if (!good) {
        a = a0;
        b = b0;
    }
    return segment_cubic(q0, point_add(q0, point_scale(t0, a)), point_sub(q1, point_scale(t1, b)), q1);
}

// How far the fitted cubic is from being at the distance from p: samples, each with its foot on p by Newton's
// method for (p - q) . p' = 0.
static double fit_error(const Fit *fit, const Segment *fitted, double from, double to) {
    const Cubic *source = &fit->cubic;
    const Cubic k = cubic_of(fitted);
    const double wanted = fabs(fit->left);
    double worst = 0.0;
    for (int i = 1; i <= FIT_SAMPLES; i++) {
        const double u = (double)i / (FIT_SAMPLES + 1);
        const Point q = cubic_point(&k, u);
        double t = from + (to - from) * u;
        for (int step = 0; step < 3; step++) {
            const Point off = point_sub(cubic_point(source, t), q), first = cubic_first(source, t);
            const double slope = point_dot(first, first) + point_dot(off, cubic_second(source, t));
            if (slope <= 0.0)
                break;
            t -= point_dot(off, first) / slope;
            t = t < from ? from : t > to ? to : t;
        }
        worst = fmax(worst, fabs(point_distance(cubic_point(source, t), q) - wanted));
    }
    return worst;
}

// The parameter where the tangent has turned half way: the root of p' x m = 0, m half way between the
// tangents. Halving the turn, not the parameter, keeps close to where a curve bends hard.
static double half_turn(const Fit *fit, const Jet *j0, const Jet *j1) {
    const Cubic *k = &fit->cubic;
    const Point m = point_add(j0->tangent, j1->tangent);
    double roots[2];
    const double margin = 1e-9 * (j1->t - j0->t);
    if (fabs(point_cross(j0->tangent, j1->tangent)) > 1e-3 &&
        roots_between(3.0 * point_cross(k->a, m), 2.0 * point_cross(k->b, m), point_cross(k->c, m),
                      j0->t + margin, j1->t - margin, roots, 0) > 0)
        return roots[0];
    return 0.5 * (j0->t + j1->t);
}

static void fit_part(const Fit *fit, const Jet *j0, const Jet *j1, int halvings) {
    const Segment fitted = fit_cubic(fit, j0, j1);
    if (fit_error(fit, &fitted, j0->t, j1->t) <= fit->tolerance) {
        ARRAY_ADD(fit->out, fitted);
        return;
    }
    if (halvings >= HALVINGS_MAX) { // next to a cusp, and tiny by now: its chord is as near as can be
        ARRAY_ADD(fit->out, segment_line(fitted.p0, fitted.p3));
        return;
    }
    const double t = half_turn(fit, j0, j1);
    const Jet middle = jet_at(fit, t, j1->t);
    fit_part(fit, j0, &middle, halvings + 1);
    fit_part(fit, &middle, j1, halvings + 1);
}

static double pace_at(const Fit *fit, double t, double toward) {
    return jet_at(fit, t, toward).pace;
}

// Where the pace changes sign between two parameters, within 1e-12.
static double pace_root(const Fit *fit, double from, double to) {
    const bool forward = pace_at(fit, from, to) > 0.0;
    while (to - from > 1e-12) {
        const double middle = 0.5 * (from + to);
        if ((pace_at(fit, middle, to) > 0.0) == forward)
            from = middle;
        else
            to = middle;
    }
    return 0.5 * (from + to);
}

// Adds the sign changes of the pace in [from, to], a part that turns one way by at most 90 degrees. It is
// looked at in even steps of the parameter and in even steps of the turn, so that a short hard bend is not
// stepped over.
static int pace_changes(const Fit *fit, double from, double to, double *list, int count, int most) {
    const Cubic *k = &fit->cubic;
    const Jet j0 = jet_at(fit, from, to), j1 = jet_at(fit, to, from);
    if (fit->left * jet_at(fit, 0.5 * (from + to), to).bend <= 0.0)
        return count; // bends away: forward all the way
    double places[4 * SCAN_STEPS];
    int found = 0;
    places[found++] = from;
    for (int i = 1; i < SCAN_STEPS; i++) {
        const double share = (double)i / SCAN_STEPS;
        const Point m = point_mix(j0.tangent, j1.tangent, share);
        places[found++] = from + (to - from) * share;
        found = roots_between(3.0 * point_cross(k->a, m), 2.0 * point_cross(k->b, m), point_cross(k->c, m),
                              from, to, places, found);
    }
    places[found++] = to;
    sort_numbers(places, found);
    double before = j0.pace;
    for (int i = 1; i < found; i++) {
        const double pace = i + 1 < found ? pace_at(fit, places[i], to) : j1.pace;
        if ((pace > 0.0) != (before > 0.0) && count < most)
            list[count++] = pace_root(fit, places[i - 1], places[i]);
        before = pace;
    }
    return count;
}

void segment_pull_first(Segment *s, Point to) {
    if (s->kind == SEGMENT_LINE) {
        *s = segment_line(to, s->p3);
        return;
    }
    s->p1 = point_add(s->p1, point_sub(to, s->p0));
    s->p0 = to;
}

void segment_pull_last(Segment *s, Point to) {
    if (s->kind == SEGMENT_LINE) {
        *s = segment_line(s->p0, to);
        return;
    }
    s->p2 = point_add(s->p2, point_sub(to, s->p3));
    s->p3 = to;
}

// A link shorter than the tolerance is left out: what follows it is pulled to where it begins, along its own
// tangent.
static bool add_link(const Fit *fit, Point from, Point to) {
    if (point_distance(from, to) <= fit->tolerance)
        return false;
    ARRAY_ADD(fit->out, segment_line(from, to));
    return true;
}

void parallel_add(const Segment *s, double left, double tolerance, Path *out) {
    if (s->kind == SEGMENT_LINE) {
        const Point off = point_scale(point_left(point_unit(point_sub(s->p3, s->p0))), left);
        ARRAY_ADD(out, segment_line(point_add(s->p0, off), point_add(s->p3, off)));
        return;
    }
    const Fit fit = {.cubic = cubic_of(s), .left = left, .tolerance = tolerance, .out = out};
    const Cubic *k = &fit.cubic;
    const double edge = 1e-6; // no part is shorter than this

    // Ends of the parts that turn one way: c = p' x p'' = -6 a x b t^2 + 6 c x a t + 2 c x b.
    double bends[2 + 2];
    int bend_count = 0;
    bends[bend_count++] = 0.0;
    bend_count = roots_between(-6.0 * point_cross(k->a, k->b), 6.0 * point_cross(k->c, k->a),
                               2.0 * point_cross(k->c, k->b), edge, 1.0 - edge, bends, bend_count);
    sort_numbers(bends, bend_count);
    bends[bend_count++] = 1.0;

    const int begun = out->count;
    Point reached = point_add(s->p0, point_scale(point_left(segment_direction(s, 0.0)), left));
    bool pending = false; // a backward stretch is still to be linked
    for (int i = 0; i + 1 < bend_count; i++) {
        double breaks[BREAKS_MAX + 8];
        int count = 0;
        breaks[count++] = bends[i];
        count = roots_between(3.0 * k->a.x, 2.0 * k->b.x, k->c.x, bends[i] + edge, bends[i + 1] - edge,
                              breaks, count);
        count = roots_between(3.0 * k->a.y, 2.0 * k->b.y, k->c.y, bends[i] + edge, bends[i + 1] - edge,
                              breaks, count);
        breaks[count++] = bends[i + 1];
        sort_numbers(breaks, count);
        const int quarters = count;
        for (int j = 0; j + 1 < quarters; j++)
            count = pace_changes(&fit, breaks[j], breaks[j + 1], breaks, count, BREAKS_MAX + 8);
        sort_numbers(breaks, count);

        // Neighbouring forward parts are fitted as one while they turn by no more than 90 degrees together.
        int from = 0;
        while (from + 1 < count) {
            const double middle = 0.5 * (breaks[from] + breaks[from + 1]);
            const bool forward = pace_at(&fit, middle, 1.0) > 0.0;
            int to = from + 1;
            const Jet first = jet_at(&fit, breaks[from], breaks[to]);
            Jet last = jet_at(&fit, breaks[to], breaks[from]);
            double turn = fabs(point_turn(first.tangent, last.tangent));
            while (to + 1 < count) {
                const bool next_forward = pace_at(&fit, 0.5 * (breaks[to] + breaks[to + 1]), 1.0) > 0.0;
                const Jet next = jet_at(&fit, breaks[to + 1], breaks[to]);
                const double more = fabs(point_turn(last.tangent, next.tangent));
                if (next_forward != forward || turn + more > 90.0)
                    break;
                turn += more;
                last = next;
                to++;
            }
            if (forward) {
                const bool pulled = pending && !add_link(&fit, reached, jet_parallel(&fit, &first));
                const int fitted = out->count;
                fit_part(&fit, &first, &last, 0);
                if (pulled)
                    segment_pull_first(&out->items[fitted], reached);
                pending = false;
                reached = jet_parallel(&fit, &last);
            } else {
                // A link over more than 90 degrees could leave the disc that proves it harmless: end it here.
                if (pending) {
                    const Point here = jet_parallel(&fit, &first);
                    if (add_link(&fit, reached, here))
                        reached = here;
                }
                pending = true;
            }
            from = to;
        }
    }
    const Point end = point_add(s->p3, point_scale(point_left(segment_direction(s, 1.0)), left));
    if (pending && !add_link(&fit, reached, end)) {
        if (out->count > begun)
            segment_pull_last(&out->items[out->count - 1], end);
        else
            ARRAY_ADD(out, segment_line(reached, end));
    }
}
