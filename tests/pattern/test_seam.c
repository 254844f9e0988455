#include "pattern/seam_match.h"

#include <criterion/criterion.h>
#include <string.h>

#include "base/memory.h"
#include "sample.h"

// Two rectangles side by side below a collar strip: edges a (bottom), b (right), c (top), d (left).
static void strips(Pattern *pattern, double left, double right, double collar) {
    pattern_init(pattern);
    const Piece one =
        sample_polygon(&pattern->arena, "Left", (Point[]){{0, 0}, {left, 0}, {left, 80}, {0, 80}}, 4);
    const Piece two =
        sample_polygon(&pattern->arena, "Right", (Point[]){{0, 0}, {right, 0}, {right, 80}, {0, 80}}, 4);
    const Piece three =
        sample_polygon(&pattern->arena, "Collar", (Point[]){{0, 0}, {collar, 0}, {collar, 50}, {0, 50}}, 4);
    pattern_add_piece(pattern, &one);
    pattern_add_piece(pattern, &two);
    pattern_add_piece(pattern, &three);
    // From the right: the tops of both are walked as drawn (edge c runs to the left), the collar's bottom
    // backwards.
    Seam seam = {.name = "neck seam", .step = -1, .tolerance = 1};
    ARRAY_ADD(&seam.a, ((SeamEdge){.piece = 1, .edge = 2}));
    ARRAY_ADD(&seam.a, ((SeamEdge){.piece = 0, .edge = 2}));
    ARRAY_ADD(&seam.b, ((SeamEdge){.piece = 2, .edge = 0, .backward = true}));
    ARRAY_ADD(&pattern->seams, seam);
}

Test(seam, walking_adds_up_both_sides) {
    Pattern pattern;
    strips(&pattern, 100, 80, 178.5);
    SeamWalk walk = seam_walk(&pattern, &pattern.seams.items[0]);
    cr_assert_float_eq(walk.length_a, 180, 1e-9);
    cr_assert_float_eq(walk.length_b, 178.5, 1e-9);
    cr_assert_float_eq(walk.difference, 1.5, 1e-9);
    cr_assert(!walk.holds);
    pattern.seams.items[0].ease = 2;
    walk = seam_walk(&pattern, &pattern.seams.items[0]);
    cr_assert_float_eq(walk.difference, -0.5, 1e-9);
    cr_assert(walk.holds);
    pattern_finish(&pattern);
}

// Notch pairs lie at the same distance from the matched end on both sides.
Test(seam, notches_meet_their_partners) {
    Pattern pattern;
    strips(&pattern, 100, 80, 180);
    cr_assert_eq(seam_notch(&pattern, 0, 30, 1), GEOM_OK);  // on the right piece
    cr_assert_eq(seam_notch(&pattern, 0, 130, 2), GEOM_OK); // on the left one, 50 beyond the joint
    const Piece *left = &pattern.pieces.items[0], *right = &pattern.pieces.items[1],
                *collar = &pattern.pieces.items[2];
    cr_assert_eq(right->notches.count, 1);
    cr_assert_float_eq(right->notches.items[0].at, 30, 1e-9);
    cr_assert_eq(left->notches.count, 1);
    cr_assert_float_eq(left->notches.items[0].at, 50, 1e-9);
    cr_assert_eq(collar->notches.count, 2);
    cr_assert_float_eq(collar->notches.items[0].at, 150, 1e-9); // walked backwards
    cr_assert_float_eq(collar->notches.items[1].at, 50, 1e-9);
    cr_assert_eq(collar->notches.items[1].count, 2);
    SeamNotchList a = {0}, b = {0};
    seam_side_notches(&pattern, &pattern.seams.items[0], true, &a);
    seam_side_notches(&pattern, &pattern.seams.items[0], false, &b);
    cr_assert_eq(a.count, 2);
    cr_assert_eq(b.count, 2);
    for (int i = 0; i < 2; i++)
        cr_assert_float_eq(a.items[i].at, b.items[i].at, 0.1);
    mem_free(a.items);
    mem_free(b.items);
    cr_assert_eq(seam_notch(&pattern, 0, 181, 1), GEOM_BEYOND_END);
    cr_assert_eq(seam_notch(&pattern, 0, -20, 1), GEOM_OK);
    cr_assert_float_eq(left->notches.items[1].at, 80, 1e-9);
    pattern_finish(&pattern);
}

Test(seam, where_there_is_ease_a_notch_lies_at_the_same_part) {
    Pattern pattern;
    strips(&pattern, 100, 80, 150);
    pattern.seams.items[0].ease = 30;
    cr_assert_eq(seam_notch(&pattern, 0, 90, 1), GEOM_OK);
    cr_assert_float_eq(pattern.pieces.items[2].notches.items[0].at, 75, 1e-9);
    pattern_finish(&pattern);
}

