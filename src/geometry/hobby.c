// Each piece k runs from knot k to knot k+1 along the chord delta_k. At knot k the curve leaves at the angle
// theta_k to delta_k and arrives at the angle phi_k to delta_(k-1), both counter-clockwise off the chord as
// seen from outside, so that theta_k + phi_k + psi_k = 0, psi_k being the turn of the chords there. The
// angles are chosen so that a simple stand-in for the curvature is the same before and after each knot; with
// the tensions a_k (leaving) and b_k (arriving) and d_k the length of delta_k that is, in the letters of
// Hobby 1986 and of "METAFONT: The Program" (1986), part 19,
//
//   A_k theta_(k-1) + (B_k + C_k) theta_k + D_k theta_(k+1) = -B_k psi_k - D_k psi_(k+1)
//   A_k = b_k^2 / (a_(k-1) d_(k-1))               B_k = b_k^2 (3 - 1/a_(k-1)) / d_(k-1)
//   C_k = a_k^2 (3 - 1/b_(k+1)) / d_k             D_k = a_k^2 / (b_(k+1) d_k)
//
// A knot with a direction cuts the chain into runs that are solved one by one. An open end without one has
// curl 1: its stand-in curvature equals that at the neighbouring knot. Every system is tridiagonal, or cyclic
// tridiagonal.
#include "geometry/hobby.h"

#include <assert.h>

#include "base/memory.h"

#define TENSION_LEAST 0.75
#define CURL_RATIO_MOST 4
#define VELOCITY_MOST 4

typedef struct Node {
    Knot knot;
    Point delta;       // to the next knot
    double d, psi;     // its length; the turn of the chords, radians
    double theta, phi; // radians
    double u, v, w;    // elimination: theta_k = v - u theta_(k+1) + w theta_0
} Node;

// The equation of an inner knot, with what is known of the one before already put in.
static void eliminate(Node *k, const Node *before, const Node *after) {
    const double a_before = before->knot.tension_out, b = k->knot.tension_in;
    const double a = k->knot.tension_out, b_after = after->knot.tension_in;
    const double A = b * b / (a_before * before->d), B = b * b * (3 - 1 / a_before) / before->d;
    const double C = a * a * (3 - 1 / b_after) / k->d, D = a * a / (b_after * k->d);
    const double R = -B * k->psi - D * after->psi;
    const double own = B + C - A * before->u;
    k->u = D / own;
    k->v = (R - A * before->v) / own;
    k->w = -A * before->w / own;
}

// The ratio D/C of the end equation C theta_0 + D theta_1 = -D psi_1 for curl 1, held to 4 as MetaPost does.
// near is the tension on the end's side of the piece, far the one on the other side.
static double curl_ratio(double near, double far) {
    const double C = near * near * (3 - 1 / far) + far * far / near;
    const double D = near * near / far + far * far * (3 - 1 / near);
    return fmin(D / C, CURL_RATIO_MOST);
}

// nodes[0] to nodes[last]: both ends have a direction or are open ends, the knots between have none.
static void solve_run(Node *nodes, int last) {
    Node *first = &nodes[0], *end = &nodes[last];
    const double psi_kept = end->psi; // belongs to the joint with the next run
    end->psi = 0;
    if (first->knot.has_leave) {
        first->u = 0;
        first->v = RADIANS(point_turn(first->delta, point_heading(first->knot.leave)));
    } else {
        first->u = curl_ratio(first->knot.tension_out, nodes[1].knot.tension_in);
        first->v = -first->u * nodes[1].psi;
    }
    first->w = 0;
    for (int i = 1; i < last; i++)
        eliminate(&nodes[i], &nodes[i - 1], &nodes[i + 1]);

    const Node *before = &nodes[last - 1];
    if (end->knot.has_arrive) {
        end->phi = RADIANS(point_turn(point_heading(end->knot.arrive), before->delta));
    } else {
        // phi = ratio theta_before with theta_before = v + u phi (theta_last being -phi)
        const double ratio = curl_ratio(end->knot.tension_in, before->knot.tension_out);
        end->phi = ratio * before->v / (1 - ratio * before->u);
    }
    double theta_next = -end->phi;
    for (int i = last - 1; i >= 0; i--) {
        nodes[i].theta = nodes[i].v - nodes[i].u * theta_next;
        if (i > 0)
            nodes[i].phi = -nodes[i].psi - nodes[i].theta;
        theta_next = nodes[i].theta;
    }
    end->psi = psi_kept;
}

