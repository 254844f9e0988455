#include <criterion/criterion.h>

#include <stdbool.h>
#include <string.h>

#include "said.h"
#include "script/words.h"

// The text on one line, as it was before it was broken into lines.
static void join_lines(Buffer *text) {
    size_t length = 0;
    bool space = false;
    for (const char *c = text->data; *c; c++) {
        space = space || *c == '\n' || *c == ' ';
        if (*c == '\n' || *c == ' ')
            continue;
        if (space)
            text->data[length++] = ' ';
        space = false;
        text->data[length++] = *c;
    }
    text->data[text->length = length] = '\0';
}

Test(words, the_reference_has_every_row_under_its_subject) {
    int count;
    const WordRow *rows = words_all(&count);
    Said s = said("rebato words");
    said_code(&s, 0);
    join_lines(&s.out);
    for (int i = 0; i < count; i++) {
        Buffer row;
        buffer_init(&row);
        buffer_add_format(&row, " %s %s", rows[i].usage, rows[i].about);
        join_lines(&row);
        said_out(&s, row.data);
        buffer_finish(&row);
    }
    said_finish(&s);
}

Test(words, one_word_is_told_with_its_example) {
    const WordRow *row = words_find("curve");
    cr_assert_not_null(row);
    Said s = said("rebato words curve");
    said_code(&s, 0);
    said_out(&s, row->usage);
    said_out(&s, "for example\n");
    said_finish(&s);
}

Test(words, a_subject_is_told_alone) {
    Said s = said("rebato words points");
    said_code(&s, 0);
    cr_expect(strncmp(s.out.data, "points\n", 7) == 0, "%s", s.out.data);
    cr_expect_null(strstr(s.out.data, "seams and proofs\n"));
    said_finish(&s);
}
