#include "near.h"

#include <signal.h>

// A closed outline of lines, a curve and an arc.
static void outline(Path *out) {
    path_clear(out);
    path_add(out, segment_line(point(0, 0), point(200, 0)));
    path_add(out, segment_cubic(point(200, 0), point(230, 40), point(210, 90), point(150, 120)));
    path_add_line(out, point(40, 150));
    path_add(out, segment_cubic(point(40, 150), point(10, 100), point(-20, 60), point(0, 0)));
}

Test(path, finishing_twice_and_finishing_nothing_is_harmless) {
    Path path = {0};
    path_finish(&path);
    outline(&path);
    path_finish(&path);
    path_finish(&path);
    cr_assert_eq(path.count, 0);
}

Test(path, borrowed_segments_are_read_and_left_alone) {
    Segment own[2] = {segment_line(point(0, 0), point(3, 4)), segment_line(point(3, 4), point(3, 10))};
    Path path = {.items = own, .count = 2}, copy = {0};
    NEAR(path_length(&path), 11, 1e-12);
    path_copy(&path, &copy);
    path_finish(&path);
    NEAR(path_length(&copy), 11, 1e-12);
    path_finish(&copy);
}

Test(path, borrowed_segments_do_not_grow, .signal = SIGABRT) {
    Segment own[1] = {segment_line(point(0, 0), point(3, 4))};
    Path path = {.items = own, .count = 1};
    path_add_line(&path, point(5, 5));
}

Test(path, a_segment_added_starts_exactly_where_the_path_ends) {
    Path path = {0};
    path_line(point(0, 0), point(10, 0), &path);
    path_add(&path, segment_cubic(point(10.004, 0.002), point(15, 0.002), point(20, 5), point(20, 9)));
    cr_assert(path.items[1].p0.x == 10 && path.items[1].p0.y == 0);
    NEAR_POINT(segment_direction(&path.items[1], 0), 1, 0, 1e-12); // its handle went along
    path_finish(&path);
}

Test(path, a_polyline_needs_points_that_differ) {
    Path path = {0};
    const Point good[3] = {{0, 0}, {10, 0}, {10, 5}}, same[3] = {{0, 0}, {0, 0.0005}, {10, 5}};
    const Point odd[2] = {{0, 0}, {NAN, 0}};
    cr_assert_eq(path_polyline(good, 3, &path), GEOM_OK);
    cr_assert_eq(path.count, 2);
    cr_assert_eq(path_polyline(same, 3, &path), GEOM_NO_DIRECTION);
    cr_assert_eq(path_polyline(odd, 2, &path), GEOM_NOT_FINITE);
    cr_assert_eq(path_polyline(good, 1, &path), GEOM_NO_DIRECTION);
    cr_assert_eq(path_polyline(good, PATH_SEGMENTS_MAX + 2, &path), GEOM_TOO_MANY);
    NEAR(path_length(&path), 15, 1e-12); // still the good one
    path_finish(&path);
}

// Measured: 6.64e-8 of the radius, in the middle of each half of a 22.5 degree piece.
Test(path, the_radius_of_an_arc_is_right_to_one_part_in_ten_million) {
    Path arc = {0};
    cr_assert_eq(path_arc(point(30, -20), 250, 77, 360, &arc), GEOM_OK);
    cr_assert_eq(arc.count, 16);
    double worst = 0;
    for (int i = 0; i < arc.count; i++) {
        for (int j = 0; j <= 1000; j++) {
            const Point p = segment_point(&arc.items[i], j / 1000.0);
            worst = fmax(worst, fabs(point_distance(p, point(30, -20)) / 250 - 1));
        }
    }
    cr_assert_lt(worst, 1e-7, "worst %.3g", worst);
    cr_assert_gt(worst, 6e-8); // else the note above is out of date
    cr_assert(path_is_closed(&arc));
    cr_assert(path_last(&arc).x == path_first(&arc).x && path_last(&arc).y == path_first(&arc).y);
    path_finish(&arc);
}

Test(path, an_arc_sweeps_both_ways_and_its_length_is_radius_times_angle) {
    Path arc = {0};
    for (double sweep = -400; sweep <= 400; sweep += 37) {
        cr_assert_eq(path_arc(point(0, 0), 80, 15, sweep, &arc), GEOM_OK);
        NEAR(path_length(&arc), 80 * RADIANS(fabs(sweep)), 1e-7 * 80 * RADIANS(fabs(sweep)));
        const Point last = point_polar(point(0, 0), 15 + sweep, 80);
        NEAR_POINT(path_last(&arc), last.x, last.y, 1e-10);
        NEAR(path_turning(&arc), sweep, 1e-6);
    }
    path_finish(&arc);
}