Test(seam, joints_are_marked_on_the_partner_only) {
    Pattern pattern;
    strips(&pattern, 100, 80, 180);
    seam_notch_joints(&pattern, 0);
    cr_assert_eq(pattern.pieces.items[0].notches.count, 0);
    cr_assert_eq(pattern.pieces.items[1].notches.count, 0);
    cr_assert_eq(pattern.pieces.items[2].notches.count, 1);
    cr_assert_float_eq(pattern.pieces.items[2].notches.items[0].at, 100, 1e-9);
    pattern_finish(&pattern);
}

Test(seam, joints_that_meet_need_no_mark) {
    Pattern pattern;
    strips(&pattern, 100, 80, 180);
    Seam hem = {.name = "hem", .step = -1, .tolerance = 1};
    ARRAY_ADD(&hem.a, ((SeamEdge){.piece = 0, .edge = 0}));
    ARRAY_ADD(&hem.a, ((SeamEdge){.piece = 1, .edge = 0}));
    ARRAY_ADD(&hem.b, ((SeamEdge){.piece = 0, .edge = 2, .backward = true}));
    ARRAY_ADD(&hem.b, ((SeamEdge){.piece = 1, .edge = 2, .backward = true}));
    ARRAY_ADD(&pattern.seams, hem);
    seam_notch_joints(&pattern, 1);
    for (int i = 0; i < 3; i++)
        cr_assert_eq(pattern.pieces.items[i].notches.count, 0);
    pattern_finish(&pattern);
}

Test(seam, twins_over_a_fold_are_notched_too_unless_they_have_a_seam) {
    Pattern pattern;
    sample_pattern(&pattern);
    // Both sides of both funnels and their facings are notched by the left seam, except the right side, sewn
    // on its own.
    for (int p = 0; p < 2; p++) {
        const Piece *piece = &pattern.pieces.items[p];
        cr_assert_eq(piece->notches.count, 3);
        for (int i = 0; i < 3; i++) {
            cr_assert_str_eq(piece->edges.items[piece->notches.items[i].edge].root, "side");
            cr_assert_float_eq(piece->notches.items[i].at, 50, 1e-9);
            cr_assert_neq(strcmp(piece->edges.items[piece->notches.items[i].edge].name, "side over centre"),
                          0);
        }
    }
    pattern_finish(&pattern);
}

// A notch of the collar on the joint of the two pieces below it is laid on that; a notch without a partner is
// laid on nothing. 30 and 80 mm from the right: a pair, and the joint.
Test(seam, a_notch_is_laid_on_its_partner_or_on_the_joint_that_lies_there) {
    Pattern pattern;
    strips(&pattern, 100, 80, 180);
    cr_assert_eq(seam_notch(&pattern, 0, 30, 1), GEOM_OK);
    seam_notch_joints(&pattern, 0);
    piece_add_notch(&pattern.arena, &pattern.pieces.items[0], 2, 60, 1, "another seam");
    SeamMatchList matches = {0};
    seam_matches(&pattern, &pattern.seams.items[0], &matches);
    cr_assert_eq(matches.count, 2);
    cr_expect_float_eq(matches.items[0].at_a, 30, 1e-9);
    cr_expect_float_eq(matches.items[0].at_b, 30, 1e-9);
    cr_expect(matches.items[0].notch_a >= 0 && matches.items[0].notch_b >= 0);
    cr_expect_float_eq(matches.items[1].at_a, 80, 1e-9);
    cr_expect_float_eq(matches.items[1].at_b, 80, 1e-9);
    cr_expect_eq(matches.items[1].joint_a, 0);
    cr_expect_eq(seam_matched_notches(&pattern, &pattern.seams.items[0]), 2);
    mem_free(matches.items);
    pattern_finish(&pattern);
}

// 190 mm of collar on 180: by parts of the whole, the middle of the one would lie on 85.3 of the other.
// Notches as far from the first end, or as far from the last one, have all of the ease between them.
Test(seam, notches_between_which_all_the_ease_lies_are_laid_on_each_other) {
    Pattern pattern;
    strips(&pattern, 90, 90, 190);
    Seam *seam = &pattern.seams.items[0];
    seam->ease = -10;
    piece_add_notch(&pattern.arena, &pattern.pieces.items[1], 2, 85, 1, "");  // 85 from the right
    piece_add_notch(&pattern.arena, &pattern.pieces.items[0], 2, 10, 1, "");  // 80 from the left
    piece_add_notch(&pattern.arena, &pattern.pieces.items[2], 0, 105, 1, ""); // 85 from the right
    piece_add_notch(&pattern.arena, &pattern.pieces.items[2], 0, 80, 1, "");  // 80 from the left
    piece_add_notch(&pattern.arena, &pattern.pieces.items[2], 0, 20, 1, "");
    cr_expect_eq(seam_matched_notches(&pattern, seam), 2);
    pattern_finish(&pattern);
}
