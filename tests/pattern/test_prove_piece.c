#include "pattern/prove.h"

#include <criterion/criterion.h>
#include <string.h>

#include "pattern/own.h"
#include "sample.h"

Test(prove_piece, pieces_without_grain_even_pairs_or_room_for_their_label_are_told) {
    Pattern pattern;
    sample_pattern(&pattern);
    Piece tab = sample_polygon(&pattern.arena, "Tab", (Point[]){{0, 0}, {10, 0}, {10, 12}, {0, 12}}, 4);
    tab.cut = 3;
    tab.pair = true;
    tab.grain = GRAIN_ALONG;
    pattern_add_piece(&pattern, &tab);
    prove_again(&pattern);
    cr_assert(!proof_found(&pattern, "label: Tab")->holds);
    cr_assert(!proof_found(&pattern, "piece: Tab")->holds);
    cr_assert_not_null(strstr(proof_found(&pattern, "piece: Tab")->way_out, "even"));
    Piece *paper = &pattern.pieces.items[2];
    paper->pair = false;
    paper->cloth = "paper";
    paper->grain = GRAIN_NONE;
    prove_again(&pattern);
    cr_assert(proof_found(&pattern, "piece: Tab")->holds);
    pattern_finish(&pattern);
}

Test(prove_piece, an_outline_that_is_open_or_crossed_is_found) {
    Pattern pattern;
    sample_pattern(&pattern);
    Edge *edge = &pattern.pieces.items[0].edges.items[1];
    own_path_ends(&edge->path, path_first(&edge->path), point_add(path_last(&edge->path), point(3, 0)));
    prove_again(&pattern);
    cr_assert(!proof_found(&pattern, "outline: Front funnel")->holds);
    cr_assert_not_null(strstr(proof_found(&pattern, "outline: Front funnel")->way_out, "open"));
    pattern_finish(&pattern);
}
