#include <criterion/criterion.h>

#include "base/memory.h"
#include "geometry/crossing.h"
#include "geometry/offset.h"

static const OffsetOptions MITRE = {.join = JOIN_MITRE};

static void polygon(const Point *points, int count, Path *out) {
    path_clear(out);
    for (int i = 0; i < count; i++)
        path_add(out, segment_line(points[i], points[(i + 1) % count]));
}

static void rectangle(double width, double height, Path *out) {
    polygon((Point[]){{0, 0}, {width, 0}, {width, height}, {0, height}}, 4, out);
}

static void near(double found, double wanted, double margin, const char *what) {
    cr_expect(fabs(found - wanted) <= margin, "%s: %.6f, not %.6f", what, found, wanted);
}

// Every point of found lies at the distance from source.
static void runs_beside(const Path *source, const Path *found, double distance, double margin) {
    for (int i = 0; i < found->count; i++)
        for (int k = 0; k <= 40; k++) {
            const double gap = path_distance(source, segment_point(&found->items[i], k / 40.0));
            cr_expect(fabs(gap - distance) <= margin, "segment %d at %d/40: %.5f mm away", i, k, gap);
        }
}

// Plane geometry: a rectangle grows by the distance on every side.
Test(offset, a_rectangle_with_mitred_corners_grows_to_a_rectangle) {
    Path source = {0}, found = {0};
    rectangle(100, 60, &source);
    int parts = 0;
    cr_assert_eq(outline_offset(&source, 10, MITRE, &found, &parts), GEOM_OK);
    cr_expect_eq(found.count, 4);
    cr_expect_eq(parts, 1);
    near(path_area(&found), 120 * 80, 1e-9, "area");
    cr_assert_eq(outline_offset(&source, -10, MITRE, &found, &parts), GEOM_OK);
    cr_expect_eq(found.count, 4);
    near(path_area(&found), 80 * 40, 1e-9, "area inside");
    path_finish(&source);
    path_finish(&found);
}

Test(offset, lines_stay_lines) {
    Path source = {0}, found = {0};
    polygon((Point[]){{0, 0}, {80, 10}, {120, 90}, {40, 50}, {-20, 70}}, 5, &source);
    cr_assert_eq(outline_offset(&source, 12, MITRE, &found, NULL), GEOM_OK);
    for (int i = 0; i < found.count; i++)
        cr_expect_eq(found.items[i].kind, SEGMENT_LINE);
    path_finish(&source);
    path_finish(&found);
}

// Steiner's formula for a convex outline (J. Steiner, 1840): rounded area = A + L d + pi d^2. A mitre adds
// d^2 (tan h - h) for each corner that turns by 2h; a square end adds d^2 (2 tan(h/2) - h).
Test(offset, a_convex_outline_grows_by_the_law_of_steiner) {
    Path source = {0}, found = {0};
    const Point corners[] = {{0, 0}, {90, -20}, {130, 60}, {70, 110}, {-10, 80}};
    polygon(corners, 5, &source);
    const double d = 9, base = path_area(&source) + path_length(&source) * d;
    double mitres = 0, squares = 0;
    for (int i = 0; i < 5; i++) {
        const Point a = corners[(i + 4) % 5], b = corners[i], c = corners[(i + 1) % 5];
        const double h = RADIANS(point_turn(point_sub(b, a), point_sub(c, b))) / 2;
        mitres += d * d * tan(h);
        squares += d * d * 2 * tan(h / 2);
    }
    cr_assert_eq(outline_offset(&source, d, MITRE, &found, NULL), GEOM_OK);
    near(path_area(&found), base + mitres, 1e-6, "mitred");
    cr_assert_eq(outline_offset(&source, d, (OffsetOptions){.join = JOIN_SQUARE}, &found, NULL), GEOM_OK);
    near(path_area(&found), base + squares, 1e-6, "squared");
    cr_assert_eq(outline_offset(&source, d, (OffsetOptions){.join = JOIN_ROUND}, &found, NULL), GEOM_OK);
    near(path_area(&found), base + PI * d * d, 0.001, "rounded");
    path_finish(&source);
    path_finish(&found);
}