Test(path, arcs_that_are_no_arcs_are_refused) {
    Path arc = {0};
    cr_assert_eq(path_arc(point(0, 0), 0, 0, 90, &arc), GEOM_NO_DIRECTION);
    cr_assert_eq(path_arc(point(0, 0), -5, 0, 90, &arc), GEOM_NO_DIRECTION);
    cr_assert_eq(path_arc(point(0, 0), 5, 0, 0, &arc), GEOM_NO_DIRECTION);
    cr_assert_eq(path_arc(point(0, 0), NAN, 0, 90, &arc), GEOM_NOT_FINITE);
    cr_assert_eq(path_arc(point(0, 0), 5, 0, 1e12, &arc), GEOM_TOO_MANY);
    cr_assert_eq(path_arc_of_length(point(0, 0), 0, 0, 90, &arc), GEOM_NO_DIRECTION);
    cr_assert_eq(path_arc_of_length(point(0, 0), INFINITY, 10, 90, &arc), GEOM_NOT_FINITE);
    cr_assert_eq(path_arc_of_length(point(0, 0), 0, 10, 1e12, &arc), GEOM_TOO_MANY);
    cr_assert_eq(arc.count, 0);
}

Test(path, an_arc_of_a_length_has_it_down_to_the_straight_line) {
    Path arc = {0};
    const double sweeps[8] = {200, -90, 5, -1e-3, 1e-7, 1e-12, 1e-300, 0};
    for (int i = 0; i < 8; i++) {
        cr_assert_eq(path_arc_of_length(point(5, 6), 30, 120, sweeps[i], &arc), GEOM_OK);
        NEAR(path_length(&arc), 120, 120 * 1e-7);
        const Point from = point_heading(30), to = point_heading(30 + sweeps[i]);
        NEAR_POINT(path_direction(&arc, PATH_FIRST), from.x, from.y, 1e-9);
        NEAR_POINT(path_direction(&arc, PATH_LAST), to.x, to.y, 1e-9);
    }
    NEAR_POINT(path_last(&arc), 5 + 60 * sqrt(3), 66, 1e-9);
    // a half circle: the chord is the diameter 2 l / pi
    cr_assert_eq(path_arc_of_length(point(0, 0), 0, 100, 180, &arc), GEOM_OK);
    NEAR_POINT(path_last(&arc), 0, 200 / PI, 1e-9);
    path_finish(&arc);
}

Test(path, turning_round_twice_gives_the_same_path_and_once_keeps_the_length) {
    Path path = {0}, back = {0}, again = {0};
    outline(&path);
    path_reverse(&path, &back);
    path_reverse(&back, &again);
    NEAR(path_length(&back), path_length(&path), 1e-9);
    NEAR(path_area(&back), -path_area(&path), 1e-9);
    for (int i = 0; i < path.count; i++)
        NEAR_POINT(again.items[i].p1, path.items[i].p1.x, path.items[i].p1.y, 0);
    path_finish(&path);
    path_finish(&back);
    path_finish(&again);
}

Test(path, moving_keeps_lengths_and_mirroring_turns_the_area_over) {
    Path path = {0}, moved = {0};
    outline(&path);
    Affine mirror;
    affine_mirror(point(3, 4), point(-20, 77), &mirror);
    path_transform(&path, affine_then(affine_swing(point(1, 2), 33), mirror), &moved);
    NEAR(path_length(&moved), path_length(&path), 1e-9 * path_length(&path));
    NEAR(path_area(&moved), -path_area(&path), 1e-9 * path_area(&path));
    NEAR(path_turning(&moved), -360, 1e-9);
    path_finish(&path);
    path_finish(&moved);
}

Test(path, the_parts_of_a_split_sum_to_the_whole) {
    Path path = {0}, before = {0}, after = {0};
    outline(&path);
    const double length = path_length(&path);
    uint64_t seed = 3;
    for (int i = 0; i < 200; i++) {
        const double at = random_from(&seed, 1, length - 1);
        cr_assert_eq(path_split(&path, i % 2 ? at : at - length, &before, &after), GEOM_OK);
        NEAR(path_length(&before), at, 1e-6);
        NEAR(path_length(&after), length - at, 1e-6);
        NEAR_POINT(path_last(&before), path_first(&after).x, path_first(&after).y, 0);
    }
    // at a joint the parts have no slivers
    cr_assert_eq(path_split(&path, 200, &before, &after), GEOM_OK);
    cr_assert_eq(before.count, 1);
    cr_assert_eq(after.count, 3);
    cr_assert_eq(path_split(&path, 0, &before, &after), GEOM_NO_DIRECTION);
    cr_assert_eq(path_split(&path, length, &before, NULL), GEOM_NO_DIRECTION);
    cr_assert_eq(path_split(&path, length + 1, &before, NULL), GEOM_BEYOND_END);
    cr_assert_eq(before.count, 1);
    path_finish(&path);
    path_finish(&before);
    path_finish(&after);
}

