// The zeros of a polynomial written in Bernstein form, as curves give them: sum of c[i] C(n,i) (1-t)^(n-i)
// t^i.
#ifndef REBATO_GEOMETRY_BERNSTEIN_H
#define REBATO_GEOMETRY_BERNSTEIN_H

#define BERNSTEIN_DEGREE_MAX 5
#define BERNSTEIN_ZEROS_MAX 16

double bernstein_value(const double *c, int degree, double t);

// Every t in 0..1 where the polynomial is zero, rising; gives how many, at most BERNSTEIN_ZEROS_MAX. Values
// of at most `zero` in size count as zero: where the polynomial stays that small for a stretch, some places
// of the stretch are given. A double zero that rounding lifts off the axis by more than `zero` is not found.
int bernstein_zeros(const double *c, int degree, double zero, double *out);

#endif
