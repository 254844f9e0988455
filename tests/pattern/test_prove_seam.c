#include "pattern/prove.h"

#include <criterion/criterion.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/seam.h"
#include "sample.h"

// P2: a neck edge and its neckline differ by the ease stated, within the tolerance.
Test(prove_seam, a_seam_that_does_not_fit_says_by_how_much_and_where) {
    Pattern pattern;
    sample_pattern(&pattern);
    Piece longer = sample_funnel(&pattern.arena, "Back funnel", 140, 103);
    longer.draft = -1;
    pattern.pieces.items[1] = longer;
    pattern.pieces.items[0].notches.count = 0;
    prove_again(&pattern);
    const Proof *seam = proof_found(&pattern, "seam: left side");
    cr_assert(!seam->holds);
    cr_assert_float_eq(seam->found - seam->wanted, -3, 1e-9);
    cr_assert_float_eq(seam->tolerance, 1, 0);
    cr_assert_not_null(
        strstr(seam->way_out, "side of Back funnel is 3.0 mm too long for side of Front funnel"));
    cr_assert_not_null(strstr(seam->way_out, "state 3.0 mm of ease on Back funnel"));
    Buffer said;
    buffer_init(&said);
    proof_sentence(&pattern, seam, &said);
    cr_assert_not_null(strstr(
        said.data, "seam: left side: 10.0 cm on 10.3 cm, no ease meant, off by 3.0 mm (1 mm allowed): "));
    pattern.seams.items[0].ease = -3;
    prove_again(&pattern);
    buffer_clear(&said);
    proof_sentence(&pattern, proof_found(&pattern, "seam: left side"), &said);
    cr_assert_str_eq(said.data,
                     "seam: left side: 10.0 cm on 10.3 cm, -3.0 mm of ease meant, off by 0.0 mm (1 mm "
                     "allowed)");
    buffer_finish(&said);
    cr_assert(proof_found(&pattern, "seam: left side")->holds);
    cr_assert(!pattern_holds(&pattern)); // the right side
    pattern_finish(&pattern);
}

Test(prove_seam, allowances_of_a_seam_are_equal_all_along) {
    Pattern pattern;
    sample_pattern(&pattern);
    Piece *back = &pattern.pieces.items[1];
    back->edges.items[piece_find_edge(back, "side")].allowance = 6;
    prove_again(&pattern);
    const Proof *proof = proof_found(&pattern, "allowance: left side");
    cr_assert(!proof->holds);
    cr_assert_float_eq(proof->found, 10, 0);
    cr_assert_float_eq(proof->wanted, 6, 0);
    cr_assert_not_null(strstr(proof->way_out, "side of Back funnel has 6.0 mm"));
    cr_assert(proof_found(&pattern, "allowance: right side")->holds);
    pattern_finish(&pattern);
}

// Two pieces against one: only the second of them has another allowance.
Test(prove_seam, allowances_are_compared_stretch_by_stretch) {
    Pattern pattern;
    pattern_init(&pattern);
    const Piece one =
        sample_polygon(&pattern.arena, "Left", (Point[]){{0, 0}, {100, 0}, {100, 80}, {0, 80}}, 4);
    const Piece two =
        sample_polygon(&pattern.arena, "Right", (Point[]){{0, 0}, {80, 0}, {80, 80}, {0, 80}}, 4);
    const Piece three =
        sample_polygon(&pattern.arena, "Band", (Point[]){{0, 0}, {180, 0}, {180, 50}, {0, 50}}, 4);
    pattern_add_piece(&pattern, &one);
    pattern_add_piece(&pattern, &two);
    pattern_add_piece(&pattern, &three);
    Seam seam = {.name = "band", .step = -1, .tolerance = 1};
    ARRAY_ADD(&seam.a, ((SeamEdge){.piece = 2, .edge = 0}));
    ARRAY_ADD(&seam.b, ((SeamEdge){.piece = 0, .edge = 2, .backward = true}));
    ARRAY_ADD(&seam.b, ((SeamEdge){.piece = 1, .edge = 2, .backward = true}));
    ARRAY_ADD(&pattern.seams, seam);
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "allowance: band")->holds);
    pattern.pieces.items[1].edges.items[2].allowance = 15;
    prove_again(&pattern);
    cr_assert(!proof_found(&pattern, "allowance: band")->holds);
    cr_assert_float_eq(proof_found(&pattern, "allowance: band")->wanted, 15, 0);
    pattern_finish(&pattern);
}

// P10: the notches of a pair lie equally far from the matched end, within 0.1 mm.
Test(prove_seam, a_notch_without_a_partner_is_found) {
    Pattern pattern;
    sample_pattern(&pattern);
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "notches: left side")->holds);
    pattern.pieces.items[1].notches.items[0].at += 2;
    prove_again(&pattern);
    const Proof *proof = proof_found(&pattern, "notches: left side");
    cr_assert(!proof->holds);
    cr_assert_float_eq(proof->found, 2, 1e-9);
    pattern.pieces.items[1].notches.items[0].at -= 1.91;
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "notches: left side")->holds);
    pattern.pieces.items[1].notches.items[0].at += 0.02;
    prove_again(&pattern);
    cr_assert(!proof_found(&pattern, "notches: left side")->holds);
    pattern_finish(&pattern);
}

