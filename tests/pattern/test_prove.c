#include "pattern/prove.h"

#include <criterion/criterion.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/own.h"
#include "pattern/seam.h"
#include "sample.h"

static const Proof *find(const Pattern *pattern, const char *what) {
    for (int i = 0; i < pattern->proofs.count; i++)
        if (strcmp(pattern->proofs.items[i].what, what) == 0)
            return &pattern->proofs.items[i];
    return NULL;
}

static const Proof *found(const Pattern *pattern, const char *what) {
    const Proof *proof = find(pattern, what);
    cr_assert_not_null(proof, "%s", what);
    return proof;
}

static void prove(Pattern *pattern) {
    const char *unknown;
    pattern_prove(pattern, NULL, 0, &unknown);
    cr_assert_null(unknown);
}

Test(prove, a_sound_pattern_holds_and_every_proof_has_its_own_name) {
    Pattern pattern;
    sample_pattern(&pattern);
    prove(&pattern);
    for (int i = 0; i < pattern.proofs.count; i++) {
        const Proof *proof = &pattern.proofs.items[i];
        cr_assert(proof->holds, "%s: %s", proof->what, proof->way_out ? proof->way_out : "");
        for (int k = 0; k < i; k++)
            cr_assert_neq(strcmp(proof->what, pattern.proofs.items[k].what), 0, "%s", proof->what);
    }
    cr_assert(pattern_holds(&pattern));
    static const char *const names[] = {"the funnel passes over the head",
                                        "seam: left side",
                                        "allowance: left side",
                                        "notches: left side",
                                        "piece: Front funnel",
                                        "outline: Back funnel",
                                        "cut line: Front funnel",
                                        "label: Front funnel",
                                        "fold: Front funnel, top",
                                        "opening over the head"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        found(&pattern, names[i]);
    const int count = pattern.proofs.count;
    prove(&pattern); // anew, not once more
    cr_assert_eq(pattern.proofs.count, count);
    pattern_finish(&pattern);
}

Test(prove, a_seam_that_does_not_fit_says_by_how_much_and_where) {
    Pattern pattern;
    sample_pattern(&pattern);
    Piece longer = sample_funnel(&pattern.arena, "Back funnel", 140, 103);
    longer.draft = -1;
    pattern.pieces.items[1] = longer;
    pattern.pieces.items[0].notches.count = 0;
    prove(&pattern);
    const Proof *seam = found(&pattern, "seam: left side");
    cr_assert(!seam->holds);
    cr_assert_float_eq(seam->found - seam->wanted, -3, 1e-9);
    cr_assert_float_eq(seam->tolerance, 1, 0);
    cr_assert_not_null(
        strstr(seam->way_out, "side of Back funnel is 3.0 mm too long for side of Front funnel"));
    cr_assert_not_null(strstr(seam->way_out, "state 3.0 mm of ease on Back funnel"));
    Buffer said;
    buffer_init(&said);
    proof_sentence(&pattern, seam, &said);
    cr_assert_not_null(strstr(said.data, "seam: left side: 10.0 cm against 10.3 cm, 3.0 mm too short: "));
    buffer_finish(&said);
    pattern.seams.items[0].ease = -3;
    prove(&pattern);
    cr_assert(found(&pattern, "seam: left side")->holds);
    cr_assert(!pattern_holds(&pattern)); // the right side
    pattern_finish(&pattern);
}

Test(prove, proofs_are_accepted_by_name) {
    Pattern pattern;
    sample_pattern(&pattern);
    pattern.pieces.items[0].grain = GRAIN_NONE;
    prove(&pattern);
    cr_assert(!found(&pattern, "piece: Front funnel")->holds);
    cr_assert(!pattern_holds(&pattern));
    const char *const accepted[] = {"piece: Front funnel", "seam: hem"};
    const char *unknown = NULL;
    pattern_prove(&pattern, accepted, 2, &unknown);
    cr_assert_str_eq(unknown, "seam: hem");
    cr_assert(pattern_holds(&pattern));
    cr_assert(!found(&pattern, "piece: Front funnel")->holds);
    prove(&pattern);
    cr_assert(!pattern_holds(&pattern)); // an acceptance is not kept
    pattern_finish(&pattern);
}

Test(prove, allowances_of_a_seam_are_equal_all_along) {
    Pattern pattern;
    sample_pattern(&pattern);
    Piece *back = &pattern.pieces.items[1];
    back->edges.items[piece_find_edge(back, "side")].allowance = 6;
    prove(&pattern);
    const Proof *proof = found(&pattern, "allowance: left side");
    cr_assert(!proof->holds);
    cr_assert_float_eq(proof->found, 10, 0);
    cr_assert_float_eq(proof->wanted, 6, 0);
    cr_assert_not_null(strstr(proof->way_out, "side of Back funnel has 6.0 mm"));
    cr_assert(found(&pattern, "allowance: right side")->holds);
    pattern_finish(&pattern);
}

// Two pieces against one: only the second of them has another allowance.
Test(prove, allowances_are_compared_stretch_by_stretch) {
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
    prove(&pattern);
    cr_assert(found(&pattern, "allowance: band")->holds);
    pattern.pieces.items[1].edges.items[2].allowance = 15;
    prove(&pattern);
    cr_assert(!found(&pattern, "allowance: band")->holds);
    cr_assert_float_eq(found(&pattern, "allowance: band")->wanted, 15, 0);
    pattern_finish(&pattern);
}

Test(prove, a_notch_without_a_partner_is_found) {
    Pattern pattern;
    sample_pattern(&pattern);
    prove(&pattern);
    cr_assert(found(&pattern, "notches: left side")->holds);
    pattern.pieces.items[1].notches.items[0].at += 2;
    prove(&pattern);
    const Proof *proof = found(&pattern, "notches: left side");
    cr_assert(!proof->holds);
    cr_assert_float_eq(proof->found, 2, 1e-9);
    pattern_finish(&pattern);
}

// The twin of an edge was notched with it before it got a seam of its own: that notch is a partner like any
// other.
Test(prove, a_notch_of_another_seam_can_be_the_partner) {
    Pattern pattern;
    sample_pattern(&pattern);
    Piece *back = &pattern.pieces.items[1];
    piece_add_notch(&pattern.arena, back, piece_find_edge(back, "side over centre"), 50, 1, "left side");
    cr_assert_eq(seam_notch(&pattern, 1, 50, 1), GEOM_OK);
    prove(&pattern);
    cr_assert(found(&pattern, "notches: right side")->holds);
    pattern_finish(&pattern);
}

Test(prove, a_joint_stands_for_a_single_notch) {
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
    prove(&pattern);
    cr_assert(found(&pattern, "notches: band")->holds);
    pattern_finish(&pattern);
}

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

Test(prove, edges_at_a_fold_are_square_or_meant_as_corners) {
    for (int placed = 0; placed < 2; placed++) {
        Pattern pattern;
        leaning(&pattern, 0.5, placed);
        prove(&pattern);
        cr_assert(found(&pattern, "fold: Front, d")->holds);
        pattern_finish(&pattern);

        leaning(&pattern, 3, placed);
        prove(&pattern);
        const Proof *dip = found(&pattern, "fold: Front, d");
        cr_assert(!dip->holds);
        cr_assert_float_eq(dip->found, 93, 1e-6);
        cr_assert_float_eq(dip->wanted, 90, 0);
        cr_assert_not_null(strstr(dip->way_out, "c will show a dip when d is opened out"));
        pattern_finish(&pattern);

        leaning(&pattern, -3, placed);
        prove(&pattern);
        cr_assert_not_null(strstr(found(&pattern, "fold: Front, d")->way_out, "peak"));
        pattern_finish(&pattern);

        leaning(&pattern, -30, placed);
        prove(&pattern);
        cr_assert(found(&pattern, "fold: Front, d")->holds); // the bottom is square
        const Proof *corner = found(&pattern, "corner on the fold: Front, d at c");
        cr_assert(corner->holds);
        cr_assert_float_eq(corner->found, 60, 1e-6);
        pattern_finish(&pattern);
    }
}

Test(prove, lines_run_on_smoothly_across_a_seam_where_they_should) {
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
    prove(&pattern);
    cr_assert(found(&pattern, "smooth: shoulder, first end")->holds);
    cr_assert_float_eq(found(&pattern, "smooth: shoulder, first end")->found, 180, 1e-6);
    cr_assert(found(&pattern, "smooth: shoulder, last end")->holds);
    const Proof *off = found(&pattern, "smooth: shoulder 2, first end");
    cr_assert(!off->holds);
    cr_assert_float_eq(off->found, 185, 1e-6);
    cr_assert_not_null(strstr(off->way_out, "d of Front 2 and d of Back 2 make a dip there"));
    pattern_finish(&pattern);
}

// A head of 56 cm, 3 cm of room and a neckline of 36.28 cm: (59 - 36.28) / 2 = 11.36 cm, cut 11.5 (the
// opening rule, common practice, no source).
Test(prove, the_opening_rule_names_the_slit) {
    Pattern pattern;
    pattern_init(&pattern);
    pattern.pull_on = (PullOn){.stated = true, .step = -1, .length = 362.8, .ease = 30, .head_girth = 560};
    prove(&pattern);
    const Proof *opening = found(&pattern, "opening over the head");
    cr_assert(!opening->holds);
    cr_assert_float_eq(opening->found, 362.8, 1e-9);
    cr_assert_float_eq(opening->wanted, 590, 1e-9);
    cr_assert_not_null(strstr(opening->way_out, "a slit or zip of 11.5 cm"));
    pattern.pull_on.slit = 113;
    prove(&pattern);
    cr_assert(!found(&pattern, "opening over the head")->holds);
    pattern.pull_on.slit = 115;
    prove(&pattern);
    cr_assert(found(&pattern, "opening over the head")->holds);
    pattern.pull_on =
        (PullOn){.stated = true, .step = -1, .length = 560, .stretch = 0.03, .ease = 16, .head_girth = 560};
    prove(&pattern);
    cr_assert(found(&pattern, "opening over the head")->holds);
    pattern.pull_on.head_girth = 0;
    prove(&pattern);
    cr_assert_null(find(&pattern, "opening over the head"));
    pattern_finish(&pattern);
}

Test(prove, pieces_without_grain_even_pairs_or_room_for_their_label_are_told) {
    Pattern pattern;
    sample_pattern(&pattern);
    Piece tab = sample_polygon(&pattern.arena, "Tab", (Point[]){{0, 0}, {15, 0}, {15, 20}, {0, 20}}, 4);
    tab.cut = 3;
    tab.pair = true;
    tab.grain = GRAIN_ALONG;
    pattern_add_piece(&pattern, &tab);
    prove(&pattern);
    cr_assert(!found(&pattern, "label: Tab")->holds);
    cr_assert(!found(&pattern, "piece: Tab")->holds);
    cr_assert_not_null(strstr(found(&pattern, "piece: Tab")->way_out, "even"));
    Piece *paper = &pattern.pieces.items[2];
    paper->pair = false;
    paper->cloth = "paper";
    paper->grain = GRAIN_NONE;
    prove(&pattern);
    cr_assert(found(&pattern, "piece: Tab")->holds);
    pattern_finish(&pattern);
}

Test(prove, an_outline_that_is_open_or_crossed_is_found) {
    Pattern pattern;
    sample_pattern(&pattern);
    Edge *edge = &pattern.pieces.items[0].edges.items[1];
    own_path_ends(&edge->path, path_first(&edge->path), point_add(path_last(&edge->path), point(3, 0)));
    prove(&pattern);
    cr_assert(!found(&pattern, "outline: Front funnel")->holds);
    cr_assert_not_null(strstr(found(&pattern, "outline: Front funnel")->way_out, "open"));
    pattern_finish(&pattern);
}

Test(prove, two_seams_of_one_name_get_two_proofs) {
    Pattern pattern;
    sample_pattern(&pattern);
    pattern.seams.items[1].name = "left side";
    prove(&pattern);
    found(&pattern, "seam: left side");
    found(&pattern, "seam: left side (2)");
    pattern_finish(&pattern);
}

Test(prove, sentences_say_measures_in_the_patterns_units) {
    Pattern pattern;
    pattern_init(&pattern);
    Buffer said;
    buffer_init(&said);
    const Proof yes = {
        .what = "label: Front", .measure = MEASURE_NUMBER, .found = 1, .wanted = 1, .holds = true};
    proof_sentence(&pattern, &yes, &said);
    cr_assert_str_eq(said.data, "label: Front: yes");
    buffer_clear(&said);
    pattern.units = UNITS_INCH;
    const Proof opening = {.what = "opening",
                           .measure = MEASURE_LENGTH,
                           .found = 508,
                           .wanted = 558.8,
                           .relation = "at least",
                           .accepted = true,
                           .way_out = "cut a slit"};
    proof_sentence(&pattern, &opening, &said);
    cr_assert_str_eq(said.data, "opening: 20 in, at least 22 in, 2 in too short: cut a slit (accepted)");
    buffer_finish(&said);
    pattern_finish(&pattern);
}
