#include "geometry/solve.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#define TRIES_MAX 200

static bool value_of(SolveFunction f, void *context, double x, double *out) {
    double value;
    if (!f(context, x, &value) || !isfinite(value))
        return false;
    *out = value;
    return true;
}

// Brent's zero finder in his own letters: b is the best number so far, a the one before, c the other end of
// the bracket, and f(b) and f(c) differ in sign. The step is by inverse quadratic interpolation, or by the
// secant, or half the bracket when those do not shrink fast enough.
GeomError solve_between(SolveFunction f, void *context, double from, double to, double tolerance, double *out,
                        Bracket *ends) {
    assert(tolerance >= 0);
    if (!isfinite(from) || !isfinite(to))
        return GEOM_NOT_FINITE;
    double a = from, b = to, fa, fb;
    if (!value_of(f, context, a, &fa) || !value_of(f, context, b, &fb))
        return GEOM_NO_CONVERGENCE;
    if (ends)
        *ends = (Bracket){.from = from, .to = to, .at_from = fa, .at_to = fb};
    if (fabs(fa) <= tolerance || fabs(fb) <= tolerance) {
        *out = fabs(fa) <= fabs(fb) ? a : b;
        return GEOM_OK;
    }
    if ((fa > 0) == (fb > 0))
        return GEOM_NOT_BRACKETED;

    double c = a, fc = fa, d = b - a, e = d;
    for (int tries = 2; tries < TRIES_MAX; tries++) {
        if ((fb > 0) == (fc > 0)) {
            c = a, fc = fa;
            d = e = b - a;
        }
        if (fabs(fc) < fabs(fb)) {
            a = b, fa = fb;
            b = c, fb = fc;
            c = a, fc = fa;
        }
        if (fabs(fb) <= tolerance) {
            *out = b;
            return GEOM_OK;
        }
        const double least = 2 * DBL_EPSILON * fabs(b) + DBL_MIN, half = (c - b) / 2;
        if (fabs(half) <= least) // f jumps over the wanted value
            return GEOM_NO_CONVERGENCE;
        if (fabs(e) >= least && fabs(fa) > fabs(fb)) {
            double p, q;
            const double s = fb / fa;
            if (a == c) {
                p = 2 * half * s;
                q = 1 - s;
            } else {
                const double r = fb / fc, g = fa / fc;
                p = s * (2 * half * g * (g - r) - (b - a) * (r - 1));
                q = (g - 1) * (r - 1) * (s - 1);
            }
            if (p > 0)
                q = -q;
            p = fabs(p);
            const bool take = 2 * p < fmin(3 * half * q - fabs(least * q), fabs(e * q));
            e = take ? d : half;
            d = take ? p / q : half;
        } else {
            d = e = half;
        }
        a = b, fa = fb;
        b += fabs(d) > least ? d : copysign(least, half);
        if (!value_of(f, context, b, &fb))
            return GEOM_NO_CONVERGENCE;
    }
    return GEOM_NO_CONVERGENCE;
}
