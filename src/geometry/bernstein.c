// A polynomial in Bernstein form lies between its least and greatest coefficient, and has at most as many
// zeros in 0..1 as its coefficients change sign (Descartes' rule in Bernstein form; see R. T. Farouki, "The
// Bernstein polynomial basis: a centennial retrospective", Computer Aided Geometric Design 29, 2012). So the
// interval is halved until a piece has no change of sign and is dropped, or has exactly one and is closed in
// on. Pieces that stay within `zero` are taken as they are, and so are pieces too short to halve; the stack
// and the count of pieces bound the work for any input.
#include "geometry/bernstein.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>

#define PIECES_MAX 400
#define DEPTH_MAX 48

typedef struct Piece {
    double c[BERNSTEIN_DEGREE_MAX + 1];
    double from, to;
    int depth;
} Piece;

double bernstein_value(const double *c, int degree, double t) {
    double b[BERNSTEIN_DEGREE_MAX + 1];
    for (int i = 0; i <= degree; i++)
        b[i] = c[i];
    for (int level = degree; level > 0; level--) {
        for (int i = 0; i < level; i++)
            b[i] += (b[i + 1] - b[i]) * t;
    }
    return b[0];
}

static void piece_halve(const Piece *whole, int degree, Piece *left, Piece *right) {
    double b[BERNSTEIN_DEGREE_MAX + 1];
    for (int i = 0; i <= degree; i++)
        b[i] = whole->c[i];
    for (int level = degree; level >= 0; level--) {
        left->c[degree - level] = b[0];
        right->c[level] = b[level];
        for (int i = 0; i < level; i++)
            b[i] = (b[i] + b[i + 1]) / 2;
    }
    left->from = whole->from;
    right->to = whole->to;
    left->to = right->from = (whole->from + whole->to) / 2;
    left->depth = right->depth = whole->depth + 1;
}

// One change of sign and ends of opposite sign: regula falsi with the Illinois rule (the end that stays is
// halved), which keeps the bracket and converges faster than linearly.
static double close_in(const double *c, int degree) {
    double a = 0, b = 1, fa = c[0], fb = c[degree];
    int kept = 0;
    for (int i = 0; i < 100 && b - a > 1e-15; i++) {
        double t = (a * fb - b * fa) / (fb - fa);
        if (!(t > a && t < b) || i % 10 == 9)
            t = (a + b) / 2;
        const double ft = bernstein_value(c, degree, t);
        if (ft == 0)
            return t;
        if ((ft > 0) == (fb > 0)) {
            b = t, fb = ft;
            fa = kept == -1 ? fa / 2 : fa;
            kept = -1;
        } else {
            a = t, fa = ft;
            fb = kept == 1 ? fb / 2 : fb;
            kept = 1;
        }
    }
    return (a + b) / 2;
}

static int zeros_add(double t, double *out, int count) {
    if (count == BERNSTEIN_ZEROS_MAX || (count > 0 && t - out[count - 1] <= 1e-12))
        return count;
    out[count] = t;
    return count + 1;
}

int bernstein_zeros(const double *c, int degree, double zero, double *out) {
    assert(degree >= 1 && degree <= BERNSTEIN_DEGREE_MAX && zero >= 0);
    Piece stack[DEPTH_MAX + 2];
    int top = 0, count = 0;
    stack[0] = (Piece){.to = 1};
    for (int i = 0; i <= degree; i++) {
        if (!isfinite(c[i]))
            return 0;
        stack[0].c[i] = c[i];
    }
    for (int pieces = 0; top >= 0 && pieces < PIECES_MAX; pieces++) {
        const Piece piece = stack[top--];
        double largest = 0, last_sign = 0;
        int changes = 0;
        for (int i = 0; i <= degree; i++) {
            const double sign = piece.c[i] > zero ? 1 : piece.c[i] < -zero ? -1 : 0;
            changes += sign * last_sign < 0;
            last_sign = sign ? sign : last_sign;
            largest = fmax(largest, fabs(piece.c[i]));
        }
        if (largest <= zero || piece.depth == DEPTH_MAX) {
            count = zeros_add((piece.from + piece.to) / 2, out, count);
            continue;
        }
        const bool zero_first = fabs(piece.c[0]) <= zero, zero_last = fabs(piece.c[degree]) <= zero;
        if (changes == 0) {
            if (zero_first)
                count = zeros_add(piece.from, out, count);
            if (zero_last)
                count = zeros_add(piece.to, out, count);
            continue;
        }
        if (changes == 1 && !zero_first && !zero_last) {
            const double t = close_in(piece.c, degree);
            count = zeros_add(piece.from + (piece.to - piece.from) * t, out, count);
            continue;
        }
        Piece left, right;
        piece_halve(&piece, degree, &left, &right);
        stack[++top] = right;
        stack[++top] = left;
    }
    return count;
}
