#include "near.h"

#include "base/memory.h"

static void square(double side, Path *out) {
    const Point p[5] = {{0, 0}, {side, 0}, {side, side}, {0, side}, {0, 0}};
    path_polyline(p, 5, out);
}

// A smooth closed outline through random handles; may cross itself.
static void wild_outline(uint64_t *seed, int count, Path *out) {
    path_clear(out);
    const Point first = random_point(seed, 200);
    for (int i = 0; i < count; i++) {
        Segment s = random_cubic(seed, 200);
        s.p0 = i == 0 ? first : path_last(out);
        s.p3 = i == count - 1 ? first : s.p3;
        path_add(out, s);
    }
}

Test(path_measure, the_length_of_a_quarter_circle_is_right) {
    Path arc = {0};
    path_arc(point(7, 8), 100, 20, 90, &arc);
    NEAR(path_length(&arc), 50 * PI, 50 * PI * 1e-7); // 2 pi r / 4
    path_finish(&arc);
}

Test(path_measure, an_empty_path_measures_nothing) {
    const Path path = {0};
    NEAR(path_length(&path), 0, 0);
    NEAR(path_area(&path), 0, 0);
    NEAR(path_turning(&path), 0, 0);
    cr_assert_eq(path_winding(&path, point(0, 0)), 0);
    cr_assert(box_is_empty(path_box(&path)));
    cr_assert_not(path_is_straight(&path));
    cr_assert_not(path_contains(&path, point(0, 0)));
}

Test(path_measure, places_are_found_from_both_ends) {
    Path path = {0};
    Point p = {0};
    square(100, &path);
    cr_assert_eq(path_at(&path, 130, &p), GEOM_OK);
    NEAR_POINT(p, 100, 30, 1e-12);
    cr_assert_eq(path_at(&path, -130, &p), GEOM_OK);
    NEAR_POINT(p, 30, 100, 1e-12);
    cr_assert_eq(path_at(&path, 400.0005, &p), GEOM_OK);
    NEAR_POINT(p, 0, 0, 0);
    cr_assert_eq(path_at(&path, -400.0005, &p), GEOM_OK);
    NEAR_POINT(p, 0, 0, 0);
    cr_assert_eq(path_at(&path, 400.01, &p), GEOM_BEYOND_END);
    cr_assert_eq(path_at(&path, -400.01, &p), GEOM_BEYOND_END);
    cr_assert_eq(path_at(&path, NAN, &p), GEOM_NOT_FINITE);
    path_finish(&path);
}

Test(path_measure, a_place_and_its_distance_agree) {
    uint64_t seed = 21;
    Path path = {0};
    for (int i = 0; i < 50; i++) {
        wild_outline(&seed, 5, &path);
        const double length = path_length(&path);
        for (int j = 0; j < 20; j++) {
            const double at = random_from(&seed, 0, length);
            PathSpot spot, other;
            cr_assert_eq(path_spot_at(&path, at, &spot), GEOM_OK);
            NEAR(path_spot_distance(&path, spot), at, 1e-8 * length);
            cr_assert_eq(path_spot_at(&path, at - length, &other), GEOM_OK);
            const Point p = path_spot_point(&path, spot);
            NEAR_POINT(path_spot_point(&path, other), p.x, p.y, 1e-5);
        }
    }
    path_finish(&path);
}

Test(path_measure, directions_at_the_ends_pass_over_points) {
    Path path = {0};
    path_line(point(0, 0), point(0, 0), &path);
    path_add_line(&path, point(0, 10));
    path_add_line(&path, point(10, 10));
    path_add_line(&path, point(10, 10));
    NEAR_POINT(path_direction(&path, PATH_FIRST), 0, 1, 0);
    NEAR_POINT(path_direction(&path, PATH_LAST), 1, 0, 0);
    NEAR_POINT(path_end(&path, PATH_LAST), 10, 10, 0);
    NEAR_POINT(path_spot_direction(&path, (PathSpot){1, 0.5}), 0, 1, 0);
    path_finish(&path);
}

