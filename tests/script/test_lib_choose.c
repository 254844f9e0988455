// What goes in: needs, choose, and what the command line and the body say for them.
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
Test(lib_choose, a_missing_measurement_says_how_it_is_taken_and_given) {
    const char *text = bench_recipe("needs {\n  neck_girth = \"round the neck\" }");
    fails((Bench){.text = text}, 8, "needs neck_girth: round the neck", "round the column of the neck");
    fails((Bench){.text = text}, 8, "needs neck_girth: round the neck", "--set neck_girth=");
}

Test(lib_choose, all_missing_measurements_are_told_at_once) {
    const char *text = bench_recipe("needs {\n  bust_girth = \"the bust\",\n  neck_girth = \"the neck\",\n"
                                    "  odd_measure = \"an odd one\", waist_girth = \"the waist\" }");
    fails((Bench){.text = text}, 9, "needs 3 measurements more: neck_girth, odd_measure and waist_girth",
          "odd_measure: an odd one; waist_girth: level round the waist, the narrowest part of the body; give "
          "each as a line NAME = ... in the measurement file, or with --set NAME=...");
    fails((Bench){.text = text, .settings = "waist_girth=70cm neck_girth=35cm"}, 10, "needs odd_measure",
          "--set odd_measure=");
}

Test(lib_choose, the_two_neck_girths_are_told_apart) {
    const char *text = bench_recipe("needs { neck_base_girth = \"the base of the neck\" }");
    fails((Bench){.text = text, .settings = "neck_girth=35cm"}, 7, "needs neck_base_girth",
          "it is not the neck_girth you have");
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(bench_run((Bench){.text = text}, &pattern, &fault));
    cr_expect_null(strstr(fault.hint, "neck_girth you have"), "%s", fault.hint);
    fault_finish(&fault);
}

static const char choices[] = "choose {\n  height = { 10*cm, from = 4*cm, to = 25*cm, \"height\" },\n"
                              "  cut = { \"seam\", \"fold\", \"how it is cut\" },\n"
                              "  part = { 0.5, from = 0, to = 1, unit = \"number\", \"a part\" } }\n"
                              "r, s = height, part\nif cut == \"fold\" then t = 1 else t = 0 end";

Test(lib_choose, settings_are_read_as_people_write_them) {
    Pattern pattern = {0};
    runs((Bench){.text = bench_recipe(choices), .settings = "height=61mm cut=fold part=0.25"}, &pattern);
    cr_expect_float_eq(note_of(&pattern, "r"), 61, 1e-9);
    cr_expect_float_eq(note_of(&pattern, "s"), 0.25, 1e-9);
    cr_expect_float_eq(note_of(&pattern, "t"), 1, 1e-9);
    cr_expect_str_eq(pattern.inputs.items[1].name, "height");
    cr_expect_str_eq(pattern.inputs.items[2].name, "cut");
    cr_expect_not(pattern.inputs.items[1].is_default);
    pattern_finish(&pattern);
}

Test(lib_choose, a_setting_that_will_not_do_is_told_at_the_row_of_its_choice) {
    const char *text = bench_recipe(choices);
    fails((Bench){.text = text, .settings = "height=61"}, 8, "height=61", "height=\"14 cm\"");
    fails((Bench){.text = text, .settings = "height=61cm"}, 8, "it should be from 4.0 cm to 25.0 cm",
          "--set height=...; or leave it out for the usual 10.0 cm");
    fails((Bench){.text = text, .settings = "cut=fodl"}, 9, "should be one of seam, fold",
          "did you mean \"fold\"?");
    fails((Bench){.text = text, .settings = "part=half"}, 10, "a plain number", "");
    fails((Bench){.text = text, .settings = "heigth=6cm"}, 0,
          "no recipe of the chain needs or chooses 'heigth'", "did you mean 'height'?");
}

Test(lib_choose, a_choice_that_cannot_be_is_told_at_its_row) {
    fails((Bench){.text = bench_recipe("choose {\n  a = { 1, \"a\" },\n  b = { 5, from = 9, \"b\" } }")}, 9,
          "the default of 'b' is 0.5 cm; it should be at least 0.9 cm", "");
    fails((Bench){.text = bench_recipe("choose {\n  a = { 1, \"a\" },\n  line = { 5, \"b\" } }")}, 9,
          "'line' is a word of the language", "");
    fails((Bench){.text = bench_recipe("choose {\n  a = { 1, \"a\" } }\na = 3")}, 9,
          "'a' was named at line 8 already", "");
    fails((Bench){.text = bench_recipe("pcall(choose, { a = { 5, from = 9, \"b\" } })\n\nerror(\"later\")")},
          9, "later", "");
}

Test(lib_choose, a_survey_lists_the_inputs_and_drafts_nothing) {
    Pattern pattern = {0};
    const char *text =
        bench_recipe("needs { head_girth = \"round the head\", bust_girth = { \"bust\", optional = true } }\n"
                     "choose { height = { head_girth / 8, from = 4*cm, to = 25*cm, \"height\" } }\n"
                     "local front = bodice.front\nfront.S = point(0, 0)");
    runs((Bench){.text = text, .survey = true, .no_block = true}, &pattern);
    cr_expect_eq(pattern.inputs.count, 4);
    cr_expect_str_eq(pattern.inputs.items[0].name, "bodice");
    cr_expect_str_eq(pattern.inputs.items[3].name, "height");
    cr_expect_float_eq(pattern.inputs.items[3].value, 70, 1e-4);
    cr_expect_eq(pattern.drafts.count, 0);
    pattern_finish(&pattern);
}

Test(lib_choose, an_optional_measurement_that_is_not_given_is_missing) {
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
