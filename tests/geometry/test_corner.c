#include "near.h"

#include "geometry/corner.h"

static double length_first(const Path *path) {
    return segment_length(&path->items[0]);
}

// Every joint of the rounded path is smooth.
static void check_smooth(const Path *path, double within) {
    for (int i = 1; i < path->count; i++)
        NEAR(point_turn(segment_direction(&path->items[i - 1], 1), segment_direction(&path->items[i], 0)), 0,
             within);
}

// Plane geometry: the corner of turn d loses 2 r tan(d/2) and gains r d.
Test(corner, between_lines_the_length_is_that_of_plane_geometry) {
    Path path = {0}, out = {0};
    for (double turn = -150; turn <= 150; turn += 23) {
        path_line(point(-300, 10), point(0, 10), &path);
        path_add_line(&path, point_polar(point(0, 10), turn, 280));
        cr_assert_eq(path_round_corner(&path, 300, 20, &out, NULL), GEOM_OK);
        const double d = RADIANS(fabs(turn));
        NEAR(path_length(&out), 580 - 2 * 20 * tan(d / 2) + 20 * d, 1e-5);
        check_smooth(&out, 1e-5);
        NEAR(path_turning(&out), turn, 1e-6);
        NEAR(fabs(segment_curvature(&out.items[1], 0.5)), 1.0 / 20, 1e-5);
        NEAR_POINT(path_first(&out), -300, 10, 0);
    }
    path_finish(&path);
    path_finish(&out);
}

Test(corner, a_radius_too_large_for_lines_says_which_fits) {
    Path path = {0}, out = {0};
    double fits = -1;
    path_line(point(0, 0), point(100, 0), &path);
    path_add_line(&path, point(100, 30));
    cr_assert_eq(path_round_corner(&path, 100, 31, &out, &fits), GEOM_TOO_TIGHT);
    NEAR(fits, 30, 1e-9); // at a right angle the arc takes its radius of both sides
    cr_assert_eq(out.count, 0);
    cr_assert_eq(path_round_corner(&path, 100, fits, &out, NULL), GEOM_OK);
    NEAR_POINT(path_last(&out), 100, 30, 1e-9);
    NEAR(path_length(&out), 70 + 15 * PI, 1e-5);
    path_finish(&path);
    path_finish(&out);
}

// The arc between a line and a circle of radius R outside: its centre is R + r from the circle's.
Test(corner, between_a_line_and_a_circle_the_centre_is_where_plane_geometry_puts_it) {
    Path path = {0}, out = {0};
    const double R = 100, r = 15;
    // along y = 0 up to the circle round (100, 100 sin 60) at its left, then up that circle
    const Point centre = {100, R * sin(RADIANS(60))};
    const double corner_x = centre.x - R * cos(RADIANS(60));
    Path arc = {0};
    path_line(point(-200, 0), point(corner_x, 0), &path);
    path_arc(centre, R, 240, -60, &arc); // clockwise: the body of the arc is to the right of the way
    path_add_path(&path, &arc);
    cr_assert_eq(path_round_corner(&path, 200 + corner_x, r, &out, NULL), GEOM_OK);
    check_smooth(&out, 1e-4);
    // centre (x, r) with (centre.x - x)^2 + (centre.y - r)^2 = (R + r)^2
    const double x = centre.x - sqrt((R + r) * (R + r) - (centre.y - r) * (centre.y - r));
    NEAR_POINT(out.items[0].p3, x, 0, 1e-4);
    const Point touch = point_add(centre, point_scale(point_unit(point_sub(point(x, r), centre)), R));
    NEAR(path_distance(&out, touch), 0, 1e-4);
    bool met = false;
    for (int i = 1; i < out.count; i++)
        met = met || point_distance(out.items[i].p0, touch) < 1e-4;
    cr_assert(met, "the arc does not end at (%g, %g)", touch.x, touch.y);
    path_finish(&arc);
    path_finish(&path);
    path_finish(&out);
}

