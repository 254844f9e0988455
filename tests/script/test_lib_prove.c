// Proofs the recipe tells, and how it goes over the head.
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

typedef struct Told {
    const char *code; // what follows prove "it"
    bool holds;
    const char *relation;
    double tolerance;
} Told;

static const Told tolds[] = {
    {"{ 10, at_least = 10 }", true, "at least", 0.01},
    {"{ 9.995, at_least = 10 }", true, "at least", 0.01}, // within 0.01 mm
    {"{ 9.98, at_least = 10 }", false, "at least", 0.01},
    {"{ 10.005, at_most = 10 }", true, "at most", 0.01},
    {"{ 10.02, at_most = 10 }", false, "at most", 0.01},
    {"{ 10.09, equals = 10 }", true, "equal", 0.1},
    {"{ 10.11, equals = 10 }", false, "equal", 0.1},
    {"{ 9.4, equals = 10, within = 0.5 }", false, "equal", 0.5},
    {"{ 9.6, equals = 10, within = 0.5 }", true, "equal", 0.5},
    {"(1 < 2)", true, "", 0},
    {"(false)", false, "", 0},
    {"(nil)", false, "", 0},
};

Test(lib_prove, what_is_told_holds_or_not_and_the_run_goes_on) {
    for (size_t i = 0; i < sizeof tolds / sizeof *tolds; i++) {
        Pattern pattern = {0};
        char code[200];
        snprintf(code, sizeof code, "prove \"it\" %s\nr = 1", tolds[i].code);
        pattern_of(code, &pattern);
        cr_expect_eq(note_of(&pattern, "r"), 1);
        cr_assert_eq(pattern.proofs.count, 1);
        const Proof *proof = &pattern.proofs.items[0];
        cr_expect_eq(proof->holds, tolds[i].holds, "%s", tolds[i].code);
        cr_expect_str_eq(proof->relation, tolds[i].relation);
        cr_expect_float_eq(proof->tolerance, tolds[i].tolerance, 1e-12, "%s", tolds[i].code);
        cr_expect_eq(proof->kind, PROOF_TOLD);
        cr_expect_str_eq(proof->what, "it");
        pattern_finish(&pattern);
    }
}

Test(lib_prove, a_proof_keeps_its_measure_and_its_way_out) {
    Pattern pattern = {0};
    pattern_of("prove \"it\" { 89, equals = 90, within = 2, unit = \"degrees\", way_out = \"turn it\" }",
               &pattern);
    const Proof *proof = &pattern.proofs.items[0];
    cr_expect_eq(proof->measure, MEASURE_ANGLE);
    cr_expect_str_eq(proof->way_out, "turn it");
    cr_expect_float_eq(proof->found, 89, 1e-12);
    cr_expect_float_eq(proof->wanted, 90, 1e-12);
    pattern_finish(&pattern);
}

Test(lib_prove, a_proof_that_says_nothing_is_an_error) {
    static const char *const wrongs[][2] = {
        {"prove \"it\" { 10 }", "7: prove: say at_least, at_most or equals | "},
        {"prove \"it\" { 10, at_least = 1, at_most = 2 }",
         "7: prove: say one of at_least, at_most and equals | "},
        {"prove \"it\" { at_least = 1 }", "7: prove: what was found should be a number, got nil | "},
        {"prove \"it\" { 0/0, at_least = 1 }", "7: prove: what was found is not a number (0/0, or a root of "
                                               "a negative number, somewhere above) | "},
        {"prove \"it\" { 1, at_leats = 1 }", "7: prove has no 'at_leats' | did you mean 'at_least'?"},
        {"prove \"it\" ()", "7: prove: say what is to hold: prove \"...\" { found, at_least = wanted } | "},
        {"prove \"it\" { 1, equals = 1, unit = \"mm\" }",
         "7: prove: the unit \"mm\" is unknown | unit is \"length\", \"area\", \"degrees\" or \"number\""},
        {"pull_on { slit = 3 }",
         "7: pull_on: round is missing | round is the length round the finished opening"},
        {"pull_on { round = 600, stretch = 30 }",
         "7: pull_on: stretch should be from 0 to 3, got 30 | stretch is a part: 0.03 is 3 per cent"},
        {"pull_on { round = 600 }\npull_on { round = 600 }",
         "8: pull_on was said already, in the step \"Bench\" | "},
    };
    for (size_t i = 0; i < sizeof wrongs / sizeof *wrongs; i++) {
        const char *said = fault_of(wrongs[i][0]);
        cr_expect_str_eq(said, wrongs[i][1], "%s: %s", wrongs[i][0], said);
    }
}

Test(lib_prove, a_collar_without_an_opening_is_warned_of) {
    const char *pieces =
        "needs { head_girth = \"round the head\" }\nlocal d = draft \"D\"\n"
        "d.p = piece(\"P\", { a = line(point(0, 0), point(100, 0)), b = line(point(100, 0), point(50, 80)),\n"
        "  c = line(point(50, 80), point(0, 0)) })\n";
    Pattern pattern = {0};
    pattern_of(pieces, &pattern);
    cr_assert_eq(pattern.remarks.count, 1);
    cr_expect(strstr(pattern.remarks.items[0].text, "pull_on"));
    pattern_finish(&pattern);
    char code[600];
    snprintf(code, sizeof code, "%spull_on { round = 60*cm, slit = 15*cm }", pieces);
    pattern_of(code, &pattern);
    cr_expect_eq(pattern.remarks.count, 0);
    cr_expect(pattern.pull_on.stated);
    cr_expect_float_eq(pattern.pull_on.head_girth, 560, 1e-9);
    pattern_finish(&pattern);
}
