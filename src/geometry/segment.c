#include "geometry/segment.h"

#include <stddef.h>

#include "geometry/bernstein.h"

// As fmin and fmax where the first is a number: what is none is passed over. They are asked very often.
static double lesser(double own, double other) {
    return other < own ? other : own;
}

static double larger(double own, double other) {
    return other > own ? other : own;
}

Segment segment_line(Point from, Point to) {
    return (Segment){.kind = SEGMENT_LINE,
                     .p0 = from,
                     .p1 = point_mix(from, to, 1.0 / 3),
                     .p2 = point_mix(from, to, 2.0 / 3),
                     .p3 = to};
}

Segment segment_cubic(Point p0, Point p1, Point p2, Point p3) {
    return (Segment){.kind = SEGMENT_CUBIC, .p0 = p0, .p1 = p1, .p2 = p2, .p3 = p3};
}

// p(t) = (1-t)^3 p0 + 3 (1-t)^2 t p1 + 3 (1-t) t^2 p2 + t^3 p3; the ends come out exactly.
Point segment_point(const Segment *s, double t) {
    if (t == 1)
        return s->p3;
    if (s->kind == SEGMENT_LINE)
        return point_mix(s->p0, s->p3, t);
    const double u = 1 - t;
    const double b0 = u * u * u, b1 = 3 * u * u * t, b2 = 3 * u * t * t, b3 = t * t * t;
    return point(b0 * s->p0.x + b1 * s->p1.x + b2 * s->p2.x + b3 * s->p3.x,
                 b0 * s->p0.y + b1 * s->p1.y + b2 * s->p2.y + b3 * s->p3.y);
}

Point segment_derivative(const Segment *s, double t) {
    if (s->kind == SEGMENT_LINE)
        return point_sub(s->p3, s->p0);
    const double u = 1 - t;
    const double b0 = 3 * u * u, b1 = 6 * u * t, b2 = 3 * t * t;
    return point(b0 * (s->p1.x - s->p0.x) + b1 * (s->p2.x - s->p1.x) + b2 * (s->p3.x - s->p2.x),
                 b0 * (s->p1.y - s->p0.y) + b1 * (s->p2.y - s->p1.y) + b2 * (s->p3.y - s->p2.y));
}

Point segment_second(const Segment *s, double t) {
    if (s->kind == SEGMENT_LINE)
        return point(0, 0);
    const Point a = point(s->p0.x - 2 * s->p1.x + s->p2.x, s->p0.y - 2 * s->p1.y + s->p2.y);
    const Point b = point(s->p1.x - 2 * s->p2.x + s->p3.x, s->p1.y - 2 * s->p2.y + s->p3.y);
    return point_scale(point_mix(a, b, t), 6);
}

// Where p' vanishes the next term of Taylor's series decides: p(t+h) - p(t) = p' h + p'' h^2/2 + p''' h^3/6.
// Looking back from the last point h is negative, so there p'' counts the other way round.
Point segment_direction(const Segment *s, double t) {
    const Point first = segment_derivative(s, t);
    if (s->kind == SEGMENT_LINE || point_size(first) > 3 * HANDLE_ZERO_MM)
        return point_unit(first);
    const bool at_last = t > 0.5 && point_distance(segment_point(s, t), s->p3) <= HANDLE_ZERO_MM;
    const Point second = segment_second(s, t);
    if (point_size(second) > 6 * HANDLE_ZERO_MM)
        return point_unit(at_last ? point_scale(second, -1) : second);
    return point_unit(point_sub(s->p3, s->p0)); // p''' is 6 (p3 - p0) when both handles are zero
}

double segment_curvature(const Segment *s, double t) {
    const Point first = segment_derivative(s, t);
    const double speed = point_size(first);
    if (speed <= 3 * HANDLE_ZERO_MM)
        return 0;
    return point_cross(first, segment_second(s, t)) / (speed * speed * speed);
}

// Gauss-Legendre nodes and weights for 16 points on -1..1, the positive half (M. Abramowitz and I. A. Stegun,
// Handbook of Mathematical Functions, 1964, table 25.4).
static const double NODES[8] = {0.0950125098376374402, 0.2816035507792589132, 0.4580167776572273863,
                                0.6178762444026437484, 0.7554044083550030339, 0.8656312023878317439,
                                0.9445750230732325761, 0.9894009349916499326};
