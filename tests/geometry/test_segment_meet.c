#include "near.h"

#include "geometry/segment_meet.h"

static int crossings_of_chords(const Segment *a, const Segment *b) {
    enum { N = 400 };
    Point p[N + 1], q[N + 1];
    for (int i = 0; i <= N; i++) {
        p[i] = segment_point(a, (double)i / N);
        q[i] = segment_point(b, (double)i / N);
    }
    int count = 0;
    for (int i = 0; i < N; i++) {
        for (int j = 0; j < N; j++) {
            const Point u = point_sub(p[i + 1], p[i]), v = point_sub(q[j + 1], q[j]);
            const bool parted_by_a = (point_cross(u, point_sub(q[j], p[i])) > 0) !=
                                     (point_cross(u, point_sub(q[j + 1], p[i])) > 0);
            const bool parted_by_b = (point_cross(v, point_sub(p[i], q[j])) > 0) !=
                                     (point_cross(v, point_sub(p[i + 1], q[j])) > 0);
            count += parted_by_a && parted_by_b;
        }
    }
    return count;
}

Test(segment_meet, as_many_crossings_as_fine_chords_have) {
    uint64_t seed = 31;
    int total = 0;
    for (int i = 0; i < 150; i++) {
        Segment a = random_cubic(&seed, 100), b = random_cubic(&seed, 100);
        if (i % 3 == 0)
            b = segment_line(b.p0, b.p3);
        if (i % 6 == 0)
            a = segment_line(a.p0, a.p3);
        SegmentMeets meets;
        segment_meets(&a, &b, &meets);
        cr_assert_eq(meets.count, crossings_of_chords(&a, &b), "case %d", i);
        total += meets.count;
    }
    cr_assert_gt(total, 60);
}

Test(segment_meet, crossings_lie_on_both_to_a_millionth_of_a_micrometre) {
    uint64_t seed = 32;
    for (int i = 0; i < 3000; i++) {
        const Segment a = random_cubic(&seed, 200), b = random_cubic(&seed, 200);
        SegmentMeets meets;
        segment_meets(&a, &b, &meets);
        for (int j = 0; j < meets.count; j++) {
            const SegmentMeet *m = &meets.items[j];
            const double gap = point_distance(segment_point(&a, m->t), segment_point(&b, m->u));
            NEAR(gap, m->gap, 1e-12);
            cr_assert(j == 0 || m->t >= meets.items[j - 1].t);
            // only an end or a touch may be further off than a polished crossing
            const bool end = m->t == 0 || m->t == 1 || m->u == 0 || m->u == 1;
            const double sine = point_cross(segment_direction(&a, m->t), segment_direction(&b, m->u));
            cr_assert(gap <= MEET_MM || end || fabs(sine) < 0.02, "case %d: gap %.3g, sine %.3g", i, gap,
                      sine);
        }
    }
}

// Two cubics meet in nine points at most (Bezout); these are x = T(y) and y = T(x) with T the Chebyshev
// polynomial of degree 3, which meet in all nine: x = cos(k pi / 4) for k = 0..4 and x = cos(k pi / 5) for k
// = 1..4.
Test(segment_meet, nine_crossings_of_two_cubics_are_all_found) {
    // T(s) = 4 s^3 - 3 s for s in -1..1 has the Bernstein coefficients -1, 5, -5, 1
    const Segment a = segment_cubic(point(-1, -1), point(-1.0 / 3, 5), point(1.0 / 3, -5), point(1, 1));
    const Segment b = segment_cubic(point(-1, -1), point(5, -1.0 / 3), point(-5, 1.0 / 3), point(1, 1));
    const Affine larger = affine_scale(100);
    const Segment a100 = segment_transform(&a, larger), b100 = segment_transform(&b, larger);
    SegmentMeets meets;
    segment_meets(&a100, &b100, &meets);
    cr_assert_eq(meets.count, 9);
    const double want[9] = {-1, cos(4 * PI / 5), cos(3 * PI / 4), cos(3 * PI / 5),
                            0,  cos(2 * PI / 5), cos(PI / 4),     cos(PI / 5),
                            1};
    for (int i = 0; i < 9; i++)
        NEAR(segment_point(&a100, meets.items[i].t).x, 100 * want[i], 1e-7);
}

