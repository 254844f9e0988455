#include "recipe/words.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "base/buffer.h"

// The words joined by "|", strings in brackets.
static void splits(const char *chunk, const char *wanted) {
    Buffer got;
    buffer_init(&got);
    Words words = words_of(chunk);
    for (Word word; words_next(&words, &word);) {
        const char *form = word.kind == WORD_STRING ? "[%.*s]|" : "%.*s|";
        char text[256];
        snprintf(text, sizeof text, form, (int)word.length, word.text);
        buffer_add_text(&got, text);
    }
    cr_expect_str_eq(got.data, wanted);
    buffer_finish(&got);
}

Test(words, names_signs_and_numbers_are_told_apart) {
    splits("a_1 = 3.5e-2*b.c", "a_1|=|3.5e-2|*|b|.|c|");
    splits("0x1p-3-1 == x", "0x1p-3|-|1|==|x|");
    splits("a..b ... ::l:: x<=y~=z//2", "a|..|b|...|::|l|::|x|<=|y|~=|z|//|2|");
}

Test(words, comments_are_left_out) {
    splits("a -- b\nc", "a|c|");
    splits("a --[[ b\n c ]] d", "a|d|");
    splits("a --[==[ ]] ]=] \n ]==] d", "a|d|");
    splits("a --[b\nc", "a|c|");
    splits("a - -b", "a|-|-|b|");
    splits("--[[ never closed", "");
}

Test(words, strings_hold_what_stands_between_their_marks) {
    splits("f \"a -- b\" 'c\"d'", "f|[a -- b]|[c\"d]|");
    splits("[[x]] [=[y]]z]=]", "[x]|[y]]z]|");
    splits("\"a\\\"b\" c", "[a\\\"b]|c|");
    splits("\"not closed\nnext", "[not closed]|next|");
    splits("\"ends in \\", "[ends in \\]|");
    splits("t[i]", "t|[|i|]|");
}

Test(words, lines_are_counted) {
    Words words = words_of("a\n--[[\n\n]] b \"x\\\ny\" c\n\nd");
    int lines[5] = {0}, count = 0;
    for (Word word; words_next(&words, &word);)
        lines[count++] = word.line;
    cr_assert_eq(count, 5);
    cr_assert(lines[0] == 1 && lines[1] == 4 && lines[2] == 4 && lines[3] == 5 && lines[4] == 7);
}
