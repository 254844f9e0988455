#include "base/fault.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

static void writes(const Fault *fault, const char *source, const char *wanted) {
    Buffer out;
    buffer_init(&out);
    fault_write(fault, source, &out);
    cr_expect_str_eq(out.data, wanted);
    buffer_finish(&out);
}

Test(fault, a_hint_of_several_lines_is_told_line_by_line) {
    Fault fault;
    Buffer text;
    fault_init(&fault);
    buffer_init(&text);
    fault_set(&fault, NULL, 0, "two\nare missing");
    fault_set_hint(&fault, "one: \033[0m\nother: there");
    fault_write(&fault, NULL, &text);
    cr_expect_str_eq(text.data, "two are missing\n\n  one:  [0m\n  other: there\n");
    buffer_finish(&text);
    fault_finish(&fault);
}

Test(fault, the_whole_fault_shows_place_lines_step_and_hint) {
    Fault fault;
    fault_init(&fault);
    fault_set(&fault, "funnel.md", 3, "the offset of '%s' does not meet '%s'", "axis", "shoulder");
    fault_set_step(&fault, "Rule the width");
    fault_set_hint(&fault, "the offset runs %.1f cm from 'axis'", 20.0);
    writes(&fault, "one\n\nfront.S = 1\nfour\n",
           "funnel.md:3: the offset of 'axis' does not meet 'shoulder'\n"
           "\n"
           "    2 |\n"
           "  > 3 | front.S = 1\n"
           "\n"
           "  in the step \"Rule the width\"\n"
           "  the offset runs 20.0 cm from 'axis'\n");
    writes(&fault, NULL,
           "funnel.md:3: the offset of 'axis' does not meet 'shoulder'\n"
           "\n"
           "  in the step \"Rule the width\"\n"
           "  the offset runs 20.0 cm from 'axis'\n");
    writes(&fault, "one line only",
           "funnel.md:3: the offset of 'axis' does not meet 'shoulder'\n"
           "\n"
           "  in the step \"Rule the width\"\n"
           "  the offset runs 20.0 cm from 'axis'\n");
    fault_finish(&fault);
}

Test(fault, what_is_not_known_is_left_out) {
    Fault fault;
    fault_init(&fault);
    fault_set(&fault, NULL, 0, "plain");
    writes(&fault, "source", "plain\n");
    fault_set(&fault, "a.md", 0, "placed");
    writes(&fault, "source", "a.md: placed\n");
    fault_finish(&fault);
}

Test(fault, line_numbers_stand_in_a_column) {
    Fault fault;
    fault_init(&fault);
    fault_set(&fault, "a.md", 10, "x");
    writes(&fault, "1\n2\n3\n4\n5\n6\n7\n8\nnine\nten", "a.md:10: x\n\n     9 | nine\n  > 10 | ten\n");
    fault_set(&fault, "a.md", 1, "x");
    writes(&fault, "first\nsecond", "a.md:1: x\n\n  > 1 | first\n");
    fault_finish(&fault);
}

Test(fault, a_new_fault_takes_the_place_of_the_old_even_when_it_quotes_it) {
    Fault fault;
    fault_init(&fault);
    fault_set(&fault, "a.md", 1, "first");
    fault_set_hint(&fault, "hint");
    fault_set(&fault, fault.file, 2, "then %s", fault.message);
    cr_assert_str_eq(fault.file, "a.md");
    cr_assert_str_eq(fault.message, "then first");
    cr_assert_null(fault.hint);
    fault_set_step(&fault, "S");
    fault_set_step(&fault, fault.step);
    cr_assert_str_eq(fault.step, "S");
    fault_finish(&fault);
    fault_finish(&fault);
}

Test(fault, a_strangers_text_cannot_reach_the_terminal) {
    Fault fault;
    fault_init(&fault);
    fault_set(&fault, "a.md", 1, "bad name '%s'", "x\n\x1B[2Jy\x7F");
    cr_assert_str_eq(fault.message, "bad name 'x  [2Jy '");
    writes(&fault, "\tz\x1B[31m\x07", "a.md:1: bad name 'x  [2Jy '\n\n  > 1 |     z [31m \n");
    fault_finish(&fault);
}

Test(fault, a_long_line_is_cut_between_letters) {
    char source[1001], wanted[400];
    for (int i = 0; i < 1000; i += 2)
        memcpy(source + i, "é", 2);
    source[1000] = '\0';
    source[0] = source[1] = 'a'; // so that the 160th byte falls between two letters, then not
    Fault fault;
    fault_init(&fault);
    fault_set(&fault, "a.md", 1, "x");
    snprintf(wanted, sizeof wanted, "a.md:1: x\n\n  > 1 | %.160s...\n", source);
    writes(&fault, source, wanted);
    source[1] = '\xC3';
    source[2] = '\xA9';
    memset(source + 3, 'b', 996);
    memcpy(source + 159, "é", 2);
    snprintf(wanted, sizeof wanted, "a.md:1: x\n\n  > 1 | %.159s...\n", source);
    writes(&fault, source, wanted);
    fault_finish(&fault);
}