Test(segment_meet, parts_of_one_curve_overlap_between_two_ends) {
    uint64_t seed = 33;
    for (int i = 0; i < 100; i++) {
        const Segment whole =
            segment_cubic(point(0, 0), random_point(&seed, 60), point(100, 40), point(120, -30));
        const double from = random_from(&seed, 0.1, 0.4), to = random_from(&seed, 0.6, 0.9);
        const Segment left = segment_between(&whole, 0, to), right = segment_between(&whole, 1, from);
        SegmentMeets meets;
        segment_meets(&left, &right, &meets);
        cr_assert(meets.overlap, "case %d", i);
        NEAR(meets.from.t, from / to, 1e-4);
        NEAR(meets.to.t, 1, 1e-4);
    }
}

Test(segment_meet, parallel_lines_meet_only_when_one) {
    const Segment a = segment_line(point(0, 0), point(100, 0)),
                  b = segment_line(point(30, 0.01), point(150, 0.01));
    const Segment c = segment_line(point(150, 0), point(30, 0)),
                  d = segment_line(point(100, 0), point(130, 0));
    SegmentMeets meets;
    segment_meets(&a, &b, &meets);
    cr_assert_eq(meets.count, 0);
    segment_meets(&a, &c, &meets);
    cr_assert(meets.overlap);
    cr_assert_eq(meets.count, 2);
    NEAR(meets.from.t, 0.3, 1e-12);
    NEAR(meets.to.t, 1, 1e-12);
    segment_meets(&a, &d, &meets);
    cr_assert_not(meets.overlap);
    cr_assert_eq(meets.count, 1);
}

Test(segment_meet, a_point_lies_on_a_segment_or_not) {
    const Segment a = segment_line(point(0, 0), point(100, 0)),
                  dot = segment_line(point(40, 0), point(40, 0));
    const Segment off = segment_line(point(40, 1), point(40, 1));
    SegmentMeets meets;
    segment_meets(&a, &dot, &meets);
    cr_assert_eq(meets.count, 1);
    NEAR(meets.items[0].t, 0.4, 1e-12);
    segment_meets(&dot, &a, &meets);
    cr_assert_eq(meets.count, 1);
    segment_meets(&off, &a, &meets);
    cr_assert_eq(meets.count, 0);
}

Test(segment_meet, what_is_not_finite_meets_nothing) {
    const Segment a = segment_line(point(0, 0), point(100, 0));
    const Segment odd = segment_cubic(point(0, 0), point(NAN, 5), point(8, 9), point(100, 0));
    SegmentMeets meets;
    segment_meets(&a, &odd, &meets);
    cr_assert_eq(meets.count, 0);
    segment_meets(&odd, &a, &meets);
    cr_assert_eq(meets.count, 0);
}

// The loop of (t^2 - 1, t^3 - t), a folium, crosses itself at the origin for t = -1 and 1.
Test(segment_meet, a_loop_crosses_itself_where_algebra_says) {
    // for t in -2..2: t^2 - 1 has the coefficients 3, -7/3, -7/3, 3 and t^3 - t has -6, 26/3, -26/3, 6
    const Segment loop =
        segment_cubic(point(3, -6), point(-7.0 / 3, 26.0 / 3), point(-7.0 / 3, -26.0 / 3), point(3, 6));
    double t, u;
    NEAR_POINT(segment_point(&loop, 0.75), 0, 0, 1e-14); // t = 1
    cr_assert(segment_self_meet(&loop, &t, &u));
    NEAR(t, 0.25, 1e-12);
    NEAR(u, 0.75, 1e-12);
    const Segment half = segment_between(&loop, 0, 0.7), line = segment_line(point(0, 0), point(1, 1));
    cr_assert_not(segment_self_meet(&half, &t, &u));
    cr_assert_not(segment_self_meet(&line, &t, &u));
}
