#include <criterion/criterion.h>

#include <string.h>

#include "said.h"

#define SQUARE "\"$TESTS/cli/recipes/square.md\""

Test(report, json_is_the_report_alone_and_is_read_by_jq) {
    Said s = said("rebato draft bands/square-funnel --json | jq -e '.pieces | length >= 2'");
    said_code(&s, 0);
    said_finish(&s);
    s = said("rebato check bands/square-funnel --json > c.json; rebato draft bands/square-funnel "
             "--json | cmp - c.json && echo same");
    said_out(&s, "same");
    said_finish(&s);
    s = said("rebato draft \"$TESTS/cli/recipes/wrong.md\" --json | jq -r '.fault | .line, .step'; ls");
    cr_expect_str_eq(s.out.data, "12\nGo wrong\n", "%s", s.out.data);
    said_finish(&s);
}

Test(report, inches_are_shown_where_they_are_wanted) {
    Said s = said("rebato check " SQUARE " --units in --set side='5 1/2 in'");
    said_code(&s, 0);
    said_out(&s, "5 1/2 in");
    said_finish(&s);
}

Test(report, a_check_tells_what_a_cutter_measures_and_counts_the_rest) {
    Said s = said("rebato check bands/square-funnel --on necklines/lowered; rebato check "
                  "bands/square-funnel --on necklines/lowered --json | jq '.proofs | length'");
    said_code(&s, 0);
    said_out(&s, "holds: seam: funnel side: ");
    said_out(&s, "holds: the funnel passes over the head: ");
    said_out(&s, "holds: corner on the fold: Front, ");
    said_out(&s, "holds: opening over the head: ");
    said_out(&s, "\nalso hold: 4 pieces with name and grain, 4 outlines, 4 cut lines, 4 labels");
    cr_expect_null(strstr(s.out.data, "holds: label: "), "%s", s.out.data);
    said_finish(&s);
}

// Each proof is told one way or the other: the lines and the counts make the number of proofs.
Test(report, no_proof_is_left_out_of_a_check) {
    Said s = said(
        "for r in bands/square-funnel bands/mandarin flat/peter-pan; do "
        "rebato check $r >told; told=$(grep -c '^holds: ' told); "
        "counted=$(grep '^also hold: ' told | grep -o '[0-9][0-9]* ' | awk '{ n += $1 } END { print n }'); "
        "all=$(rebato check $r --json | jq '.proofs | length'); "
        "[ $((told + counted)) = $all ] && echo all of $r || echo $r: $told and $counted of $all; done");
    cr_expect_str_eq(s.out.data,
                     "all of bands/square-funnel\nall of bands/mandarin\nall of "
                     "flat/peter-pan\n",
                     "%s", s.err.data);
    said_finish(&s);
}

Test(report, a_proof_that_fails_comes_first_and_in_full) {
    Said s = said("rebato check " SQUARE " --set side=25cm");
    said_code(&s, 1);
    const char *failed = strstr(s.out.data, "1. the square is no more than 20 cm wide: 25.0 cm");
    const char *holds = strstr(s.out.data, "also hold: 1 piece with name and grain, 1 outline, ");
    cr_assert_not_null(failed, "%s", s.out.data);
    cr_assert_not_null(holds, "%s", s.out.data);
    cr_expect(failed < holds);
    said_finish(&s);
}
