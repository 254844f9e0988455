// Worked values of the bias funnel: plane geometry of a rectangle h x H on a right triangle with legs h.
#include "pattern/piece.h"

#include <criterion/criterion.h>
#include <string.h>

#include "geometry/crossing.h"
#include "pattern/own.h"
#include "sample.h"

Test(piece_fold, the_opened_funnel_has_the_area_of_its_parts) {
    Arena arena = {0};
    const Piece half = sample_half_funnel(&arena, "Front", 140, 100);
    Piece faced, whole;
    cr_assert_eq(piece_unfold(&arena, &half, "top", &faced), PIECE_OK);
    cr_assert_float_eq(piece_area(&faced), 47600, 0.1); // h (2H + h)
    cr_assert_eq(piece_unfold(&arena, &faced, "centre", &whole), PIECE_OK);
    cr_assert_float_eq(piece_area(&whole), 95200, 0.1);
    const Box box = piece_box_along(&whole, 45); // a square of side sqrt2 (h + H)
    cr_assert_float_eq(box.most.x - box.least.x, 339.41, 0.01);
    cr_assert_float_eq(box.most.y - box.least.y, 339.41, 0.01);
    double centre = 0;
    for (int i = 0; i < whole.lines.count; i++)
        if (strcmp(whole.lines.items[i].root, "centre") == 0)
            centre += path_length(&whole.lines.items[i].path);
    cr_assert_float_eq(centre, 480, 0.1); // 2H + 2h
    arena_finish(&arena);
}

Test(piece_fold, names_and_roots_tell_the_twins_apart) {
    Arena arena = {0};
    const Piece whole = sample_funnel(&arena, "Front", 140, 100);
    static const char *const names[] = {"neckline",
                                        "side",
                                        "side over top",
                                        "neckline over top",
                                        "neckline over top over centre",
                                        "side over top over centre",
                                        "side over centre",
                                        "neckline over centre"};
    cr_assert_eq(whole.edges.count, 8);
    for (int i = 0; i < 8; i++) {
        const int edge = piece_find_edge(&whole, names[i]);
        cr_assert_eq(edge, i, "%s", names[i]);
        cr_assert_str_eq(whole.edges.items[edge].root,
                         i == 1 || i == 2 || i == 5 || i == 6 ? "side" : "neckline");
    }
    static const char *const lines[] = {"top", "top over centre", "centre over top", "centre"};
    cr_assert_eq(whole.lines.count, 4);
    for (int i = 0; i < 4; i++)
        cr_assert_not_null(piece_find_path(&whole, lines[i]), "%s", lines[i]);
    const Path *top = piece_find_path(&whole, "top");
    cr_assert_float_eq(path_length(top), 140, 1e-9);
    cr_assert_float_eq(path_first(top).x, 140, 1e-9);
    cr_assert_eq(piece_find_edge(&whole, "top"), -1);
    cr_assert_null(piece_find_path(&whole, "hem"));
    arena_finish(&arena);
}

Test(piece_fold, opened_outlines_are_closed_and_wind_counter_clockwise) {
    Arena arena = {0};
    const Piece whole = sample_funnel(&arena, "Front", 137.3, 81.7);
    for (int i = 0; i < whole.edges.count; i++) {
        const Edge *edge = &whole.edges.items[i], *next = &whole.edges.items[(i + 1) % whole.edges.count];
        const Point a = piece_edge_end(edge, PATH_LAST), b = piece_edge_end(next, PATH_FIRST);
        cr_assert(a.x == b.x && a.y == b.y, "after %s", edge->name);
    }
    cr_assert(piece_is_simple(&whole));
    cr_assert_gt(piece_area(&whole), 0);
    arena_finish(&arena);
}

Test(piece_fold, front_and_back_funnels_of_equal_width_and_height_are_the_same_shape) {
    Arena arena = {0};
    const Piece front = sample_funnel(&arena, "Front", 140, 100),
                back = sample_funnel(&arena, "Back", 140, 100);
    Path a = {0}, b = {0};
    Point on_a, on_b;
    piece_outline(&front, &a);
    piece_outline(&back, &b);
    for (int i = 0; i < a.count; i++)
        cr_assert_lt(path_distance(&b, a.items[i].p0), 0.01);
    cr_assert_lt(path_gap(&a, &b, &on_a, &on_b), 0.01);
    path_finish(&a);
    path_finish(&b);
    arena_finish(&arena);
}

// An outline that is square to its fold has no kink there once it is opened out.
Test(piece_fold, square_edges_open_out_without_a_kink) {
    Arena arena = {0};
    const Piece band = sample_band(&arena, "Facing");
    Piece whole;
    cr_assert_eq(piece_unfold(&arena, &band, "centre", &whole), PIECE_OK);
    int joints = 0;
    for (int i = 0; i < whole.edges.count; i++) {
        const Edge *edge = &whole.edges.items[i], *next = &whole.edges.items[(i + 1) % whole.edges.count];
        if (strcmp(edge->root, next->root) != 0)
            continue;
        cr_assert_float_eq(piece_corner_angle(&whole, i), 180, 2);
        joints++;
    }
    cr_assert_eq(joints, 2);
    double first, last;
    piece_fold_angles(&band, piece_find_edge(&band, "centre"), &first, &last);
    cr_assert_float_eq(first, 90, 1e-6);
    cr_assert_float_eq(last, 90, 1e-6);
    arena_finish(&arena);
}

