#include "near.h"

// Chord sums at n and 2n, the error of order 1/n^2 taken out (L. F. Richardson, 1911).
static double length_by_chords(const Segment *s, double t0, double t1) {
    double sums[2] = {0, 0};
    for (int level = 0; level < 2; level++) {
        const int n = 20000 << level;
        Point before = segment_point(s, t0);
        for (int i = 1; i <= n; i++) {
            const Point p = segment_point(s, t0 + (t1 - t0) * i / n);
            sums[level] += point_distance(before, p);
            before = p;
        }
    }
    return (4 * sums[1] - sums[0]) / 3;
}

// The parabola y = x^2 / 100 for x in 0..100, raised from a quadratic.
static Segment parabola(void) {
    return segment_cubic(point(0, 0), point(100.0 / 3, 0), point(200.0 / 3, 100.0 / 3), point(100, 100));
}

// (t^2, t^3) for t in -1..1: the semicubical parabola, with its cusp in the middle.
static Segment cusp(void) {
    return segment_cubic(point(1, -1), point(-1.0 / 3, 1), point(-1.0 / 3, -1), point(1, 1));
}

Test(segment, a_line_measures_as_a_line) {
    const Segment s = segment_line(point(1, 2), point(4, 6));
    NEAR(segment_length(&s), 5, 0);
    NEAR(segment_length_to(&s, 0.25), 1.25, 0);
    NEAR(segment_at_length(&s, 2), 0.4, 1e-15);
    NEAR_POINT(segment_point(&s, 1), 4, 6, 0);
    NEAR_POINT(segment_derivative(&s, 0.3), 3, 4, 0);
    NEAR_POINT(segment_second(&s, 0.3), 0, 0, 0);
    NEAR_POINT(segment_direction(&s, 0.3), 0.6, 0.8, 1e-15);
    NEAR(segment_curvature(&s, 0.3), 0, 0);
    NEAR(segment_area(&s), (1 * 6 - 2 * 4) / 2.0, 1e-15);
}

// Closed form: for y = x^2 the arc from 0 to 1 is sqrt(5)/2 + asinh(2)/4 (any calculus handbook).
Test(segment, the_length_of_a_parabola_is_that_of_the_closed_form) {
    const Segment s = parabola();
    NEAR(segment_length(&s), 100 * (sqrt(5) / 2 + asinh(2) / 4), 1e-10);
    NEAR(segment_curvature(&s, 0), 0.02, 1e-15); // y'' = 2/100
    NEAR(segment_curvature(&s, 1), 0.02 / pow(5, 1.5), 1e-15);
}

// Closed form: each branch is (13 sqrt(13) - 8) / 27 (W. Neile, 1657).
Test(segment, the_length_through_a_cusp_is_that_of_the_closed_form) {
    const Segment s = cusp();
    NEAR(segment_length(&s), 2 * (13 * sqrt(13) - 8) / 27, 1e-8);
    NEAR_POINT(segment_direction(&s, 0.5), 1, 0, 1e-9); // the direction it leaves in
    NEAR(segment_curvature(&s, 0.5), 0, 0);
}

Test(segment, lengths_agree_with_fine_chords) {
    uint64_t seed = 11;
    for (int i = 0; i < 60; i++) {
        const Segment s = random_cubic(&seed, 200);
        const double want = length_by_chords(&s, 0, 1), t = random_from(&seed, 0.05, 0.95);
        NEAR(segment_length(&s), want, 1e-8 * want);
        NEAR(segment_length_to(&s, t), length_by_chords(&s, 0, t), 1e-8 * want);
    }
}

Test(segment, the_place_at_a_length_has_that_length_before_it) {
    uint64_t seed = 12;
    for (int i = 0; i < 3000; i++) {
        const Segment s = random_cubic(&seed, i % 3 ? 200 : 0.5);
        const double length = segment_length(&s), want = random_from(&seed, 0, length);
        NEAR(segment_length_to(&s, segment_at_length(&s, want)), want, 1e-9 * length);
    }
    const Segment s = cusp();
    const double length = segment_length(&s);
    for (int i = 0; i <= 100; i++)
        NEAR(segment_length_to(&s, segment_at_length(&s, length * i / 100)), length * i / 100, 1e-8);
    NEAR(segment_at_length(&s, -3), 0, 0);
    NEAR(segment_at_length(&s, 1000), 1, 0);
}

