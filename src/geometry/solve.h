// Finding the number that makes a measure right.
#ifndef REBATO_GEOMETRY_SOLVE_H
#define REBATO_GEOMETRY_SOLVE_H

#include "geometry/error.h"

typedef struct Bracket {
    double from, to;       // the numbers tried
    double at_from, at_to; // what they gave, less the wanted value
} Bracket;

// Gives f(x) - wanted for a number x; returns false to give up (the caller keeps the reason).
typedef int (*SolveFunction)(void *context, double x, double *out);

// Brent's method (R. P. Brent, Algorithms for Minimization without Derivatives, 1973) for f(x) = 0 in [from,
// to], until |f| <= tolerance. *ends (may be NULL) tells what both ends gave, once f answered there.
// GEOM_NOT_BRACKETED when both give the same sign, GEOM_NO_CONVERGENCE when f gave up, gave no finite number,
// jumped over the wanted value, or 200 tries were not enough; GEOM_NOT_FINITE.
GeomError solve_between(SolveFunction f, void *context, double from, double to, double tolerance, double *out,
                        Bracket *ends);

#endif
