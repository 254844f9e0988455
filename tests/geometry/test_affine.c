#include "near.h"

Test(affine, moves_swings_and_scales_do_what_they_say) {
    NEAR_POINT(affine_point(affine_identity(), point(3, 4)), 3, 4, 0);
    NEAR_POINT(affine_point(affine_move(point(1, -2)), point(3, 4)), 4, 2, 0);
    NEAR_POINT(affine_point(affine_scale(2.5), point(2, -4)), 5, -10, 0);
    NEAR_POINT(affine_point(affine_swing(point(10, 0), 90), point(13, 0)), 10, 3, 0);
    NEAR_POINT(affine_point(affine_swing(point(1, 1), 30), point(3, 1)), 1 + sqrt(3), 2, 1e-14);
}

Test(affine, then_does_the_first_one_first) {
    const Affine m = affine_then(affine_move(point(10, 0)), affine_swing(point(0, 0), 90));
    NEAR_POINT(affine_point(m, point(1, 0)), 0, 11, 0);
}

Test(affine, a_mirror_keeps_its_line_and_undoes_itself) {
    Affine m;
    cr_assert_eq(affine_mirror(point(1, 2), point(4, 6), &m), GEOM_OK);
    cr_assert(affine_turns_over(m));
    NEAR_POINT(affine_point(m, point(7, 10)), 7, 10, 1e-12);
    NEAR_POINT(affine_point(m, affine_point(m, point(-3, 5))), -3, 5, 1e-12);
    cr_assert_not(affine_turns_over(affine_swing(point(3, 4), 200)));
    cr_assert_eq(affine_mirror(point(1, 2), point(1, 2), &m), GEOM_NO_DIRECTION);
    cr_assert_eq(affine_mirror(point(1, NAN), point(1, 2), &m), GEOM_NOT_FINITE);
}

Test(affine, laying_puts_the_two_bodies_on_opposite_sides) {
    Affine m;
    // both sheets have their line along x and their body below it
    cr_assert_eq(affine_lay(point(0, 0), point(1, 0), point(100, 50), point(101, 50), 0, &m), GEOM_OK);
    cr_assert(affine_turns_over(m));
    NEAR_POINT(affine_point(m, point(0, 0)), 100, 50, 0);
    NEAR_POINT(affine_point(m, point(20, -7)), 120, 57, 1e-12);
}

Test(affine, a_positive_swing_opens_a_gap_and_a_negative_one_overlaps) {
    Affine m;
    affine_lay(point(0, 0), point(1, 0), point(0, 0), point(1, 0), 10, &m);
    cr_assert_gt(affine_point(m, point(20, 0)).y, 0); // away from the first body below
    affine_lay(point(0, 0), point(1, 0), point(0, 0), point(1, 0), -10, &m);
    cr_assert_lt(affine_point(m, point(20, 0)).y, 0); // over it
}

Test(affine, laying_needs_two_lines) {
    Affine m;
    cr_assert_eq(affine_lay(point(0, 0), point(0, 0), point(1, 1), point(2, 2), 0, &m), GEOM_NO_DIRECTION);
    cr_assert_eq(affine_lay(point(0, 0), point(1, 0), point(1, 1), point(1, 1), 0, &m), GEOM_NO_DIRECTION);
    cr_assert_eq(affine_lay(point(0, 0), point(1, 0), point(1, 1), point(2, 1), NAN, &m), GEOM_NOT_FINITE);
}

// The block of bust 88 cm: the back laid to the front along the shoulder, the tips overlapped by ov; the
// angle is 2 asin(ov / (2 shoulder)), whose chord at the tip is ov. Where the nape comes to lie follows from
// plane geometry, re-computed by hand in the frame whose second axis runs down. In cm.
Test(affine, the_nape_of_a_joined_block_lies_where_plane_geometry_puts_it) {
    const Point front_neck = {6.70, 0}, back_neck = {7.20, 0}, nape = {0, -1.50};
    const Point front_along = point_polar(front_neck, -15.86, 12.25);
    const Point back_along = point_polar(back_neck, -22.17, 12.25);
    const double want[3][3] = {{0, 1.95, -5.62}, {2.5, 3.19, -6.46}, {5, 4.59, -7.05}};
    for (int i = 0; i < 3; i++) {
        const double overlap = DEGREES(2 * asin(want[i][0] / (2 * 12.25)));
        Affine m;
        cr_assert_eq(affine_lay(back_neck, back_along, front_neck, front_along, -overlap, &m), GEOM_OK);
        const Point laid = affine_point(m, nape);
        NEAR(laid.x, want[i][1], 0.03);
        NEAR(-laid.y, want[i][2], 0.03);
        NEAR(point_distance(affine_point(m, back_along), front_along), want[i][0], 1e-9);
    }
}
