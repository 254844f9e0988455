#include "pattern/grain.h"

#include <criterion/criterion.h>

#include "sample.h"

static void check_line(const Piece *piece, double least) {
    Point from, to;
    Path outline = {0};
    cr_assert(piece_grain_line(piece, &from, &to));
    piece_outline(piece, &outline);
    for (int i = 0; i <= 20; i++)
        cr_assert(path_contains(&outline, point_mix(from, to, i / 20.0)));
    cr_assert_float_eq(point_angle(point_sub(to, from)), piece->grain_angle, 1e-6);
    cr_assert_geq(point_distance(from, to), least);
    path_finish(&outline);
}

Test(grain, the_line_runs_with_the_grain_inside_the_piece) {
    Arena arena = {0};
    const Piece funnel = sample_funnel(&arena, "Front", 140, 100);
    check_line(&funnel, 339.4 / 2);
    Piece half = sample_half_funnel(&arena, "Half", 140, 100);
    check_line(&half, 100);
    half.grain_angle = 90;
    check_line(&half, 120);
    Piece ring = sample_band(&arena, "Ring");
    Piece whole;
    cr_assert_eq(piece_unfold(&arena, &ring, "centre", &whole), PIECE_OK);
    check_line(&whole, 40);
    whole.grain_angle = 0;
    check_line(&whole, 90);
    whole.grain = GRAIN_NONE;
    Point from, to;
    cr_assert(!piece_grain_line(&whole, &from, &to));
    arena_finish(&arena);
}

Test(grain, true_bias_is_45_degrees_to_the_fold_within_half_a_degree) {
    Arena arena = {0};
    Piece funnel = sample_funnel(&arena, "Front", 140, 100);
    cr_assert(piece_is_true_bias(&funnel));
    funnel.grain_angle = 45.4;
    cr_assert(piece_is_true_bias(&funnel));
    funnel.grain_angle = -45;
    cr_assert(piece_is_true_bias(&funnel));
    funnel.grain_angle = 135.2;
    cr_assert(piece_is_true_bias(&funnel));
    funnel.grain_angle = 44.4;
    cr_assert(!piece_is_true_bias(&funnel));
    funnel.grain_angle = 90;
    cr_assert(!piece_is_true_bias(&funnel));
    // Without fold or centre it is what it was asked for.
    Piece strip = sample_polygon(&arena, "Strip", (Point[]){{0, 0}, {300, 0}, {300, 40}, {0, 40}}, 4);
    strip.grain = GRAIN_ANGLE;
    strip.grain_angle = 45;
    cr_assert(!piece_is_true_bias(&strip));
    strip.grain = GRAIN_BIAS;
    cr_assert(piece_is_true_bias(&strip));
    arena_finish(&arena);
}

static void check_words(const Piece *piece, const char *wanted) {
    Buffer words;
    buffer_init(&words);
    piece_grain_words(piece, &words);
    cr_assert_str_eq(words.data, wanted);
    buffer_finish(&words);
}

Test(grain, its_words_say_how_to_lay_the_piece) {
    Arena arena = {0};
    Piece funnel = sample_funnel(&arena, "Front", 140, 100);
    check_words(&funnel, "true bias, grain along neckline");
    funnel.grain_angle = 90;
    check_words(&funnel, "grain along neckline");
    funnel.grain = GRAIN_ACROSS;
    check_words(&funnel, "grain across neckline");
    funnel.grain = GRAIN_ANGLE;
    check_words(&funnel, "grain along the arrow");
    funnel.grain = GRAIN_BIAS;
    check_words(&funnel, "bias to neckline");
    funnel.grain = GRAIN_NONE;
    check_words(&funnel, "no grain given");
    arena_finish(&arena);
}