Test(path, a_stretch_between_two_distances_comes_in_either_order) {
    Path path = {0}, there = {0}, back = {0};
    outline(&path);
    cr_assert_eq(path_between(&path, 50, 350, &there), GEOM_OK);
    cr_assert_eq(path_between(&path, 350, 50, &back), GEOM_OK);
    NEAR(path_length(&there), 300, 1e-6);
    NEAR_POINT(path_first(&there), 50, 0, 1e-12);
    NEAR_POINT(path_last(&back), 50, 0, 1e-12);
    NEAR_POINT(path_first(&back), path_last(&there).x, path_last(&there).y, 0);
    cr_assert_eq(path_between(&path, 50, -100, &there), GEOM_OK);
    NEAR(path_length(&there), path_length(&path) - 150, 1e-6);
    cr_assert_eq(path_between(&path, 50, 50.0004, &there), GEOM_NO_DIRECTION);
    cr_assert_eq(path_between(&path, 50, 9000, &there), GEOM_BEYOND_END);
    cr_assert_eq(path_between(&path, NAN, 50, &there), GEOM_NOT_FINITE);
    path_finish(&path);
    path_finish(&there);
    path_finish(&back);
}

Test(path, extending_goes_straight_on_and_a_line_stays_one_line) {
    Path path = {0}, out = {0};
    path_line(point(0, 0), point(3, 4), &path);
    cr_assert_eq(path_extend(&path, PATH_LAST, 5, &out), GEOM_OK);
    cr_assert_eq(out.count, 1);
    NEAR_POINT(path_last(&out), 6, 8, 1e-12);
    cr_assert_eq(path_extend(&path, PATH_FIRST, 5, &out), GEOM_OK);
    NEAR_POINT(path_first(&out), -3, -4, 1e-12);
    path_arc(point(0, 0), 10, 0, 90, &path);
    cr_assert_eq(path_extend(&path, PATH_LAST, 7, &out), GEOM_OK);
    NEAR_POINT(path_last(&out), -7, 10, 1e-9);
    cr_assert_eq(path_extend(&path, PATH_FIRST, 7, &out), GEOM_OK);
    NEAR_POINT(path_first(&out), 10, -7, 1e-9);
    cr_assert_eq(out.count, path.count + 1);
    cr_assert_eq(path_extend(&path, PATH_LAST, 0, &out), GEOM_NO_DIRECTION);
    cr_assert_eq(path_extend(&path, PATH_LAST, -2, &out), GEOM_NO_DIRECTION);
    cr_assert_eq(path_extend(&path, PATH_LAST, 3e5, &out), GEOM_NOT_FINITE);
    path_line(point(1, 1), point(1, 1), &path);
    cr_assert_eq(path_extend(&path, PATH_LAST, 3, &out), GEOM_NO_DIRECTION);
    path_finish(&path);
    path_finish(&out);
}

Test(path, joining_turns_parts_round_and_closes_small_gaps) {
    Path a = {0}, b = {0}, c = {0}, out = {0};
    int at = -1;
    path_line(point(10, 0), point(0, 0), &a);   // has to be turned round
    path_line(point(10, 20), point(10, 0), &b); // so has this
    path_line(point(10.006, 20), point(0, 20), &c);
    const Path *parts[3] = {&a, &b, &c};
    cr_assert_eq(path_join(parts, 3, &out, &at), GEOM_OK);
    NEAR_POINT(path_first(&out), 0, 0, 0);
    NEAR_POINT(path_last(&out), 0, 20, 0);
    NEAR(path_length(&out), 40, 1e-9);
    path_line(point(10.5, 20), point(0, 20), &c);
    cr_assert_eq(path_join(parts, 3, &out, &at), GEOM_NOT_JOINED);
    cr_assert_eq(at, 2);
    NEAR(path_length(&out), 40, 1e-9);
    cr_assert_eq(path_join(parts, 1, &out, NULL), GEOM_OK);
    NEAR_POINT(path_first(&out), 10, 0, 0); // alone it stays as it is
    path_finish(&a);
    path_finish(&b);
    path_finish(&c);
    path_finish(&out);
}

Test(path, joining_all_round_closes_exactly) {
    Path a = {0}, b = {0}, out = {0};
    path_arc(point(0, 0), 50, 0, 180, &a);
    path_line(point(50.004, 0.003), point(-50, 0), &b);
    const Path *parts[2] = {&a, &b};
    cr_assert_eq(path_join(parts, 2, &out, NULL), GEOM_OK);
    cr_assert(path_is_closed(&out));
    cr_assert(path_last(&out).x == path_first(&out).x && path_last(&out).y == path_first(&out).y);
    path_finish(&a);
    path_finish(&b);
    path_finish(&out);
}

Test(path, what_is_closed_and_what_is_not) {
    Path path = {0};
    cr_assert_not(path_is_closed(&path));
    outline(&path);
    cr_assert(path_is_closed(&path));
    path_line(point(0, 0), point(5, 0), &path);
    cr_assert_not(path_is_closed(&path));
    path_line(point(0, 0), point(0, 0), &path);
    cr_assert_not(path_is_closed(&path)); // a point
    path_clear(&path);
    path_add(&path, segment_cubic(point(0, 0), point(50, 50), point(-50, 50), point(0, 0)));
    cr_assert(path_is_closed(&path)); // a drop of one curve
    path_finish(&path);
}

Test(path, a_path_that_is_not_finite_is_told) {
    Path path = {0};
    cr_assert(path_finite(&path));
    outline(&path);
    cr_assert(path_finite(&path));
    path.items[2].p1.y = NAN;
    cr_assert_not(path_finite(&path));
    path_finish(&path);
}