Test(offset, a_circle_stays_a_circle) {
    Path source = {0}, found = {0};
    cr_assert_eq(path_arc(point(30, 40), 50, 0, 360, &source), GEOM_OK);
    for (double d = -45; d <= 45; d += 15) {
        if (d == 0)
            continue;
        cr_assert_eq(outline_offset(&source, d, MITRE, &found, NULL), GEOM_OK, "at %.0f mm", d);
        for (int i = 0; i < found.count; i++)
            for (int k = 0; k < 10; k++)
                near(point_distance(segment_point(&found.items[i], k / 10.0), point(30, 40)), 50 + d, 0.001,
                     "radius");
    }
    cr_expect_eq(outline_offset(&source, -50.1, MITRE, &found, NULL), GEOM_VANISHES);
    cr_expect_eq(outline_offset(&source, -70, MITRE, &found, NULL), GEOM_VANISHES);
    cr_expect_eq(outline_offset(&source, -200, MITRE, &found, NULL), GEOM_VANISHES);
    path_finish(&source);
    path_finish(&found);
}

Test(offset, a_clockwise_outline_stays_clockwise) {
    Path source = {0}, turned = {0}, a = {0}, b = {0};
    polygon((Point[]){{0, 0}, {80, 10}, {120, 90}, {40, 50}, {-20, 70}}, 5, &source);
    path_reverse(&source, &turned);
    for (double d = -5; d <= 15; d += 10) {
        cr_assert_eq(outline_offset(&source, d, MITRE, &a, NULL), GEOM_OK);
        cr_assert_eq(outline_offset(&turned, d, MITRE, &b, NULL), GEOM_OK);
        near(path_area(&b), -path_area(&a), 1e-9, "area");
    }
    path_finish(&source);
    path_finish(&turned);
    path_finish(&a);
    path_finish(&b);
}

Test(offset, a_path_and_its_reverse_have_each_others_sides) {
    Path source = {0}, turned = {0}, a = {0}, b = {0};
    path_add(&source, segment_cubic(point(0, 0), point(40, 60), point(90, -40), point(140, 30)));
    path_add(&source, segment_line(point(140, 30), point(150, 90)));
    path_reverse(&source, &turned);
    cr_assert_eq(path_offset(&source, 8, SIDE_LEFT, MITRE, &a), GEOM_OK);
    cr_assert_eq(path_offset(&turned, 8, SIDE_RIGHT, MITRE, &b), GEOM_OK);
    near(path_length(&a), path_length(&b), 1e-3, "length");
    near(point_distance(path_first(&a), path_last(&b)), 0, 1e-6, "ends");
    near(point_distance(path_last(&a), path_first(&b)), 0, 1e-6, "ends");
    path_finish(&source);
    path_finish(&turned);
    path_finish(&a);
    path_finish(&b);
}

// A neckline whose bend is tighter than the allowance on its inner side: the parallel must close with a
// corner.
Test(offset, a_bend_tighter_than_the_distance_closes_with_a_corner) {
    Path source = {0}, found = {0};
    path_add(&source, segment_line(point(-80, 0), point(-5, 0)));
    path_add(&source, segment_cubic(point(-5, 0), point(-2.24, 0), point(0, 2.24), point(0, 5)));
    path_add(&source, segment_line(point(0, 5), point(0, 80)));
    cr_assert_eq(path_offset(&source, 12, SIDE_LEFT, MITRE, &found), GEOM_OK);
    near(point_distance(path_first(&found), point(-80, 12)), 0, 1e-9, "first");
    near(point_distance(path_last(&found), point(-12, 80)), 0, 1e-9, "last");
    near(path_distance(&found, point(-12, 12)), 0, 1e-6, "corner");
    near(path_length(&found), 68 * 2, 1e-3, "length");
    runs_beside(&source, &found, 12, 0.01);
    path_finish(&source);
    path_finish(&found);
}

Test(offset, an_open_curve_keeps_the_distance_on_both_sides) {
    Path source = {0}, found = {0};
    path_add(&source, segment_cubic(point(0, 0), point(10, 90), point(80, -30), point(120, 40)));
    path_add(&source, segment_cubic(point(120, 40), point(140, 75), point(150, 60), point(155, 40)));
    for (int side = 0; side < 2; side++)
        for (double d = 1; d < 20; d += 3) {
            cr_assert_eq(path_offset(&source, d, (Side)side, (OffsetOptions){.join = JOIN_ROUND}, &found),
                         GEOM_OK);
            runs_beside(&source, &found, d, 0.01);
        }
    path_finish(&source);
    path_finish(&found);
}