Test(piece_fold, fold_angles_follow_the_authors_direction) {
    Arena arena = {0};
    const Piece half = sample_half_funnel(&arena, "Front", 140, 100);
    double first, last;
    piece_fold_angles(&half, piece_find_edge(&half, "centre"), &first, &last);
    cr_assert_float_eq(first, 90, 1e-6);
    cr_assert_float_eq(last, 45, 1e-6);
    Piece faced;
    cr_assert_eq(piece_unfold(&arena, &half, "top", &faced), PIECE_OK);
    piece_fold_angles(&faced, piece_find_edge(&faced, "centre"), &first, &last);
    cr_assert_float_eq(first, 45, 1e-6); // its continuation belongs to the fold
    cr_assert_float_eq(last, 45, 1e-6);
    arena_finish(&arena);
}

Test(piece_fold, marks_and_allowances_are_carried_over_the_fold) {
    Arena arena = {0};
    Piece half = sample_half_funnel(&arena, "Front", 140, 100);
    half.edges.items[0].allowance = 6;
    half.edges.items[0].corner = CORNER_SQUARE;
    OWN_ADD(&arena, &half.dots, ((Dot){.kind = DOT_DRILL, .name = "m", .at = {100, 50}}));
    OWN_ADD(&arena, &half.dots, ((Dot){.kind = DOT_PIVOT, .name = "K", .at = {0, -140}}));
    cr_assert_eq(piece_add_notch(&arena, &half, 0, 60, 2, NULL), PIECE_OK);
    cr_assert_eq(piece_add_notch(&arena, &half, piece_find_edge(&half, "centre"), 100, 1, NULL), PIECE_OK);
    Piece whole;
    cr_assert_eq(piece_unfold(&arena, &half, "centre", &whole), PIECE_OK);
    const int twin = piece_find_edge(&whole, "neckline over centre");
    cr_assert_float_eq(whole.edges.items[twin].allowance, 6, 0);
    cr_assert_eq(whole.notches.count, 2);
    cr_assert_eq(whole.notches.items[1].edge, twin);
    cr_assert_float_eq(whole.notches.items[1].at, 60, 0);
    Point mark, mirror;
    cr_assert_eq(path_at(&whole.edges.items[0].path, 60, &mark), GEOM_OK);
    cr_assert_eq(path_at(&whole.edges.items[twin].path, 60, &mirror), GEOM_OK);
    cr_assert_float_eq(mark.x, -mirror.x, 1e-9);
    cr_assert_float_eq(mark.y, mirror.y, 1e-9);
    cr_assert_eq(whole.dots.count, 4); // m, its twin, K on the fold, and the notch that was on the fold
    cr_assert_str_eq(whole.dots.items[1].name, "m over centre");
    cr_assert_float_eq(whole.dots.items[1].at.x, -100, 1e-9);
    // The corner where the neckline meets the side is shaped the same on both halves, sewn in the same order.
    const int side = piece_find_edge(&whole, "side over centre");
    cr_assert_eq(whole.edges.items[side].corner, CORNER_SQUARE);
    cr_assert(whole.edges.items[side].other_first);
    cr_assert_eq(whole.edges.items[twin].corner, CORNER_PLAIN);
    arena_finish(&arena);
}

Test(piece_fold, folds_are_straight_and_on_the_piece) {
    Arena arena = {0};
    const Piece band = sample_band(&arena, "Facing");
    Piece out;
    cr_assert_eq(piece_unfold(&arena, &band, "neckline", &out), PIECE_NOT_STRAIGHT);
    cr_assert_eq(piece_unfold(&arena, &band, "hem", &out), PIECE_NO_EDGE);
    cr_assert_eq(piece_place_on_fold(&arena, &band, "neckline", &out), PIECE_NOT_STRAIGHT);
    cr_assert_eq(piece_place_on_fold(&arena, &band, "hem", &out), PIECE_NO_EDGE);
    cr_assert_eq(piece_place_on_fold(&arena, &band, "centre", &out), PIECE_OK);
    const Edge *centre = &out.edges.items[piece_find_edge(&out, "centre")];
    cr_assert(centre->fold && centre->allowance == 0);
    cr_assert(!band.edges.items[piece_find_edge(&band, "centre")].fold);
    // Edges that lean over the fold would lie on each other once opened out.
    const Piece hook = sample_polygon(
        &arena, "hook", (Point[]){{0, 0}, {100, 0}, {100, 90}, {-40, 90}, {-40, 60}, {0, 60}}, 6);
    cr_assert_eq(piece_unfold(&arena, &hook, "f", &out), PIECE_CROSSES);
    arena_finish(&arena);
}
