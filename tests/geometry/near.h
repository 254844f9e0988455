// What the tests of geometry share: comparing with a tolerance, and numbers that look random but repeat.
#ifndef REBATO_TESTS_GEOMETRY_NEAR_H
#define REBATO_TESTS_GEOMETRY_NEAR_H

#include <criterion/criterion.h>

#include <math.h>
#include <stdint.h>

#include "geometry/path.h"

#define NEAR(got, want, tolerance)                                                                       \
    do {                                                                                                 \
        const double got_ = (got), want_ = (want);                                                       \
        cr_assert(fabs(got_ - want_) <= (tolerance), "%s is %.12g, not %.12g (off by %.3g)", #got, got_, \
                  want_, got_ - want_);                                                                  \
    } while (0)

#define NEAR_POINT(got, want_x, want_y, tolerance)                                                          \
    do {                                                                                                    \
        const Point got_p = (got), want_p = {(want_x), (want_y)};                                           \
        cr_assert(point_distance(got_p, want_p) <= (tolerance), "%s is (%.12g, %.12g), not (%.12g, %.12g)", \
                  #got, got_p.x, got_p.y, want_p.x, want_p.y);                                              \
    } while (0)

// The minimal standard generator of S. K. Park and K. W. Miller, Communications of the ACM 31, 1988.
static inline double random_from(uint64_t *state, double from, double to) {
    *state = *state * 48271 % 2147483647;
    return from + (to - from) * ((double)*state / 2147483647);
}

static inline Point random_point(uint64_t *state, double size) {
    const double x = random_from(state, -size, size);
    return point(x, random_from(state, -size, size));
}

static inline Segment random_cubic(uint64_t *state, double size) {
    Point p[4];
    for (int i = 0; i < 4; i++)
        p[i] = random_point(state, size);
    return segment_cubic(p[0], p[1], p[2], p[3]);
}

#endif