Test(offset, a_short_arm_cuts_the_parallel_of_a_long_one) {
    Path source = {0}, found = {0};
    cr_assert_eq(path_polyline((Point[]){{0, 8}, {0, 0}, {5, 0}, {5, 100}}, 4, &source), GEOM_OK);
    cr_assert_eq(path_offset(&source, 10, SIDE_LEFT, MITRE, &found), GEOM_OK);
    near(point_distance(path_last(&found), point(-5, 100)), 0, 1e-9, "last");
    near(path_first(&found).x, -5, 1e-6, "first x");
    near(path_first(&found).y, 8 + sqrt(100 - 25), 0.05, "first y");
    path_finish(&source);
    path_finish(&found);
}

Test(offset, a_path_with_no_room_on_its_inner_side_vanishes) {
    Path source = {0}, found = {0};
    cr_assert_eq(path_polyline((Point[]){{-5, 0}, {0, 0}, {0, 5}}, 3, &source), GEOM_OK);
    cr_expect_eq(path_offset(&source, 10, SIDE_LEFT, MITRE, &found), GEOM_VANISHES);
    cr_expect_eq(found.count, 0);
    path_finish(&source);
}

Test(offset, a_slender_outline_falls_apart_inside_and_gives_its_largest_part) {
    Path source = {0}, found = {0};
    polygon((Point[]){{0, 0},
                      {60, 0},
                      {60, 27},
                      {90, 27},
                      {90, 0},
                      {170, 0},
                      {170, 60},
                      {90, 60},
                      {90, 33},
                      {60, 33},
                      {60, 60},
                      {0, 60}},
            12, &source);
    int parts = 0;
    cr_assert_eq(outline_offset(&source, -5, MITRE, &found, &parts), GEOM_OK);
    cr_expect_eq(parts, 2);
    near(path_area(&found), 70 * 50, 1e-3, "area");
    cr_expect_eq(outline_offset(&source, -2, MITRE, &found, &parts), GEOM_OK);
    cr_expect_eq(parts, 1);
    cr_expect_eq(outline_offset(&source, -30.05, MITRE, &found, &parts), GEOM_VANISHES);
    path_finish(&source);
    path_finish(&found);
}

Test(offset, a_mitre_past_its_limit_is_squared_off_at_the_limit) {
    Path source = {0}, found = {0};
    const Point tip = {100, 0};
    polygon((Point[]){{0, 0}, tip, {0, 2 * 100 * tan(RADIANS(10)) * cos(RADIANS(10))}}, 3, &source);
    for (double limit = 1.5; limit < 8; limit += 1) {
        cr_assert_eq(outline_offset(&source, 10, (OffsetOptions){.mitre_limit = limit}, &found, NULL),
                     GEOM_OK);
        const Point in = point(1, 0), out = point_unit(point_sub(source.items[1].p3, tip));
        const Point middle = point_unit(point_sub(in, out));
        double most = 0;
        for (int i = 0; i < found.count; i++)
            most = fmax(most, point_dot(middle, point_sub(found.items[i].p0, tip)));
        const double half = RADIANS(point_turn(in, out)) / 2;
        near(most, fmin(10 / cos(half), 10 * limit), 1e-6, "tip");
    }
    path_finish(&source);
    path_finish(&found);
}

Test(offset, points_without_length_and_tiny_kinks_do_no_harm) {
    Path source = {0}, found = {0};
    path_add(&source, segment_line(point(0, 0), point(50, 0)));
    path_add(&source, segment_line(point(50, 0), point(50, 0)));
    path_add(&source, segment_line(point(50, 0), point(100, 0.02)));
    path_add(&source, segment_cubic(point(100, 0.02), point(100, 0.02), point(100, 0.02), point(100, 0.02)));
    path_add(&source, segment_line(point(100, 0.02), point(100.0004, 0.0203)));
    path_add(&source, segment_line(point(100.0004, 0.0203), point(100, 60)));
    path_add(&source, segment_cubic(point(100, 60), point(70, 60), point(30, 60), point(0, 60)));
    path_add(&source, segment_line(point(0, 60), point(0, 0)));
    cr_assert_eq(outline_offset(&source, 10, MITRE, &found, NULL), GEOM_OK);
    near(path_area(&found), 120 * 80, 2, "area");
    cr_expect_leq(found.count, 6);
    for (int i = 0; i < found.count; i++)
        cr_expect_gt(segment_length(&found.items[i]), 1, "segment %d", i);
    path_finish(&source);
    path_finish(&found);
}