static const double WEIGHTS[8] = {0.1894506104550684963, 0.1826034150449235889, 0.1691565193950025382,
                                  0.1495959888165767321, 0.1246289712555338720, 0.0951585116824927848,
                                  0.0622535239386478929, 0.0271524594117540949};

// The speed |p'(t)| as the coefficients of p' in powers of t.
typedef struct Speed {
    Point a, b, c; // p' = a + b t + c t^2
} Speed;

static Speed speed_of(const Segment *s) {
    const Point d0 = point_sub(s->p1, s->p0), d1 = point_sub(s->p2, s->p1), d2 = point_sub(s->p3, s->p2);
    return (Speed){.a = point_scale(d0, 3),
                   .b = point_scale(point_sub(d1, d0), 6),
                   .c = point_scale(point_add(point_sub(d0, point_scale(d1, 2)), d2), 3)};
}

static inline double speed_at(const Speed *v, double t) {
    const double x = v->a.x + (v->b.x + v->c.x * t) * t, y = v->a.y + (v->b.y + v->c.y * t) * t;
    return sqrt(x * x + y * y);
}

typedef struct Estimate {
    double length;
    bool rough; // the speed changes so much that a cusp may be near
} Estimate;

static Estimate length_once(const Speed *v, double from, double to) {
    const double middle = (from + to) / 2, half = (to - from) / 2;
    double sum = 0, slowest = INFINITY, fastest = 0;
    for (int i = 0; i < 8; i++) {
        const double before = speed_at(v, middle - half * NODES[i]);
        const double after = speed_at(v, middle + half * NODES[i]);
        sum += WEIGHTS[i] * (before + after);
        slowest = before < slowest ? before : slowest;
        slowest = after < slowest ? after : slowest;
        fastest = before > fastest ? before : fastest;
        fastest = after > fastest ? after : fastest;
    }
    return (Estimate){.length = sum * half, .rough = slowest < fastest / 8};
}

// Halves until the two halves agree with the whole; where a cusp may be near they could agree by chance, so
// there they have to twice running. The halves are far better than the difference tells, so the sum is good
// to `error` also after many halvings. The depth only runs out at a cusp, where the length left over is
// nothing.
static double length_adaptive(const Speed *v, double from, double to, Estimate whole, double error, int depth,
                              bool agreed_before) {
    const double middle = (from + to) / 2;
    const Estimate left = length_once(v, from, middle), right = length_once(v, middle, to);
    const double sum = left.length + right.length;
    const bool agreed = !(fabs(sum - whole.length) > error);
    if (depth == 0 || (agreed && (agreed_before || !(whole.rough || left.rough || right.rough))))
        return sum;
    return length_adaptive(v, from, middle, left, error, depth - 1, agreed) +
           length_adaptive(v, middle, to, right, error, depth - 1, agreed);
}

// Per piece: a twentieth leaves room for the few pieces beside a cusp, whose halves are no better than the
// whole.
static double length_error(const Segment *s) {
    return LENGTH_RELATIVE / 20 *
           (point_distance(s->p0, s->p1) + point_distance(s->p1, s->p2) + point_distance(s->p2, s->p3));
}

static double length_between(const Speed *v, double from, double to, double error) {
    return length_adaptive(v, from, to, length_once(v, from, to), error, 24, false);
}

double segment_length(const Segment *s) {
    return segment_length_to(s, 1);
}

double segment_length_to(const Segment *s, double t) {
    if (s->kind == SEGMENT_LINE)
        return point_distance(s->p0, s->p3) * t;
    const Speed v = speed_of(s);
    return length_between(&v, 0, t, length_error(s));
}

// Newton's method on length(t) = distance, whose derivative is the speed; where a step leaves the bracket it
// is halved instead.
double segment_at_length(const Segment *s, double distance) {
    const double length = segment_length(s);
    if (!(distance > 0) || !(length > 0))
        return 0;
    if (distance >= length)
        return 1;
    double t = distance / length;
    if (s->kind == SEGMENT_LINE)
        return t;

    const Speed v = speed_of(s);
    const double error = length_error(s);
    double low = 0, high = 1, done = length_between(&v, 0, t, error);
    for (int i = 0; i < 60; i++) {
        const double off = done - distance;
        if (fabs(off) <= error || high - low <= 1e-15)
            break;
        if (off > 0)
            high = t;
        else
            low = t;
        double next = t - off / speed_at(&v, t);
        if (!(next > low && next < high))
            next = (low + high) / 2;
        done += next > t ? length_between(&v, t, next, error) : -length_between(&v, next, t, error);
        t = next;
    }
    return t;
}

