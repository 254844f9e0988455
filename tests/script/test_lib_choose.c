// What the designer chooses, and what the command line says for it.
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

static const char choices[] = "choose {\n  height = { 10*cm, from = 4*cm, to = 25*cm, \"height\" },\n"
                              "  cut = { \"seam\", \"fold\", \"how it is cut\" },\n"
                              "  part = { 0.5, from = 0, to = 1, unit = \"number\", \"a part\" } }\n"
                              "r, s = height, part\nif cut == \"fold\" then t = 1 else t = 0 end";

Test(lib_choose, settings_are_read_as_people_write_them) {
    Pattern pattern = {0};
    bench_runs((Bench){.text = bench_recipe(choices), .settings = "height=61mm cut=fold part=0.25"},
               &pattern);
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
    bench_fails((Bench){.text = text, .settings = "height=61"}, 8, "height=61", "height=\"14 cm\"");
    bench_fails((Bench){.text = text, .settings = "height=61cm"}, 8, "it should be from 4.0 cm to 25.0 cm",
                "--set height=...; or leave it out for the usual 10.0 cm");
    bench_fails((Bench){.text = text, .settings = "cut=fodl"}, 9, "should be one of seam, fold",
                "did you mean \"fold\"?");
    bench_fails((Bench){.text = text, .settings = "part=half"}, 10, "a plain number", "");
    bench_fails((Bench){.text = text, .settings = "heigth=6cm"}, 0,
                "no recipe of the chain needs or chooses 'heigth'", "did you mean 'height'?");
    const char *inside =
        "# Other\n\n```lua\nchoose { slit = { 5*cm, from = 1*cm, to = 9*cm, \"a slit\" } }\n```\n";
    bench_fails((Bench){.text = bench_recipe("use(\"./other\")"), .other = inside, .settings = "slit=6cm"}, 0,
                "no recipe of the chain needs or chooses 'slit'",
                "'slit' belongs to a recipe that one of them uses");
}

Test(lib_choose, a_choice_that_cannot_be_is_told_at_its_row) {
    bench_fails(
        (Bench){.text = bench_recipe("choose {\n  a = { 1, \"a\" },\n  b = { 5, from = 9, \"b\" } }")}, 9,
        "the default of 'b' is 0.5 cm; it should be at least 0.9 cm", "");
    bench_fails((Bench){.text = bench_recipe("choose {\n  a = { 1, \"a\" },\n  line = { 5, \"b\" } }")}, 9,
                "'line' is a word of the language", "");
    bench_fails((Bench){.text = bench_recipe("choose {\n  a = { 1, \"a\" } }\na = 3")}, 9,
                "'a' was named at line 8 already", "");
    bench_fails(
        (Bench){.text = bench_recipe("pcall(choose, { a = { 5, from = 9, \"b\" } })\n\nerror(\"later\")")}, 9,
        "later", "");
}

Test(lib_choose, a_survey_lists_the_inputs_and_drafts_nothing) {
    Pattern pattern = {0};
    const char *text =
        bench_recipe("needs { head_girth = \"round the head\", bust_girth = { \"bust\", optional = true } }\n"
                     "choose { height = { head_girth / 8, from = 4*cm, to = 25*cm, \"height\" } }\n"
                     "local front = bodice.front\nfront.S = point(0, 0)");
    bench_runs((Bench){.text = text, .survey = true, .no_block = true}, &pattern);
    cr_expect_eq(pattern.inputs.count, 4);
    cr_expect_str_eq(pattern.inputs.items[0].name, "bodice");
    cr_expect_str_eq(pattern.inputs.items[3].name, "height");
    cr_expect_float_eq(pattern.inputs.items[3].value, 70, 1e-4);
    cr_expect_eq(pattern.drafts.count, 0);
    pattern_finish(&pattern);
}