Test(offset, a_cusp_is_offset_as_a_corner) {
    Path source = {0}, found = {0};
    path_add(&source,
             segment_cubic(point(0, 0), point(100, 80), point(0, 80), point(100, 0))); // p' = 0 at 1/2
    path_add(&source, segment_line(point(100, 0), point(100, -50)));
    path_add(&source, segment_line(point(100, -50), point(0, -50)));
    path_add(&source, segment_line(point(0, -50), point(0, 0)));
    int parts = 0;
    cr_assert_eq(outline_offset(&source, 6, (OffsetOptions){.join = JOIN_ROUND}, &found, &parts), GEOM_OK);
    runs_beside(&source, &found, 6, 0.01);
    cr_assert_eq(outline_offset(&source, -6, (OffsetOptions){.join = JOIN_ROUND}, &found, &parts), GEOM_OK);
    runs_beside(&source, &found, 6, 0.01);
    path_finish(&source);
    path_finish(&found);
}

Test(offset, the_ends_of_handles_without_length_are_offset_right) {
    Path source = {0}, found = {0};
    path_add(&source, segment_cubic(point(0, 0), point(0, 0), point(60, 50), point(100, 0)));
    path_add(&source, segment_cubic(point(100, 0), point(60, -60), point(0, 0), point(0, 0)));
    path_reverse(&source, &found);
    path_copy(&found, &source);
    for (double d = -4; d <= 12; d += 4) {
        if (d == 0)
            continue;
        cr_assert_eq(outline_offset(&source, d, (OffsetOptions){.join = JOIN_ROUND}, &found, NULL), GEOM_OK);
        runs_beside(&source, &found, fabs(d), 0.01);
    }
    path_finish(&source);
    path_finish(&found);
}

Test(offset, what_is_no_outline_is_refused) {
    Path source = {0}, found = {0};
    cr_expect_eq(outline_offset(&source, 10, MITRE, &found, NULL), GEOM_NOT_CLOSED);
    cr_assert_eq(path_polyline((Point[]){{0, 0}, {10, 0}, {10, 10}}, 3, &source), GEOM_OK);
    cr_expect_eq(outline_offset(&source, 10, MITRE, &found, NULL), GEOM_NOT_CLOSED);
    polygon((Point[]){{0, 0}, {100, 100}, {100, 0}, {0, 100}}, 4, &source);
    cr_expect_eq(outline_offset(&source, 10, MITRE, &found, NULL), GEOM_CROSSES_ITSELF);
    rectangle(10, 10, &source);
    cr_expect_eq(outline_offset(&source, NAN, MITRE, &found, NULL), GEOM_NOT_FINITE);
    cr_expect_eq(outline_offset(&source, -5, MITRE, &found, NULL), GEOM_VANISHES);
    cr_expect_eq(found.count, 0);
    path_finish(&source);
}

Test(offset, a_raw_parallel_keeps_its_loops) {
    Path source = {0}, found = {0};
    cr_assert_eq(path_polyline((Point[]){{-5, 0}, {0, 0}, {0, 50}}, 3, &source), GEOM_OK);
    cr_assert_eq(path_offset_raw(&source, 10, SIDE_LEFT, 0, &found), GEOM_OK);
    near(point_distance(path_first(&found), point(-5, 10)), 0, 1e-9, "first");
    near(point_distance(path_last(&found), point(-10, 50)), 0, 1e-9, "last");
    cr_expect_eq(found.count, 3);
    cr_assert_eq(path_offset_raw(&source, 10, SIDE_RIGHT, 0, &found), GEOM_OK);
    cr_expect_eq(found.count, 2);
    near(point_distance(path_last(&found), point(10, 50)), 0, 1e-9, "last right");
    path_finish(&source);
    path_finish(&found);
}

// A square with a loop at one corner, as two parallels of different width leave it.
Test(offset, the_loops_of_a_raw_outline_are_removed) {
    Path raw = {0}, found = {0};
    polygon((Point[]){{0, 0}, {110, 0}, {110, 20}, {100, 10}, {100, 100}, {0, 100}}, 6, &raw);
    int parts = 0;
    cr_assert_eq(outline_unloop(&raw, false, 0, &found, &parts), GEOM_OK);
    near(path_area(&found), path_area(&raw), 1e-3, "no loop, nothing changed");

    polygon((Point[]){{0, 0}, {100, 0}, {100, 60}, {90, 50}, {120, 50}, {120, 100}, {0, 100}}, 7, &raw);
    cr_assert_eq(outline_unloop(&raw, false, 0, &found, &parts), GEOM_OK);
    cr_expect_eq(parts, 1);
    near(path_area(&found), 100 * 50 + 120 * 50, 1e-3, "a loop inside");

    polygon((Point[]){{0, 0}, {100, 0}, {100, 50}, {130, 50}, {130, 30}, {80, 30}, {80, 100}, {0, 100}}, 8,
            &raw);
    cr_assert_eq(outline_unloop(&raw, false, 0, &found, &parts), GEOM_OK);
    near(path_area(&found), 80 * 100 + 20 * 30, 1e-3, "a loop that winds backwards");
    for (int i = 0; i < found.count; i++)
        cr_expect_leq(found.items[i].p0.x, 100.0001);
    path_finish(&raw);
    path_finish(&found);
}

