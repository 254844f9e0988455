// Cut lines: plane geometry.
#include "pattern/allowance.h"

#include <criterion/criterion.h>
#include <stdlib.h>

#include "base/memory.h"
#include "geometry/crossing.h"
#include "geometry/hobby.h"
#include "sample.h"

static bool is_simple(const Path *path) {
    CrossingList crossings = {0};
    path_self_crossings(path, &crossings);
    const bool simple = crossings.count == 0;
    crossings_finish(&crossings);
    return simple;
}

Test(allowance, a_fold_has_none_and_its_corners_stay_on_the_fold) {
    Arena arena = {0};
    const Piece half = sample_half_funnel(&arena, "Front", 140, 100);
    Piece placed;
    cr_assert_eq(piece_place_on_fold(&arena, &half, "centre", &placed), PIECE_OK);
    Path cut = {0};
    cr_assert_eq(piece_cut_outline(&placed, &cut), GEOM_OK);
    const Box box = path_box(&cut);
    cr_assert_float_eq(box.least.x, 0, 1e-9);
    cr_assert_float_eq(box.least.y, -140 - 10 * sqrt(2), 1e-6); // the neckline's allowance meets the fold
    cr_assert_float_eq(box.most.x, 150, 1e-6);
    cr_assert_float_eq(box.most.y, 110, 1e-6);
    path_finish(&cut);
    // Opened out instead, the half of the cut line on this side is the same.
    Piece whole;
    cr_assert_eq(piece_unfold(&arena, &half, "centre", &whole), PIECE_OK);
    cr_assert_eq(piece_cut_outline(&whole, &cut), GEOM_OK);
    Path cut_half = {0};
    cr_assert_eq(piece_cut_outline(&placed, &cut_half), GEOM_OK);
    cr_assert_float_eq(path_area(&cut), 2 * path_area(&cut_half), 1e-3);
    path_finish(&cut);
    path_finish(&cut_half);
    arena_finish(&arena);
}

Test(allowance, widths_may_differ_from_edge_to_edge_even_where_edges_run_on) {
    Arena arena = {0};
    // The bottom is two edges in line, then one that bends by two degrees only.
    Piece piece = sample_polygon(&arena, "strip",
                                 (Point[]){{0, 0}, {100, 0}, {200, 0}, {300, 10.5}, {300, 90}, {0, 90}}, 6);
    const double widths[3][6] = {{10, 10, 10, 10, 10, 10}, {10, 25, 10, 6, 10, 10}, {6, 15, 25, 0, 10, 20}};
    for (int w = 0; w < 3; w++) {
        for (int i = 0; i < 6; i++)
            piece.edges.items[i].allowance = widths[w][i];
        Path cut = {0};
        cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
        cr_assert(is_simple(&cut));
        const Box box = path_box(&cut);
        cr_assert_gt(box.least.x, -60);
        cr_assert_lt(box.most.x, 360);
        cr_assert_gt(box.least.y, -60);
        // Each edge has its full width at its middle.
        for (int i = 0; i < 6; i++) {
            const Point middle = segment_point(&piece.edges.items[i].path.items[0], 0.5);
            cr_assert_float_eq(path_distance(&cut, middle), widths[w][i], 1e-3, "widths %d edge %d", w, i);
        }
        path_finish(&cut);
    }
    arena_finish(&arena);
}

Test(allowance, tight_hollows_keep_the_cut_line_simple) {
    Arena arena = {0};
    // A keyhole: a slot 6 mm wide that ends in a hollow of radius 3, with 10 mm of allowance.
    Path hollow = {0}, left = {0}, right = {0}, top_left = {0}, rest = {0};
    cr_assert_eq(path_arc(point(0, 0), 3, 180, 180, &hollow), GEOM_OK);
    path_line(point(-3, 60), point(-3, 0), &left);
    path_line(point(3, 0), point(3, 60), &right);
    path_line(point(3, 60), point(80, 60), &top_left);
    cr_assert_eq(path_polyline((Point[]){{80, 60}, {80, -50}, {-80, -50}, {-80, 60}, {-3, 60}}, 5, &rest),
                 GEOM_OK);
    const NamedPath edges[5] = {
        {"left", &left}, {"hollow", &hollow}, {"right", &right}, {"top", &top_left}, {"rest", &rest}};
    Piece piece;
    double gap;
    int at;
    cr_assert_eq(piece_trace(&arena, "keyhole", edges, 5, &piece, &gap, &at), PIECE_OK);
    Path cut = {0};
    cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
    cr_assert(is_simple(&cut));
    cr_assert_float_eq(path_area(&cut), 180 * 130,
                       0.5); // the slot is filled: a plain rectangle 10 mm larger all round
    path_finish(&cut);
    path_finish(&hollow);
    path_finish(&left);
    path_finish(&right);
    path_finish(&top_left);
    path_finish(&rest);
    arena_finish(&arena);
}

