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

// How near the line comes to the outline, mm.
static double clearance(const Piece *piece) {
    Point from, to;
    Path outline = {0};
    cr_assert(piece_grain_line(piece, &from, &to));
    piece_outline(piece, &outline);
    double least = INFINITY;
    for (int i = 0; i <= 200; i++) {
        const Point at = point_mix(from, to, i / 200.0);
        cr_assert(path_contains(&outline, at));
        least = fmin(least, path_distance(&outline, at));
    }
    path_finish(&outline);
    return least;
}

// Collars of every roundness and width, the grain at every angle.
Test(grain, the_line_stays_five_mm_clear_of_the_edge_or_less_on_narrow_pieces_but_inside) {
    for (double sweep = 40; sweep <= 320; sweep += 40)
        for (double width = 6; width <= 120; width *= 2)
            for (double angle = -90; angle < 90; angle += 15) {
                Arena arena = {0};
                Path inner = {0}, outer = {0}, ends[2] = {{0}, {0}};
                const double start = 270 - sweep / 2;
                cr_assert_eq(path_arc(point(0, 0), 70, start, sweep, &inner), GEOM_OK);
                cr_assert_eq(path_arc(point(0, 0), 70 + width, start, sweep, &outer), GEOM_OK);
                path_line(path_first(&inner), path_first(&outer), &ends[0]);
                path_line(path_last(&inner), path_last(&outer), &ends[1]);
                const NamedPath edges[4] = {
                    {"neck", &inner}, {"left", &ends[0]}, {"outer", &outer}, {"right", &ends[1]}};
                Piece piece;
                double gap;
                int at;
                cr_assert_eq(piece_trace(&arena, "Collar", edges, 4, &piece, &gap, &at), PIECE_OK);
                piece.grain = GRAIN_ANGLE;
                piece.grain_angle = angle;
                const double clear = clearance(&piece);
                cr_assert_gt(clear, width < 20 ? 0.2 - 1e-9 : 1.3);
                cr_assert(width < 40 || clear >= 4.8, "sweep %g width %g angle %g: %g mm", sweep, width,
                          angle, clear);
                path_finish(&inner);
                path_finish(&outer);
                path_finish(&ends[0]);
                path_finish(&ends[1]);
                arena_finish(&arena);
            }
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
    cr_expect(piece_is_true_bias(&funnel));
    check_words(&funnel, "grain along neckline"); // the arrow lies along it, and is no bias
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