// The twin of an edge was notched with it before it got a seam of its own: that notch is a partner like any
// other.
Test(prove_seam, a_notch_of_another_seam_can_be_the_partner) {
    Pattern pattern;
    sample_pattern(&pattern);
    Piece *back = &pattern.pieces.items[1];
    piece_add_notch(&pattern.arena, back, piece_find_edge(back, "side over centre"), 50, 1, "left side");
    cr_assert_eq(seam_notch(&pattern, 1, 50, 1), GEOM_OK);
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "notches: right side")->holds);
    pattern_finish(&pattern);
}

Test(prove_seam, a_joint_stands_for_a_single_notch) {
    Pattern pattern;
    pattern_init(&pattern);
    const Piece one =
        sample_polygon(&pattern.arena, "Left", (Point[]){{0, 0}, {100, 0}, {100, 80}, {0, 80}}, 4);
    const Piece band =
        sample_polygon(&pattern.arena, "Band", (Point[]){{0, 0}, {200, 0}, {200, 50}, {0, 50}}, 4);
    Piece other = one;
    other.name = "Right";
    pattern_add_piece(&pattern, &one);
    pattern_add_piece(&pattern, &other);
    pattern_add_piece(&pattern, &band);
    Seam seam = {.name = "band", .step = -1, .tolerance = 1};
    ARRAY_ADD(&seam.a, ((SeamEdge){.piece = 0, .edge = 0}));
    ARRAY_ADD(&seam.a, ((SeamEdge){.piece = 1, .edge = 0}));
    ARRAY_ADD(&seam.b, ((SeamEdge){.piece = 2, .edge = 2, .backward = true}));
    ARRAY_ADD(&pattern.seams, seam);
    seam_notch_joints(&pattern, 0);
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "notches: band")->holds);
    pattern_finish(&pattern);
}

Test(prove_seam, lines_run_on_smoothly_across_a_seam_where_they_should) {
    Pattern pattern;
    pattern_init(&pattern);
    // Shoulder seam: the front's neckline meets it at 100 degrees, the back's at 80 and then at 85.
    for (int k = 0; k < 2; k++) {
        const double lean = k == 0 ? 80 : 85;
        const Piece front =
            sample_polygon(&pattern.arena, k ? "Front 2" : "Front",
                           (Point[]){{0, 0}, {120, 0}, {120, 90}, point_polar(point(0, 0), 100, 90)}, 4);
        const Piece back =
            sample_polygon(&pattern.arena, k ? "Back 2" : "Back",
                           (Point[]){{0, 0}, {120, 0}, {120, 90}, point_polar(point(0, 0), lean, 90)}, 4);
        const int a = pattern_add_piece(&pattern, &front), b = pattern_add_piece(&pattern, &back);
        Seam seam = {.name = k ? "shoulder 2" : "shoulder", .step = -1, .tolerance = 2};
        seam.smooth_first = seam.smooth_last = true;
        ARRAY_ADD(&seam.a, ((SeamEdge){.piece = a, .edge = 0}));
        ARRAY_ADD(&seam.b, ((SeamEdge){.piece = b, .edge = 0}));
        ARRAY_ADD(&pattern.seams, seam);
    }
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "smooth: shoulder, first end")->holds);
    cr_assert_float_eq(proof_found(&pattern, "smooth: shoulder, first end")->found, 180, 1e-6);
    cr_assert(proof_found(&pattern, "smooth: shoulder, last end")->holds);
    const Proof *off = proof_found(&pattern, "smooth: shoulder 2, first end");
    cr_assert(!off->holds);
    cr_assert_float_eq(off->found, 185, 1e-6);
    cr_assert_not_null(strstr(off->way_out, "d of Front 2 and d of Back 2 make a dip there"));
    pattern_finish(&pattern);
}

Test(prove_seam, two_seams_of_one_name_get_two_proofs) {
    Pattern pattern;
    sample_pattern(&pattern);
    pattern.seams.items[1].name = "left side";
    prove_again(&pattern);
    proof_found(&pattern, "seam: left side");
    proof_found(&pattern, "seam: left side (2)");
    pattern_finish(&pattern);
}

// P9: a back shoulder 6 mm longer than the front one, of which some is eased in over the shoulder blade.
Test(prove_seam, shoulders_differ_by_the_ease_stated_and_no_more) {
    Pattern pattern;
    pattern_init(&pattern);
    const Piece front =
        sample_polygon(&pattern.arena, "Front", (Point[]){{0, 0}, {122.5, 0}, {122.5, 90}, {0, 90}}, 4);
    const Piece back =
        sample_polygon(&pattern.arena, "Back", (Point[]){{0, 0}, {128.5, 0}, {128.5, 90}, {0, 90}}, 4);
    Seam seam = {.name = "shoulder", .step = -1, .tolerance = 2};
    ARRAY_ADD(&seam.a, ((SeamEdge){.piece = pattern_add_piece(&pattern, &back), .edge = 0}));
    ARRAY_ADD(&seam.b, ((SeamEdge){.piece = pattern_add_piece(&pattern, &front), .edge = 0}));
    ARRAY_ADD(&pattern.seams, seam);
    static const struct {
        double ease;
        bool holds;
    } stated[] = {{0, false}, {3.9, false}, {4.1, true}, {6, true}, {7.9, true}, {8.1, false}};
    for (size_t i = 0; i < sizeof stated / sizeof stated[0]; i++) {
        pattern.seams.items[0].ease = stated[i].ease;
        prove_again(&pattern);
        cr_assert_eq(proof_found(&pattern, "seam: shoulder")->holds, stated[i].holds, "%g mm",
                     stated[i].ease);
    }
    pattern_finish(&pattern);
}
