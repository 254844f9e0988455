// What recipes hand to each other, and what is said to their reader.
#include <math.h>
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

static const char other[] = "# Other\n\nUsed.\n\n```lua\nneeds { bodice = \"a bodice\" }\n"
                            "choose { depth = { 3*cm, from = 1*cm, to = 9*cm, \"depth\" } }\n"
                            "doubled = 2 * depth\ngive { doubled = doubled }\n```\n";

Test(lib_recipe, use_runs_another_with_its_own_names) {
    Pattern pattern = {0};
    const Bench bench = {
        .other = other,
        .text = bench_recipe("doubled = 1\nr = use(\"other\", { bodice = bodice, depth = 4*cm }).doubled\n"
                             "s = use(\"other\", { bodice = bodice }).doubled")};
    bench_runs(bench, &pattern);
    cr_expect_float_eq(note_of(&pattern, "r"), 80, 1e-9);
    cr_expect_float_eq(note_of(&pattern, "s"), 60, 1e-9);
    cr_expect_eq(pattern.chapters.count, 4);
    cr_expect_eq(pattern.chapters.items[2].depth, 1);
    pattern_finish(&pattern);
}

Test(lib_recipe, give_tells_whether_another_recipe_takes_it) {
    Pattern pattern = {0};
    bench_runs((Bench){.text = bench_recipe("r = give { a = 1 } and 1 or 0")}, &pattern);
    cr_expect_float_eq(note_of(&pattern, "r"), 0, 0, "the last of the chain: nobody takes it");
    pattern_finish(&pattern);
    bench_runs((Bench){.block = "# B\n\nUsed.\n\n```lua\nlocal f, b = draft \"F\", draft \"B\"\n"
                                "for h in each(f, b) do h.centre = line(point(0, -72), point(0, -400))\n"
                                "h.neckline = line(point(0, -72), point(67, 0))\n"
                                "h.shoulder = line(point(67, 0), point(184.8, -33.5)) end\n"
                                "taken = give { bodice = { front = f, back = b } } and 1 or 0\n```\n",
                       .text = bench_recipe("r = 1")},
               &pattern);
    cr_expect_float_eq(note_of(&pattern, "taken"), 1, 0, "a collar comes after the block");
    pattern_finish(&pattern);
    const char *used = "# Other\n\nUsed.\n\n```lua\ntaken = give { a = 1 } and 1 or 0\n```\n";
    bench_runs((Bench){.other = used, .text = bench_recipe("r = use(\"other\").a")}, &pattern);
    cr_expect_float_eq(note_of(&pattern, "taken"), 1, 0, "the recipe that uses it takes it");
    pattern_finish(&pattern);
}

Test(lib_recipe, use_minds_what_it_is_given) {
    bench_fails(
        (Bench){.other = other, .text = bench_recipe("use(\"other\", { bodice = bodice, dpeth = 4*cm })")}, 0,
        "neither needs nor chooses 'dpeth'", "");
    bench_fails(
        (Bench){.other = other, .text = bench_recipe("use(\"other\", { bodice = bodice, depth = 20*cm })")},
        0, "'depth' is 20.0 cm; it should be from 1.0 cm to 9.0 cm", "");
    bench_fails((Bench){.other = other, .text = bench_recipe("local name = \"other\"\nuse(name, {})\n")}, 0,
                "was not loaded", "");
}

Test(lib_recipe, recipes_that_use_each_other_without_end_are_stopped) {
    const char *ring = "# Other\n\nRing.\n\n```lua\nneeds { bodice = \"a bodice\" }\nuse(\"recipe\", { "
                       "bodice = bodice })\n```\n";
    bench_fails((Bench){.other = ring, .text = bench_recipe("use(\"other\", { bodice = bodice })")}, 0,
                "more than 16 deep", "");
    bench_fails(
        (Bench){.other = ring, .apart = true, .text = bench_recipe("use(\"other\", { bodice = bodice })")}, 0,
        "more than 16 deep", "");
}

Test(lib_recipe, a_survey_of_what_is_not_lua_is_a_fault) {
    bench_fails((Bench){.text = bench_recipe("if then"), .survey = true}, 0, "unexpected symbol", "");
    bench_fails((Bench){.text = bench_recipe("choose { a = 3 }"), .survey = true}, 0, "'a' should be", "");
    bench_fails((Bench){.text = bench_recipe("while true do end"),
                        .survey = true,
                        .limits = {.instructions = 1000000}},
                0, "too many steps", "");
}

Test(lib_recipe, values_of_the_prose_are_shown_in_their_own_measure) {
    Pattern pattern = {0};
    bench_runs((Bench){.text =
                           "# R\n\nIt is `= a`, turned `= b`, `= c` times, `= d`, `= a / 2`.\n\n```lua\na = "
                           "14*cm\nnote(\"b\", 142, "
                           "\"degrees\")\nnote(\"c\", 3, \"number\")\nd = \"words\"\n```\n",
                       .no_block = true},
               &pattern);
    cr_assert_eq(pattern.filled.count, 5);
    cr_expect_str_eq(pattern.filled.items[0].text, "14.0 cm");
    cr_expect_str_eq(pattern.filled.items[1].text, "142.0\xC2\xB0");
    cr_expect_str_eq(pattern.filled.items[2].text, "3");
    cr_expect_str_eq(pattern.filled.items[3].text, "words");
    cr_expect_str_eq(pattern.filled.items[4].text, "7.0 cm");
    pattern_finish(&pattern);
}

Test(lib_recipe, show_speaks_to_people) {
    Pattern pattern = {0};
    pattern_of(
        "a = show(140)\nb = show(142, \"degrees\")\nc = show(95200, \"area\")\nd = show(2.5, \"number\")\n"
        "e = show(3, \"signed\")\nf = show(-3, \"signed\")\ng = show(1.62, \"fine\")",
        &pattern);
    static const char *const shown[] = {"14.0 cm", "142.0\xC2\xB0", "952 cm\xC2\xB2", "2.5",
                                        "+0.3 cm", "-0.3 cm",       "1.6 mm"};
    cr_assert_eq(pattern.notes.count, 7);
    for (int i = 0; i < 7; i++)
        cr_expect_str_eq(pattern.notes.items[i].text, shown[i]);
    pattern_finish(&pattern);
}

Test(lib_recipe, solve_finds_what_is_wanted) {
    gives("r = solve { from = 1, to = 200, wanted = 100, function(d) return line(point(0, 0), point(60, "
          "-d)).length end, "
          "tolerance = 1e-8 }",
          80);
}
