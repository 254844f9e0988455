#include "pattern/write.h"

#include <criterion/criterion.h>
#include <string.h>
#include <time.h>

#include "base/text.h"
#include "sample.h"

static void read_back(const Buffer *text, Pattern *out) {
    Fault fault;
    fault_init(&fault);
    const bool read = pattern_read(text->data, text->length, out, &fault);
    cr_assert(read, "line %d: %s", fault.line, fault.message ? fault.message : "");
    fault_finish(&fault);
}

Test(write, what_is_written_reads_back_and_is_written_the_same) {
    Pattern pattern, again;
    Buffer first, second;
    sample_pattern(&pattern);
    buffer_init(&first);
    buffer_init(&second);
    pattern_write(&pattern, &first);
    read_back(&first, &again);
    pattern_write(&again, &second);
    cr_assert_str_eq(second.data, first.data);
    cr_assert_eq(again.pieces.count, 2);
    cr_assert_str_eq(again.chapters.items[1].summary, pattern.chapters.items[1].summary);
    cr_assert_str_eq(again.notes.items[3].text, pattern.notes.items[3].text);
    cr_assert_float_eq(again.notes.items[2].value, 140 * sqrt(2), 1e-6);
    cr_assert_not(again.inputs.items[0].missing || again.inputs.items[0].optional);
    cr_assert(again.inputs.items[2].missing && again.inputs.items[2].optional);
    cr_assert_eq(again.drafts.items[0].marks.count, 4);
    cr_assert_null(again.drafts.items[0].dimensions.items[1].text);
    cr_assert_float_eq(piece_area(&again.pieces.items[0]), piece_area(&pattern.pieces.items[0]), 0.1);
    cr_assert_null(strstr(first.data, "-0 "));
    cr_assert_null(strstr(first.data, "-0.0000"));
    cr_assert_not_null(strstr(first.data, "\n  cut "));
    pattern_finish(&pattern);
    pattern_finish(&again);
    buffer_finish(&first);
    buffer_finish(&second);
}

Test(write, the_bare_text_is_the_text_without_its_cut_lines) {
    Pattern pattern, again;
    Buffer full, bare, rest;
    sample_pattern(&pattern);
    buffer_init(&full);
    buffer_init(&bare);
    buffer_init(&rest);
    pattern_write(&pattern, &full);
    pattern_write_bare(&pattern, &bare);
    size_t length;
    for (int line = 1; text_line(full.data, line, &length) && length > 0; line++) {
        const char *at = text_line(full.data, line, &length);
        if (strncmp(at, "  cut ", 6) == 0)
            continue;
        buffer_add(&rest, at, length);
        buffer_add_char(&rest, '\n');
    }
    cr_assert_str_eq(bare.data, rest.data);
    read_back(&bare, &again);
    pattern_finish(&pattern);
    pattern_finish(&again);
    buffer_finish(&full);
    buffer_finish(&bare);
    buffer_finish(&rest);
}

Test(write, an_empty_pattern_and_bytes_that_are_no_text_survive) {
    Pattern pattern, again;
    Buffer text;
    pattern_init(&pattern);
    pattern.title = "a\xFF\x01z\x7F";
    buffer_init(&text);
    pattern_write(&pattern, &text);
    read_back(&text, &again);
    cr_assert_str_eq(again.title, "a\xEF\xBF\xBD\x01z\x7F");
    cr_assert_null(again.body);
    pattern_finish(&pattern);
    pattern_finish(&again);
    buffer_finish(&text);
}

Test(write, what_the_cutter_accepted_is_not_written) {
    Pattern pattern, again;
    Buffer open, accepted;
    sample_pattern(&pattern);
    buffer_init(&open);
    buffer_init(&accepted);
    pattern.proofs.items[0].holds = false;
    pattern_write(&pattern, &open);
    pattern.proofs.items[0].accepted = true;
    pattern_write(&pattern, &accepted);
    cr_assert_str_eq(accepted.data, open.data);
    read_back(&accepted, &again);
    cr_assert(!again.proofs.items[0].accepted);
    pattern_finish(&pattern);
    pattern_finish(&again);
    buffer_finish(&open);
    buffer_finish(&accepted);
}