// A closed chain without directions: nodes[count] is nodes[0] again.
static void solve_cycle(Node *nodes, int count) {
    nodes[0].u = nodes[0].v = 0;
    nodes[0].w = 1;
    for (int i = 1; i <= count; i++)
        eliminate(&nodes[i], &nodes[i - 1], i < count ? &nodes[i + 1] : &nodes[1]);
    // Backwards theta_k = p + q theta_0, from theta_count = theta_0.
    double p = 0, q = 1;
    for (int i = count - 1; i >= 1; i--) {
        p = nodes[i].v - nodes[i].u * p;
        q = nodes[i].w - nodes[i].u * q;
    }
    const Node *end = &nodes[count];
    double theta = (end->v - end->u * p) / (1 - end->w + end->u * q);
    const double theta_0 = theta;
    for (int i = count; i >= 0; i--) {
        if (i < count)
            theta = i == 0 ? theta_0 : nodes[i].v - nodes[i].u * theta + nodes[i].w * theta_0;
        nodes[i].theta = theta;
        nodes[i].phi = -nodes[i].psi - theta;
    }
}

// Hobby's handle length over the chord, for tension 1.
static double velocity(double theta, double phi) {
    const double st = sin(theta), ct = cos(theta), sf = sin(phi), cf = cos(phi);
    const double over = 2 + sqrt(2) * (st - sf / 16) * (sf - st / 16) * (ct - cf);
    return over / (3 * (1 + (sqrt(5) - 1) / 2 * ct + (3 - sqrt(5)) / 2 * cf));
}

static Point turned(Point v, double radians) {
    const double c = cos(radians), s = sin(radians);
    return point(v.x * c - v.y * s, v.x * s + v.y * c);
}

static Segment piece(const Node *from, const Node *to) {
    const double out = fmin(velocity(from->theta, to->phi) / from->knot.tension_out, VELOCITY_MOST);
    const double in = fmin(velocity(to->phi, from->theta) / to->knot.tension_in, VELOCITY_MOST);
    const Point p1 = point_add(from->knot.at, point_scale(turned(from->delta, from->theta), out));
    const Point p2 = point_sub(to->knot.at, point_scale(turned(from->delta, -to->phi), in));
    return segment_cubic(from->knot.at, p1, p2, to->knot.at);
}

static Knot knot_completed(Knot knot) {
    if (knot.has_leave != knot.has_arrive) {
        if (knot.has_leave)
            knot.arrive = knot.leave;
        else
            knot.leave = knot.arrive;
        knot.has_leave = knot.has_arrive = true;
    }
    knot.tension_out = knot.tension_out == 0 ? 1 : fmax(knot.tension_out, TENSION_LEAST);
    knot.tension_in = knot.tension_in == 0 ? 1 : fmax(knot.tension_in, TENSION_LEAST);
    return knot;
}

static GeomError knots_check(const Knot *knots, int count, bool closed) {
    if (count > PATH_SEGMENTS_MAX)
        return GEOM_TOO_MANY;
    if (count < 2)
        return GEOM_NO_DIRECTION;
    for (int i = 0; i < count; i++) {
        const Knot *k = &knots[i];
        if (!point_finite(k->at) || (k->has_leave && !isfinite(k->leave)) ||
            (k->has_arrive && !isfinite(k->arrive)) || !isfinite(k->tension_out) || !isfinite(k->tension_in))
            return GEOM_NOT_FINITE;
        if (i > 0 && point_same(knots[i - 1].at, k->at))
            return GEOM_NO_DIRECTION;
    }
    return closed && point_same(knots[count - 1].at, knots[0].at) ? GEOM_NO_DIRECTION : GEOM_OK;
}