Test(path_measure, the_nearest_place_and_the_way_to_it) {
    Path path = {0};
    square(100, &path);
    const PathSpot spot = path_nearest(&path, point(120, 40));
    cr_assert_eq(spot.index, 1);
    NEAR(spot.t, 0.4, 1e-12);
    NEAR(path_distance(&path, point(120, 40)), 20, 1e-12);
    NEAR(path_distance(&path, point(103, 104)), 5, 1e-12);
    double at = -1;
    cr_assert_eq(path_along(&path, point(100.008, 40), &at), GEOM_OK);
    NEAR(at, 140, 1e-9);
    cr_assert_eq(path_along(&path, point(100.02, 40), &at), GEOM_NOT_ON_PATH);
    cr_assert_eq(path_along(&path, point(NAN, 40), &at), GEOM_NOT_ON_PATH);
    NEAR(at, 140, 1e-9);
    path_finish(&path);
}

Test(path_measure, the_centre_of_a_circle_is_a_radius_from_every_place) {
    Path path = {0};
    path_arc(point(0, 0), 100, 0, 360, &path);
    NEAR(path_distance(&path, point(0, 0)), 100, 1e-5);
    Point foot;
    cr_assert_eq(path_foot(&path, point(0, 0), &foot), GEOM_OK);
    NEAR(point_size(foot), 100, 1e-5);
    cr_assert_eq(path_foot(&path, point(30, 40), &foot), GEOM_OK);
    NEAR_POINT(foot, 60, 80, 1e-4);
    path_finish(&path);
}

Test(path_measure, a_foot_is_square_and_may_not_be_there) {
    Path path = {0};
    Point foot = {-1, -1};
    path_line(point(0, 0), point(100, 0), &path);
    path_add_line(&path, point(100, 50));
    cr_assert_eq(path_foot(&path, point(40, 30), &foot), GEOM_OK);
    NEAR_POINT(foot, 40, 0, 1e-12);
    cr_assert_eq(path_foot(&path, point(40, 70), &foot), GEOM_OK); // not the nearest place, the nearest foot
    NEAR_POINT(foot, 40, 0, 1e-12);
    cr_assert_eq(path_foot(&path, point(120, -30), &foot), GEOM_NO_FOOT);
    cr_assert_eq(path_foot(&path, point(0, -30), &foot), GEOM_OK); // square at the very end
    NEAR_POINT(foot, 0, 0, 0);
    cr_assert_eq(path_foot(&path, point(100, 50), &foot), GEOM_OK); // on the path
    NEAR_POINT(foot, 100, 50, 0);
    path_finish(&path);
}

// Shoelace sums over fine chords, the error of order 1/n^2 taken out as in Richardson 1911.
Test(path_measure, areas_agree_with_the_shoelace_formula) {
    uint64_t seed = 22;
    Path path = {0};
    for (int i = 0; i < 30; i++) {
        wild_outline(&seed, 4, &path);
        double sums[2] = {0, 0};
        for (int level = 0; level < 2; level++) {
            Point before = path_first(&path);
            for (int j = 0; j < path.count; j++) {
                for (int k = 1; k <= 1000 << level; k++) {
                    const Point p = segment_point(&path.items[j], (double)k / (1000 << level));
                    sums[level] += point_cross(before, p) / 2;
                    before = p;
                }
            }
        }
        NEAR(path_area(&path), (4 * sums[1] - sums[0]) / 3, 1e-5);
    }
    path_finish(&path);
}

Test(path_measure, the_area_of_a_circle_also_far_from_the_origin) {
    Path path = {0};
    path_arc(point(90000, -90000), 50, 0, 360, &path);
    NEAR(path_area(&path), PI * 2500, PI * 2500 * 2e-7);
    path_arc(point(90000, -90000), 50, 0, -360, &path);
    NEAR(path_area(&path), -PI * 2500, PI * 2500 * 2e-7);
    path_arc(point(0, 0), 50, 0, 180, &path); // open: as if closed by its chord
    NEAR(path_area(&path), PI * 1250, PI * 1250 * 2e-7);
    path_finish(&path);
}

Test(path_measure, the_winding_agrees_with_the_angle_swept) {
    uint64_t seed = 23;
    Path path = {0};
    int inside = 0;
    for (int i = 0; i < 40; i++) {
        wild_outline(&seed, 4, &path);
        Point *points;
        int count;
        path_flatten(&path, 0.001, &points, &count);
        for (int j = 0; j < 25; j++) {
            const Point p = random_point(&seed, 150);
            double swept = 0;
            for (int k = 1; k < count; k++)
                swept += point_turn(point_sub(points[k - 1], p), point_sub(points[k], p));
            if (path_distance(&path, p) < 0.01)
                continue;
            cr_assert_eq(path_winding(&path, p), (int)lround(swept / 360), "case %d %d", i, j);
            inside += path_contains(&path, p);
        }
        mem_free(points);
    }
    cr_assert_gt(inside, 100);
    path_finish(&path);
}

