#include "near.h"

#include "geometry/crossing.h"

Test(crossing_gap, circles_are_apart_by_their_centres_less_their_radii) {
    Path a = {0}, b = {0};
    Point on_a, on_b;
    path_arc(point(0, 0), 100, 11, 360, &a);
    path_arc(point(300, 400), 50, 5, 360, &b);
    NEAR(path_gap(&a, &b, &on_a, &on_b), 350, 2e-5);
    NEAR_POINT(on_a, 60, 80, 0.05);
    NEAR_POINT(on_b, 270, 360, 0.05);
    NEAR(path_gap(&a, &b, NULL, NULL), 350, 2e-5);
    path_finish(&a);
    path_finish(&b);
}

Test(crossing_gap, lines_are_nearest_at_an_end) {
    Path a = {0}, b = {0};
    Point on_a, on_b;
    path_line(point(0, 0), point(100, 0), &a);
    path_line(point(40, 30), point(200, 90), &b);
    NEAR(path_gap(&a, &b, &on_a, &on_b), 30, 1e-12);
    NEAR_POINT(on_a, 40, 0, 1e-12);
    NEAR_POINT(on_b, 40, 30, 1e-12);
    path_line(point(103, 4), point(200, 90), &b);
    NEAR(path_gap(&a, &b, &on_a, &on_b), 5, 1e-12);
    path_finish(&a);
    path_finish(&b);
}

Test(crossing_gap, paths_that_meet_have_none) {
    Path a = {0}, b = {0};
    Point on_a, on_b;
    path_line(point(0, 0), point(100, 0), &a);
    path_line(point(40, 30), point(40, -30), &b);
    NEAR(path_gap(&a, &b, &on_a, &on_b), 0, 0);
    NEAR_POINT(on_a, 40, 0, 1e-9);
    NEAR_POINT(on_b, 40, 0, 1e-9);
    path_finish(&a);
    path_finish(&b);
}

Test(crossing_gap, no_two_points_are_nearer) {
    uint64_t seed = 51;
    Path a = {0}, b = {0};
    for (int i = 0; i < 60; i++) {
        path_clear(&a);
        path_clear(&b);
        path_add(&a, random_cubic(&seed, 100));
        path_add(&a, random_cubic(&seed, 100));
        path_add(&b, random_cubic(&seed, 100));
        Point on_a, on_b;
        Path moved = {0};
        path_transform(&b, affine_move(point(150, i)), &moved);
        const double gap = path_gap(&a, &moved, &on_a, &on_b);
        NEAR(point_distance(on_a, on_b), gap, 1e-9);
        NEAR(path_distance(&a, on_a), 0, 1e-6);
        NEAR(path_distance(&moved, on_b), 0, 1e-6);
        for (int j = 0; j < a.count; j++) {
            for (int k = 0; k <= 300; k++)
                cr_assert_leq(gap, path_distance(&moved, segment_point(&a.items[j], k / 300.0)) + 1e-9);
        }
        path_finish(&moved);
    }
    path_finish(&a);
    path_finish(&b);
}
