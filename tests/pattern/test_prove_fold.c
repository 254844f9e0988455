#include "pattern/prove.h"

#include <criterion/criterion.h>
#include <string.h>

#include "sample.h"

// A half piece whose top meets the centre (x = 0) at the angle 90 + off.
static void leaning(Pattern *pattern, double off, bool placed) {
    pattern_init(pattern);
    const double rise = 100 * tan(RADIANS(off));
    const Piece half =
        sample_polygon(&pattern->arena, "Front", (Point[]){{0, 0}, {100, 0}, {100, 90 + rise}, {0, 90}}, 4);
    Piece made;
    if (placed)
        cr_assert_eq(piece_place_on_fold(&pattern->arena, &half, "d", &made), PIECE_OK);
    else
        cr_assert_eq(piece_unfold(&pattern->arena, &half, "d", &made), PIECE_OK);
    pattern_add_piece(pattern, &made);
}

Test(prove_fold, edges_at_a_fold_are_square_or_meant_as_corners) {
    for (int placed = 0; placed < 2; placed++) {
        Pattern pattern;
        leaning(&pattern, 0.5, placed);
        prove_again(&pattern);
        cr_assert(proof_found(&pattern, "fold: Front, d")->holds);
        pattern_finish(&pattern);

        leaning(&pattern, 3, placed);
        prove_again(&pattern);
        const Proof *dip = proof_found(&pattern, "fold: Front, d");
        cr_assert(!dip->holds);
        cr_assert_float_eq(dip->found, 93, 1e-6);
        cr_assert_float_eq(dip->wanted, 90, 0);
        cr_assert_not_null(strstr(dip->way_out, "c will show a dip when d is opened out"));
        pattern_finish(&pattern);

        leaning(&pattern, -3, placed);
        prove_again(&pattern);
        cr_assert_not_null(strstr(proof_found(&pattern, "fold: Front, d")->way_out, "peak"));
        pattern_finish(&pattern);

        leaning(&pattern, -30, placed);
        prove_again(&pattern);
        cr_assert(proof_found(&pattern, "fold: Front, d")->holds); // the bottom is square
        const Proof *corner = proof_found(&pattern, "corner on the fold: Front, d at c");
        cr_assert(corner->holds);
        cr_assert_float_eq(corner->found, 60, 1e-6);
        pattern_finish(&pattern);
    }
}

// P7: opened out, an outline shows no kink above 2 degrees at the fold: each half may be off square by one
// degree at most. Stricter here.
Test(prove_fold, no_kink_above_two_degrees_holds) {
    for (int placed = 0; placed < 2; placed++)
        for (double kink = -6; kink <= 6; kink += 0.25) {
            Pattern pattern;
            leaning(&pattern, kink / 2, placed);
            prove_again(&pattern);
            const bool holds = proof_found(&pattern, "fold: Front, d")->holds;
            cr_assert(fabs(kink) <= 2 || !holds, "a kink of %g degrees", kink);
            cr_assert(fabs(kink) > 1 || holds, "a kink of %g degrees", kink);
            pattern_finish(&pattern);
        }
}