Test(path_measure, a_point_level_with_corners_is_counted_once) {
    Path path = {0};
    const Point diamond[5] = {{0, -10}, {10, 0}, {0, 10}, {-10, 0}, {0, -10}};
    path_polyline(diamond, 5, &path);
    cr_assert_eq(path_winding(&path, point(0, 0)), 1);
    cr_assert_eq(path_winding(&path, point(-20, 0)), 0);
    cr_assert_eq(path_winding(&path, point(-5, 10)), 0);
    cr_assert_eq(path_winding(&path, point(-5, -10)), 0);
    square(100, &path);
    cr_assert_eq(path_winding(&path, point(-50, 100)), 0);
    cr_assert_eq(path_winding(&path, point(-50, 0)), 0);
    cr_assert(path_contains(&path, point(100, 50)));
    cr_assert(path_contains(&path, point(0, 0)));
    cr_assert_not(path_contains(&path, point(100.01, 50)));
    path_arc(point(0, 0), 10, 0, 360, &path); // the joints at 0 and 180 degrees lie on the ray
    cr_assert_eq(path_winding(&path, point(0, 0)), 1);
    cr_assert_eq(path_winding(&path, point(-11, 0)), 0);
    cr_assert_eq(path_winding(&path, point(-11, 10)), 0);
    path_finish(&path);
}

Test(path_measure, an_outline_turns_once_round_and_an_eight_not_at_all) {
    Path path = {0};
    square(10, &path);
    NEAR(path_turning(&path), 360, 1e-9);
    const Point eight[5] = {{0, 0}, {10, 10}, {10, 0}, {0, 10}, {0, 0}};
    path_polyline(eight, 5, &path);
    NEAR(path_turning(&path), 0, 1e-9);
    path_clear(&path);
    path_add(&path, segment_cubic(point(0, 0), point(100, 60), point(-20, 60), point(80, 0))); // a loop
    NEAR(path_turning(&path), 360 - 2 * DEGREES(atan2(60, 100)), 1e-9);
    path_clear(&path);
    path_add(&path, segment_cubic(point(0, 0), point(0, 0), point(50, 50), point(100, 0)));
    NEAR(path_turning(&path), -90, 1e-9);
    path_finish(&path);
}

Test(path_measure, what_is_straight_and_what_is_not) {
    Path path = {0};
    path_line(point(0, 0), point(100, 0), &path);
    path_add_line(&path, point(200, 0.0008));
    cr_assert(path_is_straight(&path));
    path_add_line(&path, point(250, 1));
    cr_assert_not(path_is_straight(&path));
    path_line(point(0, 0), point(100, 0), &path);
    path_add_line(&path, point(50, 0)); // doubles back
    cr_assert_not(path_is_straight(&path));
    path_clear(&path);
    path_add(&path, segment_cubic(point(0, 0), point(10, 0), point(60, 0), point(100, 0)));
    cr_assert(path_is_straight(&path));
    path_finish(&path);
}

Test(path_measure, chords_stay_within_the_tolerance) {
    uint64_t seed = 24;
    Path path = {0};
    for (int i = 0; i < 20; i++) {
        wild_outline(&seed, 3, &path);
        const double tolerance = i % 2 ? 0.01 : 1;
        Point *points;
        int count;
        path_flatten(&path, tolerance, &points, &count);
        Path chords = {0};
        cr_assert_eq(path_polyline(points, count, &chords), GEOM_OK);
        for (int j = 0; j < path.count; j++) {
            for (int k = 0; k <= 50; k++)
                cr_assert_leq(path_distance(&chords, segment_point(&path.items[j], k / 50.0)), tolerance);
        }
        path_finish(&chords);
        mem_free(points);
    }
    path_finish(&path);
}

Test(path_measure, the_box_of_a_circle_is_its_square) {
    Path path = {0};
    path_arc(point(10, 20), 50, 13, 360, &path);
    const Box box = path_box(&path);
    NEAR_POINT(box.least, -40, -30, 1e-4);
    NEAR_POINT(box.most, 60, 70, 1e-4);
    path_finish(&path);
}
