#include "base/text.h"

#include <criterion/criterion.h>
#include <string.h>

static const char *const names[] = {"shoulder", "neckline", "centre", "S", "hem", "side", "quarter"};
#define NAMES_COUNT ((int)(sizeof names / sizeof names[0]))

static void nearest_is(const char *typed, const char *wanted) {
    const char *got = text_nearest(typed, names, NAMES_COUNT);
    cr_expect(wanted ? got && strcmp(got, wanted) == 0 : !got, "%s: %s", typed, got ? got : "none");
}

Test(text, a_slip_of_a_letter_or_two_finds_the_name) {
    nearest_is("sholder", "shoulder");
    nearest_is("shuolder", "shoulder");
    nearest_is("quater", "quarter");
    nearest_is("Neckline", "neckline");
    nearest_is("necklnie", "neckline");
    nearest_is("center", "centre");
    nearest_is("s", "S");
    nearest_is("hemm", "hem");
    nearest_is("sied", "side");
}

Test(text, other_words_find_nothing) {
    nearest_is("armhole", NULL);
    nearest_is("x", NULL);
    nearest_is("", NULL);
    nearest_is("hat", NULL);
    nearest_is("a_name_that_goes_on_and_on_and_on_until_nobody_could_have_meant_it", NULL);
    cr_assert_null(text_nearest("side", names, 0));
}

// The worked examples of the edit distance in textbooks: kitten to sitting takes 3, and a swap counts once.
Test(text, slips_are_counted_as_in_the_textbooks) {
    cr_assert_eq(text_slips("kitten", "sitting"), 3);
    cr_assert_eq(text_slips("ca", "ac"), 1);
    cr_assert_eq(text_slips("ca", "abc"), 3); // each letter is changed once at most
    cr_assert_eq(text_slips("", "abc"), 3);
    cr_assert_eq(text_slips("Side", "side"), 0);
}

// Well-formed and malformed sequences of table 3-7 of the Unicode standard.
Test(text, utf8_is_told_from_what_only_looks_like_it) {
    static const char *const good[] = {
        "", "abc", "é", "⅝", "\xF0\x9F\xA7\xB5", "\xED\x9F\xBF", "\xEE\x80\x80", "\xF4\x8F\xBF\xBF"};
    static const char *const bad[] = {"\x80",
                                      "\xC0\xAF",
                                      "\xC1\xBF",
                                      "\xC3",
                                      "\xC3(",
                                      "\xE0\x80\xAF",
                                      "\xED\xA0\x80",
                                      "\xE2\x85",
                                      "\xFE",
                                      "\xFF",
                                      "\xF0\x80\x80\x80",
                                      "\xF4\x90\x80\x80",
                                      "\xF5\x80\x80\x80",
                                      "a\xE2(a"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        cr_expect(text_is_utf8(good[i], strlen(good[i])), "good %zu", i);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        cr_expect_not(text_is_utf8(bad[i], strlen(bad[i])), "bad %zu", i);
    cr_expect(text_is_utf8("\0", 1));
    cr_expect_not(text_is_utf8("⅝", 2), "a code point that is cut off");
}

Test(text, code_points_come_one_at_a_time) {
    static const uint32_t wanted[] = {'a', 0xE9, 0x215D, 0x1F9F5, 0xFFFD, 'b', 0xFFFD, 0};
    const char *at = "aé⅝\xF0\x9F\xA7\xB5\xFF"
                     "b\xE2";
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
        cr_assert_eq(text_next(&at), wanted[i], "%zu", i);
    cr_assert_eq(text_next(&at), 0u, "the end stays the end");
}

Test(text, starts_and_ends_are_compared_whole) {
    cr_assert(text_starts("neckline", "neck") && !text_starts("neck", "neckline") && text_starts("x", ""));
    cr_assert(text_ends("a.md", ".md") && !text_ends("md", ".md") && text_ends("x", ""));
}

static void line_is(const char *text, int line, const char *wanted) {
    size_t length = 0;
    const char *got = text_line(text, line, &length);
    cr_expect(wanted ? got && length == strlen(wanted) && memcmp(got, wanted, length) == 0 : !got, "line %d",
              line);
}

Test(text, lines_are_found_whatever_ends_them) {
    line_is("one\ntwo\r\nthree\rfour", 1, "one");
    line_is("one\ntwo\r\nthree\rfour", 2, "two");
    line_is("one\ntwo\r\nthree\rfour", 3, "three");
    line_is("one\ntwo\r\nthree\rfour", 4, "four");
    line_is("one\ntwo\r\nthree\rfour", 5, NULL);
    line_is("", 1, "");
    line_is("\n\n", 2, "");
}

Test(text, endings_are_compared_in_any_case) {
    cr_expect(text_ends_any_case("A.PDF", ".pdf"));
    cr_expect(text_ends_any_case("a.Pattern", ".pattern"));
    cr_expect_not(text_ends_any_case("a.pdf", ".svg"));
    cr_expect_not(text_ends_any_case("df", ".pdf"));
}
