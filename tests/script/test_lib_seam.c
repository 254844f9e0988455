// Seams: which edges go together, from which ends they are walked, and where their notches come.
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

Test(lib_seam, seams_go_to_the_final_pieces_with_their_notches) {
    Pattern pattern = {0};
    pattern_of(
        "local low, high = line(point(0, 0), point(20*cm, 0)), line(point(0, 4*cm), point(20*cm, 4*cm))\n"
        "local function band(name)\n"
        "  return piece(name, { lower = low, upper = high, left_end = line(low.first, high.first),\n"
        "    right_end = line(low.last, high.last) })\n"
        "end\n"
        "local d = draft \"Bands\"\n"
        "local outer = band(\"Outer\")\n"
        "sew(\"band edge\", outer.upper, band(\"Inner\").upper, { notch = \"back\" })\n"
        "d.outer, d.inner = outer:allow(1*cm), band(\"Inner\")\n",
        &pattern);
    cr_assert_eq(pattern.seams.count, 1);
    const Seam *seam = &pattern.seams.items[0];
    const Piece *piece = &pattern.pieces.items[seam->a.items[0].piece];
    cr_expect_str_eq(piece->name, "Outer");
    cr_assert_eq(piece->notches.count, 1);
    cr_expect_eq(piece->notches.items[0].count, 2);
    cr_expect_float_eq(piece->notches.items[0].at, 100, 1e-6);
    cr_expect_float_eq(seam->tolerance, 2, 1e-9);
    pattern_finish(&pattern);
}

// Two bands of 20 by 4 cm, "Outer" and "Inner"; their edges run from left to right and upward.
#define BANDS                                                                                     \
    "local low, high = line(point(0, 0), point(200, 0)), line(point(0, 40), point(200, 40))\n"    \
    "local function band(name)\n"                                                                 \
    "  return piece(name, { lower = low, upper = high, left_end = line(low.first, high.first),\n" \
    "    right_end = line(low.last, high.last) })\n"                                              \
    "end\n"                                                                                       \
    "local d = draft \"Bands\"\n"                                                                 \
    "d.outer = band(\"Outer\")\nd.inner = band(\"Inner\")\nlocal o, i = d.outer, d.inner\n"

static const char *code_of(const char *sew) {
    static char code[1500];
    snprintf(code, sizeof code, BANDS "%s", sew);
    return code;
}

// How far the one notch of the piece lies from the edge's first point, as it was drawn, mm.
static double notch_at(const char *sew, int piece) {
    Pattern pattern = {0};
    pattern_of(code_of(sew), &pattern);
    cr_assert_eq(pattern.pieces.items[piece].notches.count, 1);
    const double at = pattern.pieces.items[piece].notches.items[0].at;
    pattern_finish(&pattern);
    return at;
}

// 1 mm at the neck, 2 mm elsewhere (common practice, no source).
Test(lib_seam, a_neck_seam_is_known_by_its_name_in_four_languages) {
    static const char *const necks[] = {"neck seam", "Under collar",   "Halsnaht",           "Kragenansatz",
                                        "encolure",  "couture du col", "costura del escote", "cuello"};
    static const char *const others[] = {"side", "colour", "couture", "protocol", "Seitennaht", "costado"};
    for (size_t i = 0; i < 14; i++) {
        Pattern pattern = {0};
        char sew[80];
        snprintf(sew, sizeof sew, "sew(\"%s\", o.upper, i.upper)", i < 8 ? necks[i] : others[i - 8]);
        pattern_of(code_of(sew), &pattern);
        cr_assert_eq(pattern.seams.count, 1);
        cr_expect_float_eq(pattern.seams.items[0].tolerance, i < 8 ? 1 : 2, 1e-9, "%s", sew);
        pattern_finish(&pattern);
    }
}

// reverse tells from which end a notch is counted; at the middle it is the same.
Test(lib_seam, the_ends_that_meet_are_those_the_walks_begin_at) {
    cr_expect_float_eq(notch_at("sew(\"s\", o.upper, i.upper, { notch = { at = 30 } })", 0), 30, 1e-6);
    cr_expect_float_eq(notch_at("sew(\"s\", o.upper, i.upper, { notch = { at = 30 } })", 1), 30, 1e-6);
    cr_expect_float_eq(notch_at("sew(\"s\", o.upper, i.upper:reverse(), { notch = { at = 30 } })", 0), 30,
                       1e-6);
    cr_expect_float_eq(notch_at("sew(\"s\", o.upper, i.upper:reverse(), { notch = { at = 30 } })", 1), 170,
                       1e-6);
    cr_expect_float_eq(notch_at("sew(\"s\", o.upper:reverse(), i.upper, { notch = { at = 30 } })", 0), 170,
                       1e-6);
    cr_expect_float_eq(notch_at("sew(\"s\", o.upper, i.upper:reverse(), { notch = \"front\" })", 1), 100,
                       1e-6);
}

Test(lib_seam, a_list_within_a_piece_goes_from_end_to_end) {
    static const struct {
        const char *side, *way; // the way out, or NULL where the walk is whole
    } sides[] = {
        {"{ o.left_end, o.upper }", NULL},
        {"{ o.upper:reverse(), o.left_end:reverse() }", NULL},
        {"{ o.upper, o.right_end:reverse(), o.lower:reverse() }", NULL},
        {"{ o.lower, o.upper }", NULL}, // apart: the edge between is not sewn
        {"{ o.left_end:reverse(), o.upper }", "walk 'left_end' the other way"},
        {"{ o.left_end, o.upper:reverse() }", "walk 'upper' the other way"},
        {"{ o.upper, o.left_end }", "walk both 'upper' and 'left_end' the other way"},
    };
    for (size_t k = 0; k < sizeof sides / sizeof *sides; k++) {
        char sew[200];
        snprintf(sew, sizeof sew, "\nsew(\"s\", %s, i.upper)", sides[k].side);
        const char *said = fault_of(code_of(sew));
        if (!sides[k].way) {
            cr_expect_str_empty(said, "%s: %s", sides[k].side, said);
            continue;
        }
        cr_expect(strstr(said, "17: the seam 's' walks ") == said, "%s", said);
        cr_expect(strstr(said, "of 'Outer', but not from end to end"), "%s", said);
        cr_expect(strstr(said, sides[k].way), "%s: %s", sides[k].side, said);
    }
}

// An edge that became a fold line is sewn to nothing.
Test(lib_seam, an_edge_the_finished_piece_lacks_is_met_with_those_it_has) {
    const char *said = fault_of(code_of("d.whole = band(\"Whole\"):unfold \"right_end\"\n"
                                        "sew(\"s\", i.right_end, band(\"Whole\").right_end)"));
    cr_expect_str_eq(said,
                     "17: the seam 's' sews 'right_end' of 'Whole', which is no edge of the finished piece | "
                     "its edges are lower, lower over right_end, left_end over right_end, upper over "
                     "right_end, upper, left_end",
                     "%s", said);
}
