#include "near.h"

Test(point, a_unit_vector_has_size_one_and_nothing_stays_nothing) {
    NEAR(point_size(point_unit(point(3, -4))), 1, 1e-15);
    NEAR_POINT(point_unit(point(0, 0)), 0, 0, 0);
    NEAR_POINT(point_unit(point(NAN, 1)), 0, 0, 0);
    NEAR_POINT(point_unit(point(INFINITY, 1)), 0, 0, 0);
}

Test(point, headings_are_exact_on_the_axes) {
    const Point want[4] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
    for (int quarter = -9; quarter <= 9; quarter++) {
        const Point h = point_heading(90.0 * quarter), w = want[((quarter % 4) + 4) % 4];
        cr_assert(h.x == w.x && h.y == w.y, "%d quarters", quarter);
    }
    NEAR_POINT(point_heading(60), 0.5, sqrt(3) / 2, 1e-15);
    NEAR_POINT(point_polar(point(1, 2), 30, 10), 1 + 5 * sqrt(3), 7, 1e-12);
}

Test(point, angles_have_one_name_each) {
    NEAR(point_angle(point(0, 1)), 90, 1e-13);
    NEAR(point_angle(point(-1, 0)), 180, 0);
    NEAR(point_angle(point(-1, -0.0)), 180, 0);
    NEAR(point_angle(point(0, 0)), 0, 0);
    NEAR(point_turn(point(1, 0), point(0, -1)), -90, 1e-13);
    NEAR(point_turn(point(1, 1), point(-1, -1)), 180, 1e-13);
    NEAR(point_turn(point(0, 0), point(1, 0)), 0, 0);
}

Test(point, lines_meet_where_they_should) {
    Point p;
    cr_assert_eq(point_meet_lines(point(0, 0), point(1, 1), point(10, 0), point(9, 1), &p), GEOM_OK);
    NEAR_POINT(p, 5, 5, 1e-12);
}

Test(point, lines_that_cannot_meet_say_why_and_leave_the_answer_alone) {
    Point p = {7, 8};
    const Point o = {0, 0}, x = {10, 0};
    cr_assert_eq(point_meet_lines(o, x, point(0, 1), point(5, 1), &p), GEOM_PARALLEL);
    cr_assert_eq(point_meet_lines(o, x, point(0, 1), point(10, 1 + 5e-6), &p), GEOM_PARALLEL);
    cr_assert_eq(point_meet_lines(o, point(0.0005, 0), o, x, &p), GEOM_NO_DIRECTION);
    cr_assert_eq(point_meet_lines(o, x, point(3, 3), point(3, 3), &p), GEOM_NO_DIRECTION);
    cr_assert_eq(point_meet_lines(o, x, point(NAN, 3), point(3, 3), &p), GEOM_NOT_FINITE);
    // they meet 200 m away
    cr_assert_eq(point_meet_lines(o, x, point(0, 2), point(10, 1.9999), &p), GEOM_NOT_FINITE);
    NEAR_POINT(p, 7, 8, 0);
}

Test(point, a_foot_is_square_to_its_line) {
    Point p = {7, 8};
    cr_assert_eq(point_foot_on_line(point(3, 9), point(0, 0), point(1, 1), &p), GEOM_OK);
    NEAR_POINT(p, 6, 6, 1e-12);
    cr_assert_eq(point_foot_on_line(point(3, 9), point(1, 1), point(1, 1), &p), GEOM_NO_DIRECTION);
    cr_assert_eq(point_foot_on_line(point(3, INFINITY), point(0, 0), point(1, 1), &p), GEOM_NOT_FINITE);
    NEAR_POINT(p, 6, 6, 1e-12);
}

Test(point, coordinates_past_the_limit_are_not_finite) {
    cr_assert(point_finite(point(COORDINATE_LIMIT_MM, -COORDINATE_LIMIT_MM)));
    cr_assert_not(point_finite(point(COORDINATE_LIMIT_MM * 1.000001, 0)));
    cr_assert_not(point_finite(point(0, NAN)));
    cr_assert_not(point_finite(point(-INFINITY, 0)));
}
