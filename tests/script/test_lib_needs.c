// What a recipe needs, and what is said where it is missing.
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"
#include "script/words.h"

// How each is taken comes from the known measurements.
Test(lib_needs, a_missing_measurement_says_how_it_is_taken_and_given) {
    const char *text = bench_recipe("needs {\n  neck_girth = \"round the neck\" }");
    bench_fails((Bench){.text = text}, 8, "needs neck_girth: round the neck", "round the column of the neck");
    bench_fails((Bench){.text = text}, 8, "needs neck_girth: round the neck", "--set neck_girth=");
}

Test(lib_needs, all_missing_measurements_are_told_at_once) {
    const char *text = bench_recipe("needs {\n  bust_girth = \"the bust\",\n  neck_girth = \"the neck\",\n"
                                    "  odd_measure = \"an odd one\", waist_girth = \"the waist\" }");
    bench_fails(
        (Bench){.text = text}, 9, "needs 3 measurements more: neck_girth, odd_measure and waist_girth",
        "odd_measure: an odd one\nwaist_girth: level round the waist, the narrowest part of the body\ngive "
        "each as a line NAME = ... in the measurement file, or with --set NAME=...");
    bench_fails((Bench){.text = text, .settings = "waist_girth=70cm neck_girth=35cm"}, 10,
                "needs odd_measure", "--set odd_measure=");
}

Test(lib_needs, the_two_neck_girths_are_told_apart) {
    const char *text = bench_recipe("needs { neck_base_girth = \"the base of the neck\" }");
    bench_fails((Bench){.text = text, .settings = "neck_girth=35cm"}, 7, "needs neck_base_girth",
                "(not the neck_girth you have: that is taken round the column");
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(bench_run((Bench){.text = text}, &pattern, &fault));
    cr_expect_null(strstr(fault.hint, "neck_girth you have"), "%s", fault.hint);
    fault_finish(&fault);
}

Test(lib_needs, an_age_comes_as_a_plain_number_of_years) {
    Pattern pattern = {0};
    const char *text = bench_recipe("needs { age = \"how old\" }\nnote(\"r\", age, \"number\")");
    bench_runs((Bench){.text = text, .settings = "age=18months", .apart = true}, &pattern);
    cr_expect_float_eq(note_of(&pattern, "r"), 1.5, 1e-9);
    cr_expect_eq(pattern.inputs.items[pattern.inputs.count - 1].measure, MEASURE_YEARS);
    pattern_finish(&pattern);
    bench_runs((Bench){.text = text, .settings = "age=0years"}, &pattern); // a newborn
    cr_expect_float_eq(note_of(&pattern, "r"), 0, 1e-9);
    pattern_finish(&pattern);
    bench_fails((Bench){.text = text, .settings = "age=6cm"}, 7, "age=6cm: age is in years or months",
                "age=\"6 years\"");
    bench_fails((Bench){.text = text}, 7, "needs age", "the wearer's age at the last birthday");
}

Test(lib_needs, an_optional_measurement_that_is_not_given_is_missing) {
    Pattern pattern = {0};
    bench_runs((Bench){.text = bench_recipe("needs { waist_girth = { \"waist\", optional = true },\n"
                                            "  bust_girth = { \"bust\", optional = true } }\n"
                                            "r = waist_girth == nil and 1 or 2"),
                       .apart = true},
               &pattern);
    cr_assert_eq(pattern.inputs.count, 3);
    cr_expect(pattern.inputs.items[1].missing && pattern.inputs.items[1].is_default);
    cr_expect_not(pattern.inputs.items[2].missing);
    cr_expect_float_eq(pattern.inputs.items[2].value, 880, 1e-9);
    cr_expect_float_eq(note_of(&pattern, "r"), 1, 1e-9);
    pattern_finish(&pattern);
}

// The height of a collar, chosen, is not that of the wearer, whom a recipe of the shelf asks after.
Test(lib_needs, what_a_choice_takes_is_no_measurement) {
    Pattern pattern = {0};
    bench_runs(
        (Bench){
            .text = bench_recipe("choose { bust_girth = { 5*cm, from = 1*cm, to = 9*cm, \"a choice\" } }\n"
                                 "r = use(\"./other\").found\nchosen = bust_girth"),
            .other =
                "# Other\n\n```lua\nneeds { bust_girth = \"the bust\" }\ngive { found = bust_girth }\n```\n",
            .settings = "bust_girth=6cm"},
        &pattern);
    cr_expect_float_eq(note_of(&pattern, "r"), 880, 1e-9);
    cr_expect_float_eq(note_of(&pattern, "chosen"), 60, 1e-9);
    pattern_finish(&pattern);
}

// Nor where a neckline asks after the wearer and the collar that comes later has a height.
Test(lib_needs, what_a_later_recipe_chooses_is_no_measurement_either) {
    char block[3000];
    snprintf(block, sizeof block,
             "# First\n\nIt.\n\n```lua\nneeds { bust_girth = \"the bust\" }\nfound = bust_girth\n%s\n```\n",
             words_find("bodice")->example);
    Pattern pattern = {0};
    bench_runs((Bench){.block = block,
                       .text = bench_recipe(
                           "choose { bust_girth = { 5*cm, from = 1*cm, to = 9*cm, \"a choice\" } }\n"
                           "chosen = bust_girth"),
                       .settings = "bust_girth=6cm"},
               &pattern);
    cr_expect_float_eq(note_of(&pattern, "found"), 880, 1e-9);
    cr_expect_float_eq(note_of(&pattern, "chosen"), 60, 1e-9);
    pattern_finish(&pattern);
}
