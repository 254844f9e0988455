#include "pattern/prove.h"

#include <criterion/criterion.h>
#include <string.h>

#include "pattern/own.h"
#include "sample.h"

// A collar with a hollow neck edge: the chord between its ends lies up to 20 mm outside.
static Piece *hollow(Pattern *pattern) {
    pattern_init(pattern);
    const Piece made = sample_polygon(&pattern->arena, "Collar",
                                      (Point[]){{0, 0}, {100, 20}, {200, 0}, {200, 80}, {0, 80}}, 5);
    const int index = pattern_add_piece(pattern, &made);
    return &pattern->pieces.items[index];
}

static void add_line(Pattern *pattern, Piece *piece, const char *name, Point from, Point to) {
    Path path = {0};
    InnerLine line = {.kind = INNER_LINE, .name = name, .root = name};
    path_line(from, to, &path);
    own_path(&pattern->arena, &path, &line.path);
    path_finish(&path);
    OWN_ADD(&pattern->arena, &piece->lines, line);
}

Test(prove_marks, a_piece_without_marks_has_none_to_prove) {
    Pattern pattern;
    hollow(&pattern);
    prove_again(&pattern);
    cr_assert_null(proof_find(&pattern, "marks: Collar"));
    pattern_finish(&pattern);
}

Test(prove_marks, marks_inside_and_on_the_edge_hold) {
    Pattern pattern;
    Piece *piece = hollow(&pattern);
    OWN_ADD(&pattern.arena, &piece->dots, ((Dot){.kind = DOT_PIVOT, .name = "S", .at = {100, 20}}));
    OWN_ADD(&pattern.arena, &piece->dots, ((Dot){.kind = DOT_DRILL, .name = "D", .at = {100, 50}}));
    OWN_ADD(&pattern.arena, &piece->dots, ((Dot){.kind = DOT_DRILL, .at = {-0.009, 40}}));
    add_line(&pattern, piece, "roll", point(0, 40), point(200, 40));
    add_line(&pattern, piece, "along the edge", point(0, 80), point(150, 80));
    add_line(&pattern, piece, "over the corner", point(50, 20), point(150, 20));
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "marks: Collar")->holds);
    pattern_finish(&pattern);
}

Test(prove_marks, a_dot_off_the_piece_is_named_with_its_distance) {
    Pattern pattern;
    Piece *piece = hollow(&pattern);
    OWN_ADD(&pattern.arena, &piece->dots, ((Dot){.kind = DOT_DRILL, .name = "button", .at = {203, 40}}));
    prove_again(&pattern);
    const Proof *proof = proof_found(&pattern, "marks: Collar");
    cr_assert(!proof->holds);
    cr_assert_not_null(strstr(proof->way_out, "button lies outside the seam line by up to 3.0 mm"));
    piece = &pattern.pieces.items[0];
    piece->dots.items[0].name = NULL;
    piece->dots.items[0].at.x = 200.011;
    prove_again(&pattern);
    cr_assert(!proof_found(&pattern, "marks: Collar")->holds);
    cr_assert_not_null(strstr(proof_found(&pattern, "marks: Collar")->way_out, "a drill mark lies outside"));
    piece->dots.items[0].at.x = 200.009;
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "marks: Collar")->holds);
    pattern_finish(&pattern);
}

// Both ends lie on the piece, and so do its quarters; 10 mm below the corner it is 10 cos(atan 0.2) = 9.8 mm
// away from the edges.
Test(prove_marks, a_line_that_leaves_the_piece_between_its_ends_is_found) {
    Pattern pattern;
    Piece *piece = hollow(&pattern);
    add_line(&pattern, piece, "fold", point(0, 10), point(200, 10));
    prove_again(&pattern);
    const Proof *proof = proof_found(&pattern, "marks: Collar");
    cr_assert(!proof->holds);
    cr_assert_not_null(strstr(proof->way_out, "fold lies outside the seam line by up to 9.8 mm"));
    pattern_finish(&pattern);
}
