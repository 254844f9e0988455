#include "near.h"

#include <time.h>

#include "base/memory.h"
#include "geometry/crossing.h"

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

Test(crossing, two_circles_cross_where_pythagoras_says) {
    Path a = {0}, b = {0};
    CrossingList list = {0};
    path_arc(point(0, 0), 100, 0, 360, &a);
    path_arc(point(120, 0), 100, 0, 360, &b);
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 2);
    NEAR_POINT(list.items[0].point, 60, 80, 1e-5);
    NEAR_POINT(list.items[1].point, 60, -80, 1e-5);
    path_finish(&a);
    path_finish(&b);
    crossings_finish(&list);
}

Test(crossing, circles_and_lines_that_touch_are_found_once) {
    Path a = {0}, b = {0};
    CrossingList list = {0};
    path_arc(point(0, 0), 100, 0, 360, &a);
    for (double angle = 0; angle < 360; angle += 7.3) {
        const Point touch = point_polar(point(0, 0), angle, 100);
        path_arc(point_polar(point(0, 0), angle, 150), 50, angle + 31, 360, &b);
        path_crossings(&a, &b, &list);
        cr_assert_eq(list.count, 1, "outside at %g degrees: %d", angle, list.count);
        NEAR_POINT(list.items[0].point, touch.x, touch.y, 0.2); // where exactly is ill-posed
        path_arc(point_polar(point(0, 0), angle, 60), 40, angle + 31, 360, &b);
        path_crossings(&a, &b, &list);
        cr_assert_eq(list.count, 1, "inside at %g degrees: %d", angle, list.count);
        path_line(point_polar(touch, angle + 90, 70), point_polar(touch, angle - 90, 90), &b);
        path_crossings(&a, &b, &list);
        cr_assert_eq(list.count, 1, "line at %g degrees: %d", angle, list.count);
    }
    path_finish(&a);
    path_finish(&b);
    crossings_finish(&list);
}

Test(crossing, points_lie_on_both_paths_in_order_along_the_first) {
    uint64_t seed = 41;
    Path a = {0}, b = {0};
    CrossingList list = {0};
    int total = 0;
    for (int i = 0; i < 60; i++) {
        path_clear(&a);
        path_clear(&b);
        for (int j = 0; j < 6; j++) {
            path_add(&a, random_cubic(&seed, 200));
            path_add(&b, random_cubic(&seed, 200));
            path_add_line(&b, random_point(&seed, 200));
        }
        path_crossings(&a, &b, &list);
        total += list.count;
        for (int j = 0; j < list.count; j++) {
            const Crossing *c = &list.items[j];
            NEAR(path_distance(&a, c->point), 0, POINT_SAME_MM);
            NEAR(path_distance(&b, c->point), 0, POINT_SAME_MM);
            cr_assert(point_same(path_spot_point(&a, c->on_a), c->point));
            cr_assert(point_same(path_spot_point(&b, c->on_b), c->point));
            if (j > 0) {
                const PathSpot before = list.items[j - 1].on_a;
                cr_assert_leq(before.index + before.t, c->on_a.index + c->on_a.t);
            }
        }
    }
    cr_assert_gt(total, 1000);
    path_finish(&a);
    path_finish(&b);
    crossings_finish(&list);
}

Test(crossing, the_same_crossings_come_with_the_paths_exchanged_or_moved) {
    uint64_t seed = 42;
    Path a = {0}, b = {0}, moved_a = {0}, moved_b = {0};
    CrossingList ab = {0}, ba = {0}, moved = {0};
    for (int i = 0; i < 40; i++) {
        path_clear(&a);
        path_clear(&b);
        for (int j = 0; j < 3; j++) {
            path_add(&a, random_cubic(&seed, 200));
            path_add(&b, random_cubic(&seed, 200));
        }
        const Affine m = affine_then(affine_swing(point(3, 4), 41), affine_move(point(1000, -300)));
        path_transform(&a, m, &moved_a);
        path_transform(&b, m, &moved_b);
        path_crossings(&a, &b, &ab);
        path_crossings(&b, &a, &ba);
        path_crossings(&moved_a, &moved_b, &moved);
        cr_assert_eq(ab.count, ba.count);
        cr_assert_eq(ab.count, moved.count);
        for (int j = 0; j < ab.count; j++) {
            const Point want = affine_point(m, ab.items[j].point);
            NEAR_POINT(moved.items[j].point, want.x, want.y, 1e-5);
        }
    }
    path_finish(&a);
    path_finish(&b);
    path_finish(&moved_a);
    path_finish(&moved_b);
    crossings_finish(&ab);
    crossings_finish(&ba);
    crossings_finish(&moved);
}

Test(crossing, a_shared_joint_is_one_meeting) {
    Path a = {0}, b = {0};
    CrossingList list = {0};
    const Point pa[3] = {{0, 0}, {50, 50}, {100, 0}}, pb[3] = {{0, 100}, {50, 50}, {100, 100}};
    path_polyline(pa, 3, &a);
    path_polyline(pb, 3, &b);
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 1);
    NEAR_POINT(list.items[0].point, 50, 50, 0);
    path_line(point(50, 50), point(50, 90), &b); // an end that touches a joint
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 1);
    path_line(point(25.0003, 24.9997), point(0, 50), &b); // an end that touches within a point
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 1);
    path_line(point(25.003, 24.997), point(50, 0), &b); // an end that falls short
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 0);
    path_finish(&a);
    path_finish(&b);
    crossings_finish(&list);
}