void segment_split(const Segment *s, double t, Segment *left, Segment *right) {
    const Segment whole = *s; // left or right may be s
    if (whole.kind == SEGMENT_LINE) {
        const Point middle = segment_point(&whole, t);
        if (left)
            *left = segment_line(whole.p0, middle);
        if (right)
            *right = segment_line(middle, whole.p3);
        return;
    }
    // de Casteljau's construction
    const Point a = point_mix(whole.p0, whole.p1, t), b = point_mix(whole.p1, whole.p2, t);
    const Point c = point_mix(whole.p2, whole.p3, t);
    const Point d = point_mix(a, b, t), e = point_mix(b, c, t);
    const Point middle = segment_point(&whole, t);
    if (left)
        *left = segment_cubic(whole.p0, a, d, middle);
    if (right)
        *right = segment_cubic(middle, e, c, whole.p3);
}

Segment segment_between(const Segment *s, double t0, double t1) {
    if (t0 > t1) {
        const Segment turned = segment_between(s, t1, t0);
        return segment_reverse(&turned);
    }
    Segment piece = *s;
    if (t1 < 1)
        segment_split(&piece, t1, &piece, NULL);
    if (t0 > 0)
        segment_split(&piece, t1 > 0 ? t0 / t1 : 0, NULL, &piece);
    piece.p0 = segment_point(s, t0); // the same bits whichever piece is cut
    return piece;
}

Segment segment_reverse(const Segment *s) {
    return (Segment){.kind = s->kind, .p0 = s->p3, .p1 = s->p2, .p2 = s->p1, .p3 = s->p0};
}

Segment segment_transform(const Segment *s, Affine m) {
    if (s->kind == SEGMENT_LINE)
        return segment_line(affine_point(m, s->p0), affine_point(m, s->p3));
    return segment_cubic(affine_point(m, s->p0), affine_point(m, s->p1), affine_point(m, s->p2),
                         affine_point(m, s->p3));
}

// The perpendicular passes through p where f(t) = (p(t) - p) . p'(t) = 0. With the control points a_i = p_i -
// p and b_j = 3 (p_(j+1) - p_j) that is a polynomial of degree 5 with the Bernstein coefficients c_k = sum
// over i + j = k of C(3,i) C(2,j) / C(5,k) a_i . b_j.
static int stationary(const Segment *s, Point p, double *out) {
    static const double C3[4] = {1, 3, 3, 1}, C2[3] = {1, 2, 1}, C5[6] = {1, 5, 10, 10, 5, 1};
    const Point a[4] = {point_sub(s->p0, p), point_sub(s->p1, p), point_sub(s->p2, p), point_sub(s->p3, p)};
    const Point b[3] = {point_sub(s->p1, s->p0), point_sub(s->p2, s->p1), point_sub(s->p3, s->p2)};
    double c[6] = {0}, size = 0;
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 3; j++) {
            c[i + j] += C3[i] * C2[j] / C5[i + j] * 3 * point_dot(a[i], b[j]);
            size = fmax(size, fabs(a[i].x) + fabs(a[i].y));
            size = fmax(size, fabs(b[j].x) + fabs(b[j].y));
        }
    }
    return bernstein_zeros(c, 5, 1e-15 * size * size, out);
}

static double line_foot(const Segment *s, Point p) {
    const Point along = point_sub(s->p3, s->p0);
    return point_dot(point_sub(p, s->p0), along) / point_dot(along, along);
}

double segment_nearest(const Segment *s, Point p) {
    if (s->kind == SEGMENT_LINE) {
        const double t = line_foot(s, p);
        return t > 0 ? fmin(t, 1) : 0; // 0 for a point too
    }
    double candidates[BERNSTEIN_ZEROS_MAX + 1];
    int count = stationary(s, p, candidates);
    candidates[count++] = 1;
    double best = 0, least = point_distance(s->p0, p);
    for (int i = 0; i < count; i++) {
        const double distance = point_distance(segment_point(s, candidates[i]), p);
        if (distance < least) {
            least = distance;
            best = candidates[i];
        }
    }
    return best;
}

