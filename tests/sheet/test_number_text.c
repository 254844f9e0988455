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

Test(number_text, english_stays_as_it_is) {
    char out[64];
    number_text_mark("7 5/16 in", (NumberMarks){0}, out, sizeof out);
    cr_expect_str_eq(out, "7 5/16 in");
    number_text_mark("14.0 cm", (NumberMarks){.inch = "in"}, out, sizeof out);
    cr_expect_str_eq(out, "14.0 cm");
}