Test(segment, derivatives_agree_with_differences) {
    uint64_t seed = 13;
    for (int i = 0; i < 200; i++) {
        const Segment s = random_cubic(&seed, 100);
        const double t = random_from(&seed, 0.01, 0.99), h = 1e-5;
        const Point back = segment_point(&s, t - h), here = segment_point(&s, t),
                    on = segment_point(&s, t + h);
        const Point d = segment_derivative(&s, t), dd = segment_second(&s, t);
        NEAR_POINT(d, (on.x - back.x) / (2 * h), (on.y - back.y) / (2 * h), 1e-5);
        NEAR_POINT(dd, (on.x - 2 * here.x + back.x) / (h * h), (on.y - 2 * here.y + back.y) / (h * h), 0.05);
    }
}

Test(segment, a_handle_of_nothing_still_has_a_direction) {
    const Point a = {0, 0}, b = {30, 40}, c = {100, 0};
    const Segment first = segment_cubic(a, a, b, c), last = segment_cubic(a, b, c, c);
    NEAR_POINT(segment_direction(&first, 0), 0.6, 0.8, 1e-12);
    NEAR(point_turn(segment_direction(&last, 1), point_sub(c, b)), 0, 1e-9);
    const Segment both = segment_cubic(a, a, c, c);
    NEAR_POINT(segment_direction(&both, 0), 1, 0, 1e-12);
    NEAR_POINT(segment_direction(&both, 1), 1, 0, 1e-12);
    NEAR(segment_length(&both), 100, 1e-7);
    const Segment dot = segment_cubic(b, b, b, b);
    NEAR_POINT(segment_direction(&dot, 0.5), 0, 0, 0);
    NEAR(segment_length(&dot), 0, 0);
    NEAR(segment_at_length(&dot, 1), 0, 0);
    cr_assert(segment_is_point(&dot));
    cr_assert_not(segment_is_point(&both));
}

Test(segment, splitting_keeps_the_curve_and_sums_the_lengths) {
    uint64_t seed = 14;
    for (int i = 0; i < 500; i++) {
        const Segment s = random_cubic(&seed, 300);
        const double t = random_from(&seed, 0, 1);
        Segment left, right;
        segment_split(&s, t, &left, &right);
        const Point on_left = segment_point(&s, 0.3 * t), on_right = segment_point(&s, t + 0.3 * (1 - t));
        NEAR_POINT(segment_point(&left, 0.3), on_left.x, on_left.y, 1e-10);
        NEAR_POINT(segment_point(&right, 0.3), on_right.x, on_right.y, 1e-10);
        NEAR(segment_length(&left) + segment_length(&right), segment_length(&s), 1e-8 * segment_length(&s));
        cr_assert(left.p3.x == right.p0.x && left.p3.y == right.p0.y);
        NEAR(segment_area(&left) + segment_area(&right), segment_area(&s), 1e-8);
        const Segment middle = segment_between(&s, 0.8, 0.2); // turned round
        const Point from = segment_point(&s, 0.8), to = segment_point(&s, 0.2);
        NEAR_POINT(middle.p0, from.x, from.y, 1e-10);
        NEAR_POINT(middle.p3, to.x, to.y, 1e-10);
    }
}

Test(segment, turning_round_and_moving_keep_the_length) {
    uint64_t seed = 15;
    for (int i = 0; i < 200; i++) {
        const Segment s = random_cubic(&seed, 300), back = segment_reverse(&s);
        const Affine m = affine_then(affine_swing(random_point(&seed, 100), random_from(&seed, -180, 180)),
                                     affine_move(random_point(&seed, 500)));
        const Segment moved = segment_transform(&s, m);
        const double length = segment_length(&s);
        NEAR(segment_length(&back), length, 1e-9 * length);
        NEAR(segment_length(&moved), length, 1e-9 * length);
        NEAR(segment_area(&back), -segment_area(&s), 1e-8);
    }
}

