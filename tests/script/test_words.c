// The words: every row is complete, every word bound has a row, every example runs.
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"
#include "script/words.h"

static const char *const subjects[] = {"recipe",           "points", "paths",
                                       "drafts",           "pieces", "seams and proofs",
                                       "text and numbers", "bodice", "measurements"};

static bool is_subject(const char *subject) {
    for (size_t i = 0; i < sizeof subjects / sizeof *subjects; i++)
        if (strcmp(subjects[i], subject) == 0)
            return true;
    return false;
}

Test(words, every_row_is_complete) {
    int count;
    const WordRow *rows = words_all(&count);
    cr_expect_geq(count, 80);
    for (int i = 0; i < count; i++) {
        cr_expect(is_subject(rows[i].subject), "%s: %s", rows[i].name, rows[i].subject);
        cr_expect(rows[i].usage && rows[i].usage[0], "%s has no usage", rows[i].name);
        const size_t length = rows[i].about ? strlen(rows[i].about) : 0;
        cr_expect(length > 10 && rows[i].about[length - 1] == '.', "%s is not explained", rows[i].name);
        for (int j = 0; j < i; j++)
            cr_expect_str_neq(rows[i].name, rows[j].name);
    }
}

// Its fault, or "".
static const char *example_fault(const WordRow *row) {
    static char said[2000];
    Buffer recipe;
    Pattern pattern = {0};
    Fault fault;
    buffer_init(&recipe);
    fault_init(&fault);
    words_recipe(row, &recipe);
    bool fine = bench_run((Bench){.text = recipe.data}, &pattern, &fault);
    snprintf(said, sizeof said, "%s%s", fine ? "" : fault.message, !fine && fault.hint ? fault.hint : "");
    pattern_finish(&pattern);
    fault_finish(&fault);
    buffer_finish(&recipe);
    return said;
}

Test(words, every_row_has_an_example_that_shows_it_and_runs, .timeout = 60) {
    int count;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++) {
        cr_assert_not_null(rows[i].example, "%s has no example", rows[i].name);
        const char *wrong = example_fault(&rows[i]);
        cr_expect_str_empty(wrong, "%s: %s\n%s", rows[i].name, wrong, rows[i].example);
        cr_expect(strstr(rows[i].example,
                         strpbrk(rows[i].name, ".:") ? strpbrk(rows[i].name, ".:") + 1 : rows[i].name),
                  "the example of %s does not show it", rows[i].name);
    }
}

Test(words, the_words_of_the_language_are_counted_without_lua_and_what_is_given) {
    int count, others = 0;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++)
        others += words_is_given(&rows[i]) || strcmp(rows[i].subject, "text and numbers") == 0;
    cr_expect_eq(words_count(), count - others);
    cr_expect(others > 16 && words_count() > 40);
}

// Looks a word up in the running state: every row is bound, and a word without a row is not.
Test(words, every_row_is_bound_and_nothing_else_is) {
    int count;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++) {
        char code[300];
        if (strpbrk(rows[i].name, ".:") || words_is_given(&rows[i]))
            continue; // methods and fields: their examples run
        snprintf(code, sizeof code, "assert(%s ~= nil)", rows[i].name);
        const char *wrong = fault_of(code);
        cr_expect_str_empty(wrong, "%s: %s", rows[i].name, wrong);
    }
    static const char *const absent[] = {
        "load",         "loadstring",   "dofile", "loadfile",  "require", "package",
        "io",           "os",           "debug",  "coroutine", "utf8",    "collectgarbage",
        "setmetatable", "getmetatable", "rawget", "rawset",    "rawlen",  "rawequal",
        "print",        "warn2",        "xpcall", "_G",        "_VERSION"};
    for (size_t i = 0; i < sizeof absent / sizeof *absent; i++) {
        char code[100];
        snprintf(code, sizeof code, "local x = %s", absent[i]);
        cr_expect(strstr(fault_of(code), "nothing is called"), "%s is there", absent[i]);
    }
}

// What is given is no word: a recipe that does not ask for it has nothing of the name.
Test(words, what_a_recipe_is_given_is_explained_but_not_bound) {
    int count, known;
    const WordRow *rows = words_all(&count);
    measure_known_all(&known);
    int given = 0;
    for (int i = 0; i < count; i++) {
        if (!words_is_given(&rows[i]))
            continue;
        given++;
        char code[120];
        snprintf(code, sizeof code, "local x = %s", rows[i].name);
        if (strcmp(rows[i].name, "bodice") != 0) // which the bench asks for
            cr_expect(strstr(fault_of(code), "nothing is called"), "%s", rows[i].name);
    }
    cr_expect_eq(given, 1 + known);
    cr_expect_str_eq(words_find("head_girth")->about,
                     "A measurement, the head girth: level round the widest part of "
                     "the head, above the ears, hair as worn.");
    cr_expect_str_eq(words_nearest("head_grth"), "head_girth");
}

// The example of bodice is a block: a collar is drawn on it.
Test(words, the_example_of_a_bodice_is_a_block) {
    char block[2000];
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    snprintf(block, sizeof block, "# Typed\n\nBy hand.\n\n```lua\n%s\n```\n", words_find("bodice")->example);
    cr_assert(bench_run((Bench){.block = block, .text = bench_recipe("r = bodice.back.shoulder_point.x")},
                        &pattern, &fault),
              "%s", fault.message);
    cr_expect_float_eq(note_of(&pattern, "r"), 195, 1e-9);
    pattern_finish(&pattern);
    fault_finish(&fault);
}

Test(words, those_of_a_subject_stand_together_in_their_order) {
    int count;
    const WordRow *rows = words_all(&count);
    for (int i = 1; i < count; i++)
        for (int k = 0; k < i - 1 && strcmp(rows[i].subject, rows[i - 1].subject) != 0; k++)
            cr_expect_str_neq(rows[k].subject, rows[i].subject, "%s", rows[i].name);
    const WordRow *point = words_find("point");
    cr_expect_str_eq(point[1].name, "point.x");
    cr_expect_str_eq(point[2].name, "point.y");
}

Test(words, a_word_is_found_by_its_last_part) {
    cr_expect_str_eq(words_find("meet")->name, "path:meet");
    cr_expect_str_eq(words_find("path:meet")->name, "path:meet");
    cr_expect_str_eq(words_find("curve")->name, "curve");
    cr_expect_null(words_find("nonsense"));
    cr_expect_str_eq(words_nearest("ofset"), "offset");
    cr_expect_null(words_nearest("zzzzzzzzzz"));
}