// The back neck facing of a close neckline: the last centimetre at the shoulder bends with a radius of 5.6
// mm, less than the allowance of 10 mm, so that its parallel ends turned back.
Test(allowance, an_edge_that_bends_sharply_at_its_end_leaves_no_spur) {
    Arena arena = {0};
    const Point shoulder = point(74.312, -2.0151);
    Path neck = {0}, centre = {0}, rest = {0};
    ARRAY_ADD(&neck, segment_cubic(point(0, -17), point(39.7992, -17), point(69.2636, -9.8012), shoulder));
    path_line(point(0, -17), point(0, -77), &centre);
    cr_assert_eq(path_polyline((Point[]){{0, -77}, {115, -77}, {129.874, -24.6626}, shoulder}, 4, &rest),
                 GEOM_OK);
    const NamedPath edges[3] = {{"neck", &neck}, {"centre", &centre}, {"rest", &rest}};
    Piece piece;
    double gap;
    int at;
    cr_assert_eq(piece_trace(&arena, "facing", edges, 3, &piece, &gap, &at), PIECE_OK);
    Path cut = {0};
    cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
    cr_assert(is_simple(&cut));
    for (int i = 0; i < cut.count; i++) {
        const Segment *next = &cut.items[(i + 1) % cut.count];
        const double turn = point_turn(segment_direction(&cut.items[i], 1), segment_direction(next, 0));
        cr_assert_lt(fabs(turn), 130, "a turn of %.0f degrees at %.2f, %.2f", turn, next->p0.x, next->p0.y);
    }
    // No place of the cut line is nearer to the seam than the allowance, and the corner is there to its tip.
    for (double d = 0; d < path_length(&cut); d += 0.5) {
        Point on;
        cr_assert_eq(path_at(&cut, d, &on), GEOM_OK);
        cr_assert_gt(path_distance(&neck, on), 9.9);
    }
    cr_assert_lt(path_distance(&cut, point(70.42, 10.37)), 0.1);
    path_finish(&cut);
    path_finish(&neck);
    path_finish(&centre);
    path_finish(&rest);
    arena_finish(&arena);
}

// A random outline round a centre, some of it curved; nothing for a shape that crosses itself.
static bool random_piece(Arena *arena, unsigned seed, Piece *out) {
    srand(seed);
    const int count = 3 + rand() % 6;
    Point corners[8];
    for (int i = 0; i < count; i++)
        corners[i] = point_polar(point(0, 0), 360.0 * i / count + rand() % 25, 40 + rand() % 160);
    Path paths[8] = {0};
    NamedPath edges[8];
    static const char *const names[] = {"a", "b", "c", "d", "e", "f", "g", "h"};
    for (int i = 0; i < count; i++) {
        const Point from = corners[i], to = corners[(i + 1) % count];
        if (rand() % 2) {
            path_line(from, to, &paths[i]);
        } else {
            const double way = point_angle(point_sub(to, from));
            const Knot knots[2] = {{.at = from, .has_leave = true, .leave = way + rand() % 100 - 50},
                                   {.at = to, .has_arrive = true, .arrive = way + rand() % 100 - 50}};
            cr_assert_eq(path_through(knots, 2, false, &paths[i]), GEOM_OK);
        }
        edges[i] = (NamedPath){names[i], &paths[i]};
    }
    double gap;
    int at;
    const bool traced = piece_trace(arena, "random", edges, count, out, &gap, &at) == PIECE_OK;
    for (int i = 0; i < count; i++)
        path_finish(&paths[i]);
    for (int i = 0; traced && i < out->edges.count; i++) {
        static const double widths[] = {6, 10, 10, 10, 15, 20};
        out->edges.items[i].allowance = widths[rand() % 6];
        out->edges.items[i].corner = (CornerStyle)(rand() % 4);
        out->edges.items[i].other_first = rand() % 2;
    }
    return traced;
}

Test(allowance, cut_lines_of_random_outlines_are_simple_and_contain_the_seam) {
    int made = 0;
    for (unsigned seed = 1; seed <= 600; seed++) {
        Arena arena = {0};
        Piece piece;
        if (random_piece(&arena, seed, &piece)) {
            Path cut = {0}, outline = {0};
            cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK, "seed %u", seed);
            cr_assert(is_simple(&cut), "seed %u", seed);
            piece_outline(&piece, &outline);
            Point *points;
            int count;
            path_flatten(&outline, 0.05, &points, &count);
            for (int i = 0; i < count; i++)
                cr_assert(path_contains(&cut, points[i]), "seed %u", seed);
            mem_free(points);
            cr_assert_gt(path_area(&cut), path_area(&outline));
            path_finish(&cut);
            path_finish(&outline);
            made++;
        }
        arena_finish(&arena);
    }
    cr_assert_gt(made, 300);
}