// The nodes in order, begun at the first knot with a direction when closed, the first one again at the end.
static Node *nodes_new(const Knot *knots, int count, bool closed, int *shift) {
    *shift = 0;
    while (closed && *shift < count - 1 && !knots[*shift].has_leave && !knots[*shift].has_arrive)
        ++*shift;
    const int last = closed ? count : count - 1;
    Node *nodes = mem_new(sizeof *nodes * ((size_t)last + 1));
    for (int i = 0; i <= last; i++)
        nodes[i].knot = knot_completed(knots[(i + *shift) % count]);
    for (int i = 0; i < last; i++) {
        nodes[i].delta = point_sub(nodes[i + 1].knot.at, nodes[i].knot.at);
        nodes[i].d = point_size(nodes[i].delta);
        nodes[i].psi = i > 0 ? RADIANS(point_turn(nodes[i - 1].delta, nodes[i].delta)) : 0;
    }
    if (closed) {
        nodes[0].psi = RADIANS(point_turn(nodes[last - 1].delta, nodes[0].delta));
        nodes[last].psi = nodes[0].psi;
        nodes[last].delta = nodes[0].delta;
        nodes[last].d = nodes[0].d;
    }
    return nodes;
}

GeomError path_through(const Knot *knots, int count, bool closed, Path *out) {
    const GeomError error = knots_check(knots, count, closed);
    if (error)
        return error;
    int shift;
    Node *nodes = nodes_new(knots, count, closed, &shift);
    const int pieces = closed ? count : count - 1;
    Segment *segments = mem_new(sizeof *segments * (size_t)pieces);
    if (closed && !nodes[0].knot.has_leave) {
        solve_cycle(nodes, count);
        for (int i = 0; i < pieces; i++)
            segments[i] = piece(&nodes[i], &nodes[i + 1]);
    } else {
        for (int from = 0; from < pieces;) {
            int to = from + 1;
            while (to < pieces && !nodes[to].knot.has_leave)
                to++;
            // Two free ends: both curls say the same, and the curve is the straight line.
            const bool straight = to == from + 1 && !nodes[from].knot.has_leave && !nodes[to].knot.has_arrive;
            if (!straight)
                solve_run(nodes + from, to - from);
            for (int i = from; i < to; i++)
                segments[i] = straight ? segment_line(nodes[i].knot.at, nodes[i + 1].knot.at)
                                       : piece(&nodes[i], &nodes[i + 1]);
            from = to;
        }
    }
    bool finite = true; // handles may reach past the limit
    for (int i = 0; i < pieces; i++)
        finite = finite && segment_finite(&segments[i]);
    if (finite)
        path_clear(out);
    for (int i = 0; finite && i < pieces; i++)
        path_add(out, segments[(i + pieces - shift) % pieces]);
    mem_free(segments);
    mem_free(nodes);
    return finite ? GEOM_OK : GEOM_NOT_FINITE;
}

GeomError path_box_curve(Point a, double leave, Point b, double arrive, double k, Path *out) {
    if (!point_finite(a) || !point_finite(b) || !isfinite(leave) || !isfinite(arrive) || !isfinite(k))
        return GEOM_NOT_FINITE;
    if (point_same(a, b) || k < 0)
        return GEOM_NO_DIRECTION;
    const Point from = point_heading(leave), to = point_heading(arrive), span = point_sub(b, a);
    const Point p1 = point_add(a, point_scale(from, k * fabs(point_dot(span, from))));
    const Point p2 = point_sub(b, point_scale(to, k * fabs(point_cross(span, from))));
    if (!point_finite(p1) || !point_finite(p2))
        return GEOM_NOT_FINITE;
    path_clear(out);
    path_add(out, segment_cubic(a, p1, p2, b));
    return GEOM_OK;
}