// How far p lies ahead of the end of s at t, measured along the tangent there.
static bool square_at_end(const Segment *s, double t, Point p) {
    const Point off = point_sub(p, segment_point(s, t));
    return fabs(point_dot(off, segment_direction(s, t))) <= POINT_SAME_MM;
}

int segment_feet(const Segment *s, Point p, double *out) {
    if (segment_is_point(s))
        return 0;
    int count = 0;
    if (square_at_end(s, 0, p))
        out[count++] = 0;
    if (s->kind == SEGMENT_LINE) {
        const double t = line_foot(s, p);
        if (t > 0 && t < 1)
            out[count++] = t;
    } else {
        count += stationary(s, p, out + count);
    }
    if (square_at_end(s, 1, p))
        out[count++] = 1;
    return count;
}

// p' = 0 along one axis: a quadratic with the Bernstein coefficients d0, d1, d2, written a t^2 + 2 b t + d0
// with a = d0 - 2 d1 + d2 and b = d1 - d0. The root with the larger sum is taken first, so that nothing
// cancels.
static Box box_add_extremes(Box box, const Segment *s, double d0, double d1, double d2) {
    const double a = d0 - 2 * d1 + d2, b = d1 - d0, inside = b * b - a * d0;
    if (!(inside >= 0))
        return box;
    const double q = -(b + copysign(sqrt(inside), b));
    const double roots[2] = {q / a, d0 / q};
    for (int i = 0; i < 2; i++) {
        if (roots[i] > 0 && roots[i] < 1)
            box = box_add(box, segment_point(s, roots[i]));
    }
    return box;
}

Box segment_box(const Segment *s) {
    Box box = box_add(box_add(box_empty(), s->p0), s->p3);
    if (s->kind == SEGMENT_LINE)
        return box;
    const Point d0 = point_sub(s->p1, s->p0), d1 = point_sub(s->p2, s->p1), d2 = point_sub(s->p3, s->p2);
    box = box_add_extremes(box, s, d0.x, d1.x, d2.x);
    return box_add_extremes(box, s, d0.y, d1.y, d2.y);
}

Box segment_hull_box(const Segment *s) {
    return box_add(box_add(box_add(box_add(box_empty(), s->p0), s->p1), s->p2), s->p3);
}

// Integrating (x y' - y x') / 2 with Bernstein polynomials leaves the cross products of the control points
// with the weights 6, 3, 1, 3, 3, 6 over 20 (for a line with its handles at the thirds this is p0 x p3 / 2).
double segment_area(const Segment *s) {
    if (s->kind == SEGMENT_LINE)
        return point_cross(s->p0, s->p3) / 2;
    return (6 * point_cross(s->p0, s->p1) + 3 * point_cross(s->p0, s->p2) + point_cross(s->p0, s->p3) +
            3 * point_cross(s->p1, s->p2) + 3 * point_cross(s->p1, s->p3) + 6 * point_cross(s->p2, s->p3)) /
           20;
}

bool segment_finite(const Segment *s) {
    return point_finite(s->p0) && point_finite(s->p1) && point_finite(s->p2) && point_finite(s->p3);
}

bool segment_is_point(const Segment *s) {
    return point_same(s->p0, s->p3) && point_same(s->p0, s->p1) && point_same(s->p0, s->p2);
}

Box box_empty(void) {
    return (Box){.least = {INFINITY, INFINITY}, .most = {-INFINITY, -INFINITY}};
}

Box box_join(Box a, Box b) {
    return (Box){.least = {lesser(a.least.x, b.least.x), lesser(a.least.y, b.least.y)},
                 .most = {larger(a.most.x, b.most.x), larger(a.most.y, b.most.y)}};
}

Box box_add(Box a, Point p) {
    return (Box){.least = {lesser(a.least.x, p.x), lesser(a.least.y, p.y)},
                 .most = {larger(a.most.x, p.x), larger(a.most.y, p.y)}};
}

bool box_is_empty(Box a) {
    return a.least.x > a.most.x;
}

bool box_touch(Box a, Box b, double margin) {
    return a.least.x - margin <= b.most.x && b.least.x - margin <= a.most.x &&
           a.least.y - margin <= b.most.y && b.least.y - margin <= a.most.y;
}

double box_distance(Box a, Point p) {
    const double dx = fmax(fmax(a.least.x - p.x, p.x - a.most.x), 0);
    const double dy = fmax(fmax(a.least.y - p.y, p.y - a.most.y), 0);
    return hypot(dx, dy);
}