// A V notch with equal sides: parallels that run on each other in the middle.
Test(offset, parallels_that_run_on_each_other_are_no_trouble) {
    Path source = {0}, found = {0};
    for (double depth = 0.2; depth < 20; depth *= 1.5) {
        polygon(
            (Point[]){
                {0, 0}, {100, 0}, {100, 60}, {50 + depth, 60}, {50, 60 - depth}, {50 - depth, 60}, {0, 60}},
            7, &source);
        int parts = 0;
        cr_assert_eq(outline_offset(&source, 10, MITRE, &found, &parts), GEOM_OK, "depth %.2f", depth);
        // Past the depth where the mitres of the lips (at 10 tan 22.5 degrees) meet, a notch is left.
        const double open = fmax(depth - 10 * tan(RADIANS(22.5)), 0);
        near(path_area(&found), 120 * 80 - open * open, 0.02, "area");
    }
    path_finish(&source);
    path_finish(&found);
}

Test(offset, an_outline_of_many_points_is_offset_like_its_curve) {
    Path source = {0}, found = {0};
    enum { COUNT = 5000 };
    Point *points = mem_new(sizeof *points * COUNT);
    for (int i = 0; i < COUNT; i++) {
        const double a = 2 * PI * i / COUNT, r = 100 + 30 * cos(5 * a);
        points[i] = point(r * cos(a), r * sin(a));
    }
    polygon(points, COUNT, &source);
    mem_free(points);
    for (double d = -40; d <= 40; d += 10) {
        if (d == 0)
            continue;
        cr_assert_eq(outline_offset(&source, d, (OffsetOptions){.join = JOIN_ROUND}, &found, NULL), GEOM_OK,
                     "%g", d);
        for (int i = 0; i < found.count; i += 7)
            near(path_distance(&source, found.items[i].p0), fabs(d), 0.01, "distance");
    }
    path_finish(&source);
    path_finish(&found);
}

static void is_simple(const Path *outline, const char *what) {
    CrossingList list = {0};
    path_self_crossings(outline, &list);
    cr_expect_eq(list.count, 0, "%s crosses itself", what);
    crossings_finish(&list);
}

// The last curve but two ends with a handle of no length, where it bends without bound.
Test(offset, a_boundless_bend_at_the_end_of_a_curve_leaves_no_spike) {
    Path source = {0}, found = {0};
    path_add(&source, segment_cubic(point(120, 0), point(170, 20), point(20, 80), point(20, 50)));
    path_add(&source, segment_line(point(20, 50), point(-90, 70)));
    path_add(&source, segment_cubic(point(-90, 70), point(-80, 60), point(-80, -60), point(-80, -60)));
    path_add(&source, segment_line(point(-80, -60), point(30, -80)));
    path_add(&source, segment_line(point(30, -80), point(120, 0)));
    for (double d = 0.3; d < 40; d *= 2) {
        cr_assert_eq(outline_offset(&source, d, (OffsetOptions){.join = JOIN_ROUND}, &found, NULL), GEOM_OK);
        runs_beside(&source, &found, d, 0.01);
        is_simple(&found, "the offset");
    }
    path_finish(&source);
    path_finish(&found);
}

Test(offset, a_loop_within_one_curve_is_cut_where_it_crosses) {
    Path raw = {0}, found = {0};
    path_add(&raw,
             segment_cubic(point(0, 0), point(140, 80), point(-40, 80), point(100, 0))); // a loop at its top
    path_add(&raw, segment_line(point(100, 0), point(100, -50)));
    path_add(&raw, segment_line(point(100, -50), point(0, -50)));
    path_add(&raw, segment_line(point(0, -50), point(0, 0)));
    Path turned = {0};
    path_reverse(&raw, &turned);
    int parts = 0;
    cr_assert_eq(outline_unloop(&turned, true, 0, &found, &parts), GEOM_OK);
    cr_expect_eq(parts, 1);
    is_simple(&found, "what is left");
    path_finish(&raw);
    path_finish(&turned);
    path_finish(&found);
}
