// Drafts: paper on which a name is used once, and what is marked under it.
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

static const Draft *draft_called(const Pattern *pattern, const char *name) {
    for (int i = 0; i < pattern->drafts.count; i++)
        if (strcmp(pattern->drafts.items[i].name, name) == 0)
            return &pattern->drafts.items[i];
    cr_assert_fail("no draft '%s'", name);
    return NULL;
}

Test(lib_draft, marks_are_kept_in_order_with_their_lines) {
    Pattern pattern = {0};
    pattern_of("local d = draft \"D\"\nd.A = point(1, 2)\nd.base = line(d.A, d.A:right(50))\n"
               "r = d.base.length\nassert(d:name() == \"D\" and d:has \"A\" and not d:has \"B\")",
               &pattern);
    const Draft *draft = draft_called(&pattern, "D");
    cr_assert_eq(draft->marks.count, 2);
    cr_expect_str_eq(draft->marks.items[0].name, "A");
    cr_expect_eq(draft->marks.items[0].kind, MARK_POINT);
    cr_expect_eq(draft->marks.items[0].line, 8);
    cr_expect_float_eq(draft->marks.items[0].point.y, 2, 1e-12);
    cr_expect_eq(draft->marks.items[1].kind, MARK_PATH);
    cr_expect_eq(draft->marks.items[1].line, 9);
    cr_expect_float_eq(note_of(&pattern, "r"), 50, 1e-9);
    pattern_finish(&pattern);
}

Test(lib_draft, a_piece_enters_the_pattern_with_its_mark) {
    Pattern pattern = {0};
    pattern_of("local d = draft \"D\"\nlocal a, b, c = point(0, 0), point(100, 0), point(50, 80)\n"
               "d.p = piece(\"P\", { a = line(a, b), b = line(b, c), c = line(c, a) })\n"
               "local unused = piece(\"Q\", { a = line(a, b), b = line(b, c), c = line(c, a) })",
               &pattern);
    cr_assert_eq(pattern.pieces.count, 1);
    cr_expect_str_eq(pattern.pieces.items[0].name, "P");
    cr_expect_str_eq(pattern.drafts.items[pattern.pieces.items[0].draft].name, "D");
    const Mark *mark = draft_find_mark(draft_called(&pattern, "D"), "p");
    cr_assert_not_null(mark);
    cr_expect_eq(mark->kind, MARK_PIECE);
    cr_expect_eq(mark->piece, 0);
    pattern_finish(&pattern);
}

Test(lib_draft, a_measure_is_asked_for_on_the_figure) {
    Pattern pattern = {0};
    pattern_of("local d = draft \"D\"\nd:measure(point(0, 0), point(30, 40))\n"
               "d:measure(point(0, 0), point(0, 40), \"depth\")",
               &pattern);
    const Draft *draft = draft_called(&pattern, "D");
    cr_assert_eq(draft->dimensions.count, 2);
    cr_expect_null(draft->dimensions.items[0].text);
    cr_expect_float_eq(draft->dimensions.items[0].to.x, 30, 1e-12);
    cr_expect_str_eq(draft->dimensions.items[1].text, "depth");
    pattern_finish(&pattern);
}

Test(lib_draft, a_name_is_used_once_and_words_are_kept) {
    static const char *const wrongs[][2] = {
        {"local d = draft \"Front\"",
         "7: there is a draft 'Front' already, begun in the step \"Test block\" | "},
        {"local d = draft \"D\"\nd.has = point(0, 0)",
         "8: 'has' is a word of drafts; choose another name for the mark | "},
        {"local d = draft \"D\"\nd.A = point(0, 0)\nlocal x = d.a1", "9: nothing is marked 'a1' on 'D' | "},
        {"local d = draft \"D\"\nlocal x = d:mesure(point(0, 0), point(1, 1))",
         "8: nothing is marked 'mesure' on 'D' | did you mean 'measure'?"},
        {"local d = draft \"D\"\nlocal a, b, c = point(0, 0), point(100, 0), point(50, 80)\n"
         "local p = piece(\"P\", { a = line(a, b), b = line(b, c), c = line(c, a) })\nd.p = p\nd.q = p",
         "11: there is a piece 'P' already | finish the piece first, then put it on the draft; give another "
         "one another name"},
        {"bodice.front.x = {}",
         "7: a draft holds points, paths and pieces; 'x' got table | a number is noted "
         "under a plain name: x = ..."},
    };
    for (size_t i = 0; i < sizeof wrongs / sizeof *wrongs; i++) {
        const char *said = fault_of(wrongs[i][0]);
        cr_expect_str_eq(said, wrongs[i][1], "%s: %s", wrongs[i][0], said);
    }
}
