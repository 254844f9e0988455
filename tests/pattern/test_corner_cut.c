// Corner values: plane geometry, worked by hand. T64: 10 mm on both edges at 60 degrees, plain 17.3, square
// 11.5, reflected 5.8 mm. T65: at 120 degrees 5.8, 11.5, 17.3 mm; the tip of a right angle is 14.1 mm away.
#include "pattern/corner_cut.h"

#include <criterion/criterion.h>

#include "geometry/crossing.h"
#include "pattern/allowance.h"
#include "sample.h"

// T64 and T65, and the angles between.
Test(corner_cut, corner_runs_are_those_of_the_table) {
    const double alphas[5] = {60, 75, 90, 105, 120};
    const double plain[5] = {17.3, 13.0, 10.0, 7.7, 5.8};
    const double square[5] = {11.5, 10.4, 10.0, 10.4, 11.5};
    const double reflected[5] = {5.8, 7.7, 10.0, 13.0, 17.3};
    for (int i = 0; i < 5; i++) {
        cr_assert_float_eq(allowance_run(CORNER_PLAIN, 10, 10, alphas[i]), plain[i], 0.1);
        cr_assert_float_eq(allowance_run(CORNER_SQUARE, 10, 10, alphas[i]), square[i], 0.1);
        cr_assert_float_eq(allowance_run(CORNER_REFLECTED, 10, 10, alphas[i]), reflected[i], 0.1);
    }
}

static int find_corner(const Path *cut, Point near) {
    int best = 0;
    for (int i = 1; i < cut->count; i++)
        if (point_distance(cut->items[i].p0, near) < point_distance(cut->items[best].p0, near))
            best = i;
    return best;
}

static bool is_simple(const Path *path) {
    CrossingList crossings = {0};
    path_self_crossings(path, &crossings);
    const bool simple = crossings.count == 0;
    crossings_finish(&crossings);
    return simple;
}

// The edge "a" runs to the right along y = 0 and ends at (200, 0), where "b" leaves at the interior angle
// alpha.
static Piece wedge(Arena *arena, double alpha, double a, double b, CornerStyle style) {
    const Point corner = point(200, 0), up = point_polar(corner, 180 - alpha, 150);
    Piece piece = sample_polygon(arena, "wedge", (Point[]){{0, 0}, corner, up, {0, 160}}, 4);
    for (int i = 0; i < 4; i++)
        piece.edges.items[i].allowance = 10;
    piece.edges.items[0].allowance = a;
    piece.edges.items[1].allowance = b;
    piece.edges.items[0].corner = style;
    return piece;
}

// Plain corners and their formula, for angles and widths that differ.
Test(corner_cut, plain_square_and_reflected_corners_end_where_the_formula_says) {
    Arena arena = {0};
    const CornerStyle styles[3] = {CORNER_PLAIN, CORNER_SQUARE, CORNER_REFLECTED};
    for (double alpha = 50; alpha <= 130; alpha += 5) {
        for (int s = 0; s < 3; s++) {
            for (int w = 0; w < 2; w++) {
                const double a = w == 0 ? 10 : 8, b = w == 0 ? 10 : 12;
                const Piece piece = wedge(&arena, alpha, a, b, styles[s]);
                const double run = allowance_run(styles[s], a, b, alpha);
                Path cut = {0};
                cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
                const Point wanted = point(200 + run, -a);
                const Point found = cut.items[find_corner(&cut, wanted)].p0;
                cr_assert_lt(point_distance(found, wanted), 1e-6, "alpha %g style %d", alpha, s);
                cr_assert(is_simple(&cut));
                path_finish(&cut);
            }
        }
    }
    arena_finish(&arena);
}

