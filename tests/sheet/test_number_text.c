#include "sheet/number_text.h"

#include <criterion/criterion.h>
#include <string.h>

static const NumberMarks german = {.comma = true, .inch = "\u2033", .square_inch = "Zoll\u00B2"};

static void is_marked(const char *text, const char *wanted) {
    char out[64];
    number_text_mark(text, german, out, sizeof out);
    cr_expect_str_eq(out, wanted, "%s: %s, not %s", text, out, wanted);
}

Test(number_text, a_measure_has_the_marks_of_the_language) {
    is_marked("14.0 cm", "14,0 cm");
    is_marked("+1.5 mm", "+1,5 mm");
    is_marked("90.0\u00B0", "90,0\u00B0");
    is_marked("0.45 m\u00B2", "0,45 m\u00B2");
    is_marked("7 5/16 in", "7 5/16\u2033");
    is_marked("5/16 in", "5/16\u2033");
    is_marked("-3 in", "-3\u2033");
    is_marked("0.012 in", "0,012\u2033");
    is_marked("31 in\u00B2", "31 Zoll\u00B2");
}

Test(number_text, what_is_no_measure_stays) {
    is_marked("1.2.3", "1.2.3");
    is_marked("version 0.1", "version 0.1");
    is_marked("3 in 100", "3 in 100");
    is_marked("in", "in");
    is_marked("", "");
}

static void is_marked_within(const char *text, NumberMarks marks, const char *wanted) {
    Buffer out;
    buffer_init(&out);
    number_text_mark_within(text, marks, &out);
    cr_expect_str_eq(out.data, wanted, "%s: %s, not %s", text, out.data, wanted);
    buffer_finish(&out);
}

Test(number_text, measures_within_a_sentence_have_the_marks_of_the_language) {
    is_marked_within("usual: 2.5 cm to 4.0 cm.", german, "usual: 2,5 cm to 4,0 cm.");
    is_marked_within("\u00FCblich 2.5 cm\u20134.0 cm, 12.5 mm", german,
                     "\u00FCblich 2,5 cm\u20134,0 cm, 12,5 mm");
    is_marked_within("stretch it by those +0.3 cm (0.5 %)", german, "stretch it by those +0,3 cm (0,5 %)");
    is_marked_within("turn by 12.5\u00B0, on 31.5 cm\u00B2 or 1.5 m", german,
                     "turn by 12,5\u00B0, on 31,5 cm\u00B2 or 1,5 m");
    is_marked_within("from 7 5/16 in to 1/2 in, or 3 in.", german,
                     "from 7 5/16\u2033 to 1/2\u2033, or 3\u2033.");
    is_marked_within("0.012 in of 2 in\u00B2", german, "0,012\u2033 of 2 Zoll\u00B2");
}

Test(number_text, other_numbers_within_a_sentence_stay) {
    static const char *const others[] = {"16 CFR 1615 and women-88",
                                         "lay 2 in the seam",
                                         "3 in 100",
                                         "as 1.2.3 cm has it",
                                         "version 0.1",
                                         "h\u00E42.5 cm",
                                         "A2.5 cm",
                                         "2.5 cmx",
                                         "0,3 cm",
                                         "2.5 m\u00FCde",
                                         "1.5"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        is_marked_within(others[i], german, others[i]);
    is_marked_within("2.5 cm or 1/2 in", (NumberMarks){.inch = "in"}, "2.5 cm or 1/2 in");
}

Test(number_text, a_scale_has_the_mark_of_the_language) {
    char out[16];
    scale_text(0.4, german, out, sizeof out);
    cr_expect_str_eq(out, "1:2,5");
    scale_text(0.4, (NumberMarks){0}, out, sizeof out);
    cr_expect_str_eq(out, "1:2.5");
    scale_text(2, german, out, sizeof out);
    cr_expect_str_eq(out, "2:1");
}

Test(number_text, english_stays_as_it_is) {
    char out[64];
    number_text_mark("7 5/16 in", (NumberMarks){0}, out, sizeof out);
    cr_expect_str_eq(out, "7 5/16 in");
    number_text_mark("14.0 cm", (NumberMarks){.inch = "in"}, out, sizeof out);
    cr_expect_str_eq(out, "14.0 cm");
}
