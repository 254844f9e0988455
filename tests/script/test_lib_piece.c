// Pieces and what they are told: which names they know, and what they say of others.
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

// A band of 20 by 4 cm.
#define BAND                                                                                   \
    "local low, high = line(point(0, 0), point(200, 0)), line(point(0, 40), point(200, 40))\n" \
    "local band = piece(\"Band\", { lower = low, upper = high,\n"                              \
    "  left_end = line(low.first, high.first), right_end = line(low.last, high.last) })\n"

static const char *said_of(const char *code) {
    char text[1200];
    snprintf(text, sizeof text, BAND "%s", code);
    return fault_of(text);
}

static const char edges[] = "the edges of 'Band' are lower, right_end, upper and left_end";

// Each word that takes an edge names the nearest one, and all there are.
Test(lib_piece, every_word_that_takes_an_edge_suggests_one) {
    static const char *const calls[] = {
        "band:notch(\"uper\", 10)",
        "band:unfold \"uper\"",
        "band:fold \"uper\"",
        "band:allow { uper = 5 }",
        "band:corner(\"uper\", \"lower\", \"square\")",
        "band:grain(\"along\", \"uper\")",
        "band:facing(\"uper\", 10)",
    };
    char wanted[300];
    snprintf(wanted, sizeof wanted, "10: 'Band' has no edge 'uper' | did you mean 'upper'? %s", edges);
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++)
        cr_expect_str_eq(said_of(calls[i]), wanted, "%s", calls[i]);
}

Test(lib_piece, a_name_like_no_edge_is_met_with_all_edges) {
    char wanted[300];
    snprintf(wanted, sizeof wanted, "10: 'Band' has no edge 'neckline' | %s", edges);
    cr_expect_str_eq(said_of("band:notch(\"neckline\", 10)"), wanted);
    cr_expect_str_eq(said_of("local e = band.neckline"), wanted);
}

// Along the base of a triangle of 200 by 100 mm the parallel at 99 mm is 2 mm long, and none lies at 100.
Test(lib_piece, a_facing_too_wide_is_told_the_widest_that_fits) {
    const char *triangle = "local a, b, c = point(0, 0), point(200, 0), point(100, 100)\n"
                           "local p = piece(\"P\", { a = line(a, b), b = line(b, c), c = line(c, a) })\n"
                           "local f = p:facing(\"a\", %s)";
    char code[400];
    snprintf(code, sizeof code, triangle, "15*cm");
    const char *said = fault_of(code);
    cr_expect_str_eq(said,
                     "9: facing: there is no room on 'P' for a band of 15.0 cm along 'a' | the widest that "
                     "fits there is 9.9 cm");
    snprintf(code, sizeof code, triangle, "9.9*cm");
    cr_expect_str_empty(fault_of(code));
}

Test(lib_piece, a_word_nearly_written_is_suggested) {
    cr_expect_str_eq(said_of("local f = band:faceing(\"upper\", 10)"),
                     "10: 'Band' has no 'faceing' | did you mean 'facing'?");
    char wanted[300];
    snprintf(wanted, sizeof wanted, "10: 'Band' has no edge 'uper' | did you mean 'upper'? %s", edges);
    cr_expect_str_eq(said_of("local e = band.uper"), wanted);
}

Test(lib_piece, an_outline_that_crosses_itself_says_which_edges_and_where) {
    cr_expect_str_eq(
        fault_of(
            "local p = piece(\"Bow\", { a = line(point(0, 0), point(100, 100)), b = line(point(100, 100), "
            "point(100, 0)), c = line(point(100, 0), point(0, 100)), d = line(point(0, 100), point(0, 0)) "
            "})"),
        "7: the outline of 'Bow' crosses itself: 'a' at x = 5.0 cm, y = 5.0 cm meets 'c' | the two may only "
        "meet at an end they share: move one, or cut it where they cross");
}
