#include <criterion/criterion.h>
#include <string.h>

#include "pattern/own.h"
#include "pattern/piece.h"
#include "pattern/grain.h"
#include "sample.h"

// A quarter ring between radii 70 and 130; its neckline facing 25 wide is the ring between 70 and 95 (plane
// geometry).
Test(facing, a_facing_is_the_band_beside_its_edge) {
    Arena arena = {0};
    Piece band = sample_band(&arena, "Front");
    band.edges.items[0].allowance = 6;
    cr_assert_eq(piece_add_notch(&arena, &band, piece_find_edge(&band, "neckline"), 40, 1, NULL), PIECE_OK);
    cr_assert_eq(piece_add_notch(&arena, &band, piece_find_edge(&band, "outer"), 40, 1, NULL), PIECE_OK);
    Piece facing;
    cr_assert_eq(piece_facing(&arena, &band, "neckline", 25, "Neck facing", &facing), PIECE_OK);
    cr_assert_str_eq(facing.name, "Neck facing");
    cr_assert_float_eq(piece_area(&facing), RADIANS(80) / 2 * (95 * 95 - 70 * 70), 0.5);
    cr_assert_eq(facing.edges.count, 4);
    cr_assert_float_eq(path_length(piece_find_path(&facing, "neckline")), RADIANS(80) * 70, 1e-3);
    cr_assert_float_eq(path_length(piece_find_path(&facing, "inner")), RADIANS(80) * 95, 0.02);
    cr_assert_float_eq(path_length(piece_find_path(&facing, "shoulder")), 25, 0.02);
    cr_assert_float_eq(path_length(piece_find_path(&facing, "centre")), 25, 0.02);
    cr_assert_float_eq(facing.edges.items[piece_find_edge(&facing, "inner")].allowance, 0, 0);
    cr_assert_eq(facing.notches.count, 1);
    cr_assert_float_eq(facing.notches.items[0].at, 40, 0);
    cr_assert(piece_is_simple(&facing));
    // Unfolding it over the centre gives the whole facing.
    Piece whole;
    cr_assert_eq(piece_unfold(&arena, &facing, "centre", &whole), PIECE_OK);
    cr_assert_float_eq(piece_area(&whole), 2 * piece_area(&facing), 1e-6);
    arena_finish(&arena);
}

Test(facing, an_opened_neckline_is_faced_as_one) {
    Arena arena = {0};
    const Piece band = sample_band(&arena, "Front");
    Piece whole, facing;
    cr_assert_eq(piece_unfold(&arena, &band, "centre", &whole), PIECE_OK);
    cr_assert_eq(piece_facing(&arena, &whole, "neckline", 25, "Neck facing", &facing), PIECE_OK);
    cr_assert_float_eq(piece_area(&facing), RADIANS(160) / 2 * (95 * 95 - 70 * 70), 1);
    cr_assert_geq(piece_find_edge(&facing, "neckline over centre"), 0);
    arena_finish(&arena);
}

Test(facing, what_has_no_room_is_refused) {
    Arena arena = {0};
    const Piece band = sample_band(&arena, "Front");
    Piece out;
    cr_assert_eq(piece_facing(&arena, &band, "hem", 25, "f", &out), PIECE_NO_EDGE);
    cr_assert_eq(piece_facing(&arena, &band, "neckline", 70, "f", &out), PIECE_NO_ROOM);
    cr_assert_eq(piece_interfacing(&arena, &band, 31, "i", &out), PIECE_NO_ROOM);
    arena_finish(&arena);
}

Test(facing, an_interfacing_is_drawn_in_all_round_but_not_at_the_fold) {
    Arena arena = {0};
    const Piece square = sample_polygon(&arena, "Square", (Point[]){{0, 0}, {100, 0}, {100, 60}, {0, 60}}, 4);
    Piece in;
    cr_assert_eq(piece_interfacing(&arena, &square, 3, "Interfacing", &in), PIECE_OK);
    cr_assert_float_eq(piece_area(&in), 94 * 54, 1e-6);
    cr_assert_str_eq(in.cloth, "interfacing");
    cr_assert_eq(in.edges.count, 4);
    for (int i = 0; i < 4; i++)
        cr_assert_float_eq(in.edges.items[i].allowance, 0, 0);
    Piece placed;
    cr_assert_eq(piece_place_on_fold(&arena, &square, "d", &placed), PIECE_OK);
    cr_assert_eq(piece_interfacing(&arena, &placed, 3, "Interfacing", &in), PIECE_OK);
    cr_assert_float_eq(piece_area(&in), 97 * 54, 1e-6);
    cr_assert(in.edges.items[piece_find_edge(&in, "d")].fold);
    cr_assert_str_eq(in.edges.items[0].name, "a");
    const Piece band = sample_band(&arena, "Front");
    cr_assert_eq(piece_interfacing(&arena, &band, 2, "Interfacing", &in), PIECE_OK);
    const double ring = RADIANS(80) / 2 * (128 * 128 - 72 * 72);
    // Two straight ends 2 mm in: two strips, their corners cut by circles, are missing from the ring.
    cr_assert_float_eq(piece_area(&in), ring - 2 * 2 * 56, 1);
    arena_finish(&arena);
}

Test(facing, an_inset_that_swallows_an_edge_still_gives_a_piece) {
    Arena arena = {0};
    // A nick 2 mm wide in the top: 4 mm in, it is gone and the outline has to be mended.
    const Piece nicked = sample_polygon(
        &arena, "Nicked", (Point[]){{0, 0}, {100, 0}, {100, 60}, {51, 60}, {50, 58}, {49, 60}, {0, 60}}, 7);
    Piece in;
    cr_assert_eq(piece_interfacing(&arena, &nicked, 4, "Interfacing", &in), PIECE_OK);
    cr_assert(piece_is_simple(&in));
    cr_assert_lt(piece_area(&in), 92 * 52 + 1);
    cr_assert_gt(piece_area(&in), 92 * 52 - 40);
    arena_finish(&arena);
}

Test(facing, the_grain_keeps_the_name_of_the_edge_it_was_taken_from) {
    Arena arena = {0};
    Piece half = sample_half_funnel(&arena, "Front", 140, 100), facing, interfacing;
    half.grain_edge = "centre";
    half.grain_angle = 90;
    cr_assert_eq(piece_facing(&arena, &half, "side", 30, "Side facing", &facing), PIECE_OK);
    cr_assert_eq(piece_interfacing(&arena, &half, 10, "Interfacing", &interfacing), PIECE_OK);
    cr_assert_lt(piece_find_edge(&facing, "centre"), 0);
    const Piece *const made[2] = {&facing, &interfacing};
    for (int i = 0; i < 2; i++) {
        Buffer words;
        buffer_init(&words);
        piece_grain_words(made[i], &words);
        cr_assert_str_eq(words.data, "grain along centre");
        buffer_finish(&words);
    }
    arena_finish(&arena);
}
