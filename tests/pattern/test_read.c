#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/prove.h"
#include "pattern/report.h"
#include "pattern/write.h"
#include "sample.h"

static bool reads(const char *text, size_t length, Pattern *out) {
    Fault fault;
    fault_init(&fault);
    const bool read = pattern_read(text, length, out, &fault);
    cr_assert(read == (fault.message == NULL));
    if (!read)
        cr_assert_gt(fault.line, 0);
    fault_finish(&fault);
    return read;
}

static void refuses(const char *text, const char *from, const char *to) {
    Buffer changed;
    Pattern out;
    buffer_init(&changed);
    const char *at = strstr(text, from);
    cr_assert_not_null(at, "%s", from);
    buffer_add(&changed, text, (size_t)(at - text));
    buffer_add_text(&changed, to);
    buffer_add_text(&changed, at + strlen(from));
    cr_assert(!reads(changed.data, changed.length, &out), "%s", to);
    cr_assert_eq(out.pieces.count, 0);
    buffer_finish(&changed);
}

Test(read, what_does_not_hang_together_is_refused) {
    Pattern pattern;
    Buffer text;
    sample_pattern(&pattern);
    buffer_init(&text);
    pattern_write_bare(&pattern, &text);
    static const char *const changes[][2] = {
        {"rebato_pattern 1", "rebato_pattern 2"},
        {"units cm", "units ell"},
        {"\nend\n", "\n"},
        {"\nend\n", "\nend\nend\n"},
        {"step 1 9", "step 2 9"},
        {"step 1 9", "step 1.5 9"},
        {"piece \"Front funnel\" 0 1 1", "piece \"Front funnel\" 7 1 1"},
        {"piece \"Front funnel\" 0 1 1", "piece \"Front funnel\" 0 1 0"},
        {"notch 1 50", "notch 1 5000"},
        {"notch 1 50", "notch 99 50"},
        {"notch 1 50", "notch 1 nan"},
        {"notch 1 50", "notch 1 1e999"},
        {"notch 1 50", "notch 1 5\xC3"},
        {"  a 0 1", "  a 0 81"},
        {"  a 0 1", "  a 5 1"},
        {"\"Ada\"", "\"Ada"},
        {"\"Ada\"", "\"A\\da\""},
        {"\"Ada\"", "\"A\\x00da\""},
        {"\"Ada\"", "\"Ada\" 3"},
        {"edge \"side\" \"side\" forward 10", "edge \"side\" \"side\" forward -10"},
        {"edge \"side\" \"side\" forward 10 open", "edge \"side over top\" \"side\" forward 10 open"},
        {"edge \"side\" \"side\" forward", "edge \"side\" \"side\" backward"},
        {" 140 0 L 140 100", " 140 0 L 240 100"},
        {" 140 0 L 140 100", " 140 0"},
        {" 140 0 L 140 100", " 140 0 L 1e7 100"},
        {"point \"S\"", "pint \"S\""},
        {"remark caution", "remark bold"},
    };
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++)
        refuses(text.data, changes[i][0], changes[i][1]);
    pattern_finish(&pattern);
    buffer_finish(&text);
}

Test(read, the_fault_names_the_line) {
    Fault fault;
    Pattern out;
    fault_init(&fault);
    const char *text = "rebato_pattern 1\nunits cm\nnote \"a\" 0 length many -\nend\n";
    cr_assert(!pattern_read(text, strlen(text), &out, &fault));
    cr_assert_eq(fault.line, 3);
    cr_assert_str_eq(fault.message, "the pattern text is damaged: a number is missing");
    fault_finish(&fault);
}

Test(read, very_long_texts_and_stray_bytes_are_refused) {
    Pattern out;
    const size_t length = (16u << 20) + 1;
    char *text = mem_new(length);
    memset(text, ' ', length);
    cr_assert(!reads(text, length, &out));
    mem_free(text);
    cr_assert(!reads("rebato_pattern 1\0end\n", 21, &out));
    cr_assert(!reads("", 0, &out));
}

static unsigned long long random_state = 88172645463325252ull; // xorshift64 (Marsaglia 2003)
static unsigned next_random(void) {
    random_state ^= random_state << 13;
    random_state ^= random_state >> 7;
    random_state ^= random_state << 17;
    return (unsigned)(random_state >> 32);
}

// Whatever a damaged text holds, it is refused or it is a pattern that can be proven, reported and written
// again.
Test(read, damaged_texts_never_do_harm) {
    Pattern pattern;
    Buffer text, changed, first, second;
    sample_pattern(&pattern);
    pattern_prove(&pattern, NULL, 0, NULL);
    buffer_init(&text);
    buffer_init(&changed);
    buffer_init(&first);
    buffer_init(&second);
    pattern_write(&pattern, &text);
    static const char *const words[] = {"-",
                                        "\"",
                                        "\\",
                                        "0",
                                        "-1",
                                        "1e300",
                                        "nan",
                                        "99999999",
                                        "\n",
                                        " L ",
                                        " C ",
                                        "fold",
                                        "backward",
                                        "piece ",
                                        "edge ",
                                        "  notch 0 0 3 -\n",
                                        "0.00004",
                                        "-0.00004",
                                        "  a 0 0 forward\n",
                                        "pair",
                                        "across",
                                        "  cut 1 2"};
    int read = 0;
    for (int round = 0; round < 3000; round++) {
        buffer_clear(&changed);
        buffer_add(&changed, text.data, text.length);
        for (int k = next_random() % 4; k >= 0; k--) {
            const size_t at = next_random() % changed.length;
            const char *word = words[next_random() % (sizeof words / sizeof words[0])];
            switch (next_random() % 4) {
            case 0:
                changed.data[at] = (char)next_random();
                break;
            case 1:
                changed.data[at] = (char)('0' + next_random() % 10);
                break;
            case 2:
                memmove(changed.data + at, changed.data + at + 1, changed.length - at);
                changed.length--;
                break;
            default:
                buffer_add_text(&changed, word);
                memmove(changed.data + at + strlen(word), changed.data + at,
                        changed.length - at - strlen(word));
                memcpy(changed.data + at, word, strlen(word));
            }
        }
        Pattern out;
        if (!reads(changed.data, changed.length, &out))
            continue;
        read++;
        pattern_prove(&out, NULL, 0, NULL);
        buffer_clear(&first);
        pattern_report_json(&out, &first);
        for (int i = 0; i < out.proofs.count; i++)
            proof_sentence(&out, &out.proofs.items[i], &first);
        buffer_clear(&first);
        pattern_write(&out, &first);
        Pattern again;
        cr_assert(reads(first.data, first.length, &again));
        buffer_clear(&second);
        pattern_write(&again, &second);
        cr_assert_str_eq(second.data, first.data);
        pattern_finish(&again);
        pattern_finish(&out);
    }
    cr_assert_gt(read, 100);
    pattern_finish(&pattern);
    buffer_finish(&text);
    buffer_finish(&changed);
    buffer_finish(&first);
    buffer_finish(&second);
}