// Folding the paper on the seam line of A must lay the end of its allowance on the cut line of B.
Test(corner_cut, a_reflected_corner_lies_on_the_other_cut_line_once_pressed) {
    Arena arena = {0};
    for (double alpha = 50; alpha <= 130; alpha += 10) {
        const Piece piece = wedge(&arena, alpha, 10, 10, CORNER_REFLECTED);
        Path cut = {0};
        cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
        const double run = allowance_run(CORNER_REFLECTED, 10, 10, alpha);
        const Point folded = point(200 + run, 10);
        const Point along = point_polar(point(0, 0), 180 - alpha, 1);
        const double off = point_cross(along, point_sub(point(200, 0), folded));
        cr_assert_float_eq(fabs(off), 10, 1e-6);
        path_finish(&cut);
    }
    arena_finish(&arena);
}

Test(corner_cut, the_other_edge_can_be_the_one_sewn_first) {
    Arena arena = {0};
    Piece piece = wedge(&arena, 70, 10, 10, CORNER_SQUARE);
    piece.edges.items[0].other_first = true;
    Path cut = {0};
    cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
    // b runs up at 110 degrees from (200, 0); its cut line ends b / sin(alpha) before the corner, seen along
    // it.
    const Point along = point_polar(point(0, 0), 110, 1);
    const Point wanted =
        point_add(point(200, 0), point_sub(point_scale(point_right(along), 10),
                                           point_scale(along, allowance_run(CORNER_SQUARE, 10, 10, 70))));
    cr_assert_lt(point_distance(cut.items[find_corner(&cut, wanted)].p0, wanted), 1e-6);
    cr_assert(is_simple(&cut));
    path_finish(&cut);
    arena_finish(&arena);
}

// T65: 10 mm times the root of 2.
Test(corner_cut, a_right_angle_has_its_tip_where_pythagoras_puts_it) {
    Arena arena = {0};
    const Piece piece = wedge(&arena, 90, 10, 10, CORNER_PLAIN);
    Path cut = {0};
    cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
    const Point tip = cut.items[find_corner(&cut, point(210, -10))].p0;
    cr_assert_float_eq(point_distance(tip, point(200, 0)), 14.1, 0.1);
    path_finish(&cut);
    arena_finish(&arena);
}

Test(corner_cut, a_bevel_cuts_the_tip_at_one_and_a_half_allowances) {
    Arena arena = {0};
    const Piece piece = wedge(&arena, 45, 10, 10, CORNER_BEVEL);
    Path cut = {0};
    cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
    const Point toward = point_polar(point(0, 0), -22.5, 1); // away from the piece, halfway between the edges
    double reach = 0;
    for (int i = 0; i < cut.count; i++)
        reach = fmax(reach, point_dot(point_sub(cut.items[i].p0, point(200, 0)), toward));
    cr_assert_float_eq(reach, 15, 1e-6);
    cr_assert(is_simple(&cut));
    path_finish(&cut);
    arena_finish(&arena);
}

// Its reach is 10 / sin(alpha / 2): 26.1 mm at 45 degrees, 38.6 mm at 30, and 44.2 mm at 26, which is cut
// at 25.
Test(corner_cut, a_plain_corner_sharper_than_30_degrees_is_bevelled_at_two_and_a_half_allowances) {
    static const struct {
        double alpha, reach;
    } corners[] = {{60, 20}, {45, 26.131}, {30, 38.637}, {29, 25}, {26, 25}, {10, 25}};
    for (size_t i = 0; i < sizeof corners / sizeof corners[0]; i++) {
        Arena arena = {0};
        const double alpha = corners[i].alpha;
        const Piece piece = sample_polygon(
            &arena, "point", (Point[]){{0, 0}, {200, 0}, point_polar(point(200, 0), 180 - alpha, 200)}, 3);
        Path cut = {0};
        cr_assert_eq(piece_cut_outline(&piece, &cut), GEOM_OK);
        const Point toward = point_polar(point(0, 0), -alpha / 2, 1);
        double reach = 0;
        for (int k = 0; k < cut.count; k++)
            reach = fmax(reach, point_dot(point_sub(cut.items[k].p0, point(200, 0)), toward));
        cr_assert_float_eq(reach, corners[i].reach, 1e-3, "%g degrees: %g", alpha, reach);
        cr_assert(is_simple(&cut));
        path_finish(&cut);
        arena_finish(&arena);
    }
}