Test(crossing, where_paths_run_on_each_other_the_two_ends_are_given) {
    Path a = {0}, b = {0};
    CrossingList list = {0};
    path_arc(point(0, 0), 100, 0, 360, &a);
    path_arc(point(0, 0), 100, 30, 100, &b); // over four joints of a
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 2);
    NEAR_POINT(list.items[0].point, 50 * sqrt(3), 50, 1e-4);
    const Point last = point_polar(point(0, 0), 130, 100);
    NEAR_POINT(list.items[1].point, last.x, last.y, 1e-4);
    const Point comb[6] = {{0, 0}, {10, 0}, {20, 0}, {30, 0}, {30, 10}, {5, 10}};
    path_polyline(comb, 6, &a);
    const Point over[4] = {{50, 0}, {25, 0}, {4, 0}, {4, 20}};
    path_polyline(over, 4, &b);
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 2);
    NEAR_POINT(list.items[0].point, 4, 0, 1e-9);
    NEAR_POINT(list.items[1].point, 30, 0, 1e-9);
    path_finish(&a);
    path_finish(&b);
    crossings_finish(&list);
}

Test(crossing, an_outline_on_itself_is_one_stretch_ending_where_it_closes) {
    Path a = {0}, b = {0};
    CrossingList list = {0};
    path_arc(point(0, 0), 100, 0, 360, &a);
    path_reverse(&a, &b);
    path_crossings(&a, &a, &list);
    cr_assert_eq(list.count, 1);
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 1);
    NEAR_POINT(list.items[0].point, 100, 0, 0);
    path_finish(&a);
    path_finish(&b);
    crossings_finish(&list);
}

Test(crossing, a_path_crosses_itself_in_loops_and_eights_but_not_at_joints) {
    Path path = {0};
    CrossingList list = {0};
    path_arc(point(0, 0), 100, 0, 360, &path);
    path_self_crossings(&path, &list);
    cr_assert_eq(list.count, 0);
    const Point eight[5] = {{0, 0}, {10, 10}, {10, 0}, {0, 10}, {0, 0}};
    path_polyline(eight, 5, &path);
    path_self_crossings(&path, &list);
    cr_assert_eq(list.count, 1);
    NEAR_POINT(list.items[0].point, 5, 5, 1e-12);
    cr_assert_eq(list.items[0].on_a.index, 0);
    cr_assert_eq(list.items[0].on_b.index, 2);
    path_clear(&path);
    path_add(&path, segment_cubic(point(0, 0), point(100, 60), point(-20, 60), point(80, 0)));
    path_self_crossings(&path, &list);
    cr_assert_eq(list.count, 1);
    NEAR(list.items[0].point.x, 40, 1e-9); // by symmetry
    path_clear(&path);
    path_add(&path, segment_cubic(point(0, 0), point(100, 60), point(-100, 60), point(0, 0)));
    path_self_crossings(&path, &list); // a drop closes, it does not cross
    cr_assert_eq(list.count, 0);
    const Point back[3] = {{0, 0}, {100, 0}, {40, 0}}; // doubles back on itself
    path_polyline(back, 3, &path);
    path_self_crossings(&path, &list);
    cr_assert_eq(list.count, 1);
    NEAR_POINT(list.items[0].point, 40, 0, 1e-9);
    path_finish(&path);
    crossings_finish(&list);
}

Test(crossing, the_meeting_first_along_the_path_is_the_one) {
    Path a = {0}, b = {0};
    Point p = {-1, -1};
    path_line(point(0, 0), point(100, 0), &a);
    path_arc(point(50, 0), 20, 0, 180, &b);
    cr_assert_eq(path_meet(&a, &b, &p), GEOM_OK);
    NEAR_POINT(p, 30, 0, 1e-9);
    path_line(point(0, 5), point(100, 5), &b);
    cr_assert_eq(path_meet(&a, &b, &p), GEOM_NO_MEET);
    NEAR_POINT(p, 30, 0, 1e-9);
    path_finish(&a);
    path_finish(&b);
}

Test(crossing, empty_paths_and_paths_that_are_not_finite_meet_nothing) {
    Path a = {0}, b = {0};
    CrossingList list = {0};
    path_line(point(0, 0), point(100, 0), &a);
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 0);
    path_self_crossings(&b, &list);
    cr_assert_eq(list.count, 0);
    path_line(point(50, -10), point(50, NAN), &b);
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 0);
    path_finish(&a);
    path_finish(&b);
    crossings_finish(&list);
    crossings_finish(&list);
}

Test(crossing, two_zigzags_of_2000_segments_take_no_time) {
    Point pa[2001], pb[2001];
    for (int i = 0; i <= 2000; i++) {
        pa[i] = point(i * 0.5, i % 2 * 5);
        pb[i] = point(i * 0.5 + 0.1, 2.5);
    }
    Path a = {0}, b = {0};
    CrossingList list = {0};
    path_polyline(pa, 2001, &a);
    path_polyline(pb, 2001, &b);
    const double before = seconds();
    path_crossings(&a, &b, &list);
    cr_assert_eq(list.count, 2000);
    cr_assert_lt(seconds() - before, 1);
    path_finish(&a);
    path_finish(&b);
    crossings_finish(&list);
}

Test(crossing, a_scribble_of_2000_lines_ends_in_time) {
    uint64_t seed = 43;
    Point *points = mem_new(sizeof *points * 2001);
    for (int i = 0; i <= 2000; i++)
        points[i] = random_point(&seed, 300);
    Path path = {0};
    CrossingList list = {0};
    path_polyline(points, 2001, &path);
    const double before = seconds();
    path_self_crossings(&path, &list);
    cr_assert_leq(list.count, CROSSINGS_MAX);
    cr_assert_lt(seconds() - before, 20);
    mem_free(points);
    path_finish(&path);
    crossings_finish(&list);
}