Test(corner, between_curves_the_arc_is_tangent_to_both) {
    Path path = {0}, out = {0};
    uint64_t seed = 61;
    int fitted = 0;
    for (int i = 0; i < 100; i++) {
        path_clear(&path);
        const Point p = {0, 0}, q = {100, 0};
        path_add(&path, segment_cubic(p, point(30, random_from(&seed, -25, 25)),
                                      point(70, random_from(&seed, -25, 25)), q));
        const Point r = point_polar(q, random_from(&seed, 40, 140), 90);
        const Point third = point_mix(q, r, 0.3), two = point_mix(q, r, 0.7);
        path_add(&path, segment_cubic(q, point_add(third, random_point(&seed, 8)),
                                      point_add(two, random_point(&seed, 8)), r));
        double fits = -1;
        const GeomError error = path_round_corner(&path, length_first(&path), 12, &out, &fits);
        if (error == GEOM_OK) {
            fitted++;
            check_smooth(&out, 1e-3);
            NEAR(path_turning(&out), path_turning(&path), 1e-3);
            NEAR_POINT(path_last(&out), r.x, r.y, 1e-9);
            continue;
        }
        cr_assert_eq(error, GEOM_TOO_TIGHT);
        cr_assert(fits >= 0 && fits < 12);
        if (fits > 0.01)
            cr_assert_eq(path_round_corner(&path, length_first(&path), fits, &out, NULL), GEOM_OK);
    }
    cr_assert_gt(fitted, 80);
    path_finish(&path);
    path_finish(&out);
}

Test(corner, a_closed_outline_can_be_rounded_where_it_closes) {
    const Point square[5] = {{0, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 0}};
    Path path = {0}, out = {0}, next = {0};
    path_polyline(square, 5, &path);
    cr_assert_eq(path_round_corner(&path, 0, 10, &out, NULL), GEOM_OK);
    cr_assert(path_is_closed(&out));
    NEAR_POINT(path_first(&out), 10, 0, 1e-9);
    NEAR(path_area(&out), 10000 - (100 - 25 * PI), 1e-4);
    cr_assert_eq(path_round_corner(&path, 400, 10, &next, NULL), GEOM_OK);
    NEAR(path_area(&next), path_area(&out), 1e-9);
    for (int i = 0; i < 3; i++) { // the other three
        const double at = i == 0 ? 90 : i == 1 ? 170 + 5 * PI : 250 + 10 * PI;
        cr_assert_eq(path_round_corner(&out, at, 10, &next, NULL), GEOM_OK);
        path_copy(&next, &out);
    }
    NEAR(path_area(&out), 10000 - 4 * (100 - 25 * PI), 1e-4);
    NEAR(path_length(&out), 320 + 20 * PI, 1e-4);
    path_finish(&path);
    path_finish(&out);
    path_finish(&next);
}

Test(corner, what_is_no_corner_is_left_or_refused) {
    Path path = {0}, out = {0};
    double fits = -1;
    path_line(point(0, 0), point(100, 0), &path);
    path_add_line(&path, point(200, 0));
    cr_assert_eq(path_round_corner(&path, 100, 5, &out, NULL), GEOM_OK); // smooth already
    NEAR(path_length(&out), 200, 1e-12);
    cr_assert_eq(path_round_corner(&path, 50, 5, &out, NULL), GEOM_NOT_ON_PATH);
    cr_assert_eq(path_round_corner(&path, 0, 5, &out, NULL), GEOM_NOT_ON_PATH);
    cr_assert_eq(path_round_corner(&path, 300, 5, &out, NULL), GEOM_BEYOND_END);
    cr_assert_eq(path_round_corner(&path, 100, 0, &out, NULL), GEOM_NO_DIRECTION);
    cr_assert_eq(path_round_corner(&path, 100, NAN, &out, NULL), GEOM_NOT_FINITE);
    path_line(point(0, 0), point(100, 0), &path);
    path_add_line(&path, point(0, 0)); // turns right back
    cr_assert_eq(path_round_corner(&path, 100, 5, &out, &fits), GEOM_TOO_TIGHT);
    NEAR(fits, 0, 1e-6);
    path_finish(&path);
    path_finish(&out);
}
