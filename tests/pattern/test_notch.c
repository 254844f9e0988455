#include <criterion/criterion.h>

#include "pattern/piece.h"
#include "sample.h"

Test(notch, groups_are_six_millimetres_apart_and_square_to_the_seam) {
    Arena arena = {0};
    Piece half = sample_half_funnel(&arena, "Front", 140, 100);
    Point on[NOTCH_COUNT_MAX], out[NOTCH_COUNT_MAX];
    for (int count = 1; count <= NOTCH_COUNT_MAX; count++) {
        cr_assert_eq(piece_add_notch(&arena, &half, 0, 90, count, NULL), PIECE_OK);
        const Notch *notch = &half.notches.items[count - 1];
        cr_assert_eq(piece_notch_places(&half, notch, on, out), count);
        Point middle = point(0, 0);
        for (int i = 0; i < count; i++) {
            middle = point_add(middle, point_scale(on[i], 1.0 / count));
            // The neckline climbs at 45 degrees; away from the piece is to its right.
            cr_assert_float_eq(out[i].x, sqrt(0.5), 1e-9);
            cr_assert_float_eq(out[i].y, -sqrt(0.5), 1e-9);
            if (i > 0)
                cr_assert_float_eq(point_distance(on[i - 1], on[i]), 6, 1e-6);
        }
        cr_assert_float_eq(point_distance(middle, path_first(&half.edges.items[0].path)), 90, 1e-6);
    }
    arena_finish(&arena);
}

Test(notch, outward_is_away_from_the_piece_on_edges_against_the_outline) {
    Arena arena = {0};
    Piece whole = sample_funnel(&arena, "Front", 140, 100);
    Path outline = {0};
    piece_outline(&whole, &outline);
    for (int edge = 0; edge < whole.edges.count; edge++) {
        cr_assert_eq(piece_add_notch(&arena, &whole, edge, 40, 2, NULL), PIECE_OK);
        Point on[NOTCH_COUNT_MAX], out[NOTCH_COUNT_MAX];
        piece_notch_places(&whole, &whole.notches.items[edge], on, out);
        for (int i = 0; i < 2; i++) {
            cr_assert(!path_contains(&outline, point_add(on[i], point_scale(out[i], 2))));
            cr_assert(path_contains(&outline, point_sub(on[i], point_scale(out[i], 2))));
        }
    }
    path_finish(&outline);
    arena_finish(&arena);
}

Test(notch, a_notch_lies_on_its_edge) {
    Arena arena = {0};
    Piece half = sample_half_funnel(&arena, "Front", 140, 100);
    const int side = piece_find_edge(&half, "side");
    cr_assert_eq(piece_add_notch(&arena, &half, side, 100.5, 1, NULL), PIECE_OFF_EDGE);
    cr_assert_eq(piece_add_notch(&arena, &half, side, -100.5, 1, NULL), PIECE_OFF_EDGE);
    cr_assert_eq(piece_add_notch(&arena, &half, side, NAN, 1, NULL), PIECE_OFF_EDGE);
    cr_assert_eq(half.notches.count, 0);
    cr_assert_eq(piece_add_notch(&arena, &half, side, -30, 1, "side seam"), PIECE_OK);
    cr_assert_float_eq(half.notches.items[0].at, 70, 1e-9);
    cr_assert_eq(piece_add_notch(&arena, &half, side, 70, 1, "side seam"), PIECE_OK);
    cr_assert_eq(half.notches.count, 1); // once
    arena_finish(&arena);
}

Test(notch, a_group_near_an_end_stays_on_its_edge) {
    Arena arena = {0};
    Piece half = sample_half_funnel(&arena, "Front", 140, 100);
    const int side = piece_find_edge(&half, "side");
    cr_assert_eq(piece_add_notch(&arena, &half, side, 0, 3, NULL), PIECE_OK);
    Point on[NOTCH_COUNT_MAX], out[NOTCH_COUNT_MAX];
    piece_notch_places(&half, &half.notches.items[0], on, out);
    cr_assert_float_eq(on[0].y, 0, 1e-9);
    cr_assert_float_eq(on[2].y, 12, 1e-6);
    arena_finish(&arena);
}
