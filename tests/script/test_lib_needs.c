// What a recipe needs, and what is said where it is missing.
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

static void runs(Bench bench, Pattern *out) {
    Fault fault;
    fault_init(&fault);
    const bool fine = bench_run(bench, out, &fault);
    cr_assert(fine, "%d: %s (%s)", fault.line, fault.message, fault.hint ? fault.hint : "");
    fault_finish(&fault);
}

// The fault of a recipe with settings; line, message and hint each have what they should.
static void fails(Bench bench, int line, const char *message, const char *hint) {
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(bench_run(bench, &pattern, &fault), "%s", message);
    cr_expect_eq(fault.line, line, "line %d: %s", fault.line, fault.message);
    cr_expect(strstr(fault.message, message), "%s", fault.message);
    cr_expect(strstr(fault.hint ? fault.hint : "", hint), "%s | %s", fault.message, fault.hint);
    fault_finish(&fault);
}

// How each is taken comes from the known measurements.
Test(lib_needs, a_missing_measurement_says_how_it_is_taken_and_given) {
    const char *text = bench_recipe("needs {\n  neck_girth = \"round the neck\" }");
    fails((Bench){.text = text}, 8, "needs neck_girth: round the neck", "round the column of the neck");
    fails((Bench){.text = text}, 8, "needs neck_girth: round the neck", "--set neck_girth=");
}

Test(lib_needs, all_missing_measurements_are_told_at_once) {
    const char *text = bench_recipe("needs {\n  bust_girth = \"the bust\",\n  neck_girth = \"the neck\",\n"
                                    "  odd_measure = \"an odd one\", waist_girth = \"the waist\" }");
    fails((Bench){.text = text}, 9, "needs 3 measurements more: neck_girth, odd_measure and waist_girth",
          "odd_measure: an odd one; waist_girth: level round the waist, the narrowest part of the body; give "
          "each as a line NAME = ... in the measurement file, or with --set NAME=...");
    fails((Bench){.text = text, .settings = "waist_girth=70cm neck_girth=35cm"}, 10, "needs odd_measure",
          "--set odd_measure=");
}

Test(lib_needs, the_two_neck_girths_are_told_apart) {
    const char *text = bench_recipe("needs { neck_base_girth = \"the base of the neck\" }");
    fails((Bench){.text = text, .settings = "neck_girth=35cm"}, 7, "needs neck_base_girth",
          "(not the neck_girth you have: that is taken round the column");
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(bench_run((Bench){.text = text}, &pattern, &fault));
    cr_expect_null(strstr(fault.hint, "neck_girth you have"), "%s", fault.hint);
    fault_finish(&fault);
}

Test(lib_needs, an_optional_measurement_that_is_not_given_is_missing) {
    Pattern pattern = {0};
    runs((Bench){.text = bench_recipe("needs { waist_girth = { \"waist\", optional = true },\n"
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