Test(segment, no_place_is_nearer_than_the_nearest) {
    uint64_t seed = 16;
    for (int i = 0; i < 2000; i++) {
        const Segment s = random_cubic(&seed, 100);
        const Point p = random_point(&seed, 150);
        const double got = point_distance(segment_point(&s, segment_nearest(&s, p)), p);
        double least = INFINITY;
        for (int j = 0; j <= 500; j++)
            least = fmin(least, point_distance(segment_point(&s, j / 500.0), p));
        cr_assert_leq(got, least + 1e-9);
    }
    const Segment dot = segment_line(point(1, 1), point(1, 1));
    NEAR(segment_nearest(&dot, point(5, 5)), 0, 0);
}

Test(segment, the_perpendicular_at_every_foot_passes_through_the_point) {
    uint64_t seed = 17;
    int found = 0;
    for (int i = 0; i < 1000; i++) {
        const Segment s = random_cubic(&seed, 100);
        const Point p = random_point(&seed, 100);
        double feet[SEGMENT_FEET_MAX];
        const int count = segment_feet(&s, p, feet);
        found += count;
        for (int j = 0; j < count; j++)
            NEAR(point_dot(segment_direction(&s, feet[j]), point_sub(p, segment_point(&s, feet[j]))), 0,
                 0.001);
    }
    cr_assert_gt(found, 1000);
    const Segment dot = segment_line(point(1, 1), point(1, 1));
    double feet[SEGMENT_FEET_MAX];
    cr_assert_eq(segment_feet(&dot, point(5, 5), feet), 0);
}

Test(segment, the_box_is_tight) {
    uint64_t seed = 18;
    for (int i = 0; i < 300; i++) {
        const Segment s = random_cubic(&seed, 100);
        const Box box = segment_box(&s), hull = segment_hull_box(&s);
        Box points = box_empty();
        for (int j = 0; j <= 4000; j++)
            points = box_add(points, segment_point(&s, j / 4000.0));
        NEAR_POINT(points.least, box.least.x, box.least.y, 1e-3);
        NEAR_POINT(points.most, box.most.x, box.most.y, 1e-3);
        cr_assert(hull.least.x <= box.least.x && hull.most.y >= box.most.y);
    }
}

// The area under a parabola is a third of its box (Archimedes, Quadrature of the Parabola).
Test(segment, the_area_along_a_parabola_is_that_of_archimedes) {
    const Segment s = parabola();
    NEAR(segment_area(&s), 100 * 100 / 2.0 - 100 * 100 / 3.0, 1e-9); // the triangle less the part under it
}

Test(segment, what_is_not_finite_is_told_and_measures_end) {
    const Segment odd = segment_cubic(point(0, 0), point(NAN, 0), point(1, 1), point(2, 2));
    const Segment far = segment_line(point(0, 0), point(2 * COORDINATE_LIMIT_MM, 0));
    cr_assert_not(segment_finite(&odd));
    cr_assert_not(segment_finite(&far));
    cr_assert(isnan(segment_length(&odd)));
    segment_at_length(&odd, 1);
    segment_nearest(&odd, point(1, 1));
    segment_box(&odd);
}

Test(segment, boxes_touch_join_and_are_empty) {
    const Box e = box_empty();
    const Box a = box_add(box_add(e, point(0, 0)), point(2, 1)), b = box_add(e, point(3, 1));
    cr_assert(box_is_empty(e));
    cr_assert_not(box_is_empty(b));
    cr_assert_not(box_touch(a, b, 0.5));
    cr_assert(box_touch(a, b, 1));
    cr_assert_not(box_touch(a, e, 1000));
    NEAR(box_join(a, b).most.x, 3, 0);
    NEAR(box_distance(a, point(5, 5)), 5, 1e-15);
    NEAR(box_distance(a, point(1, 1)), 0, 0);
    cr_assert(isinf(box_distance(e, point(1, 1))));
}
