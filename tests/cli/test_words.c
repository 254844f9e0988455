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

Test(words, are_counted_at_the_end) {
    Said s = said("rebato words");
    Buffer line;
    buffer_init(&line);
    buffer_add_format(&line, "\n%d words of the language, besides ", words_count());
    said_out(&s, line.data);
    buffer_finish(&line);
    said_finish(&s);
}

// Every word that is not given, its example drawn into a file, or told where it draws nothing.
Test(words, every_example_draws_or_tells_something, .timeout = 120) {
    Said s = said(
        "for word in $(rebato words --names); do rebato words $word -o w.svg >out || echo \"$word fails\"; "
        "if grep -q 'draws nothing' out; then grep -q 'which tells' out || echo \"$word: nothing at all\"; "
        "[ -e w.svg ] && echo \"$word: a file all the same\"; "
        "else grep -q '<path' w.svg || echo \"$word: an empty figure\"; fi; rm -f w.svg; done");
    cr_expect_str_empty(s.out.data);
    cr_expect_str_empty(s.err.data);
    said_finish(&s);
}

// What the example marks is drawn dark and named; what it was built on is there too.
Test(words, an_example_is_drawn_on_the_block) {
    Said s = said(
        "rebato words meet -o meet.svg && xmllint --noout meet.svg && cat meet.svg && rebato words notch "
        "-o notch.png && file notch.png");
    said_code(&s, 0);
    said_out(&s, "wrote meet.svg\n");
    said_out(&s, ">axis</text>");
    said_out(&s, ">shoulder</text>");
    said_out(&s, "notch.png: PNG image data");
    said_finish(&s);
}

// A draft that is only measured is worked on as well; the back is not.
Test(words, drafts_that_an_example_leaves_alone_are_not_drawn) {
    Said s = said("rebato words measure -o m.svg >out && grep -c 'id=\"draft-front\"' m.svg; grep -c "
                  "'id=\"draft-back' m.svg");
    cr_expect_str_eq(s.out.data, "1\n0\n");
    said_finish(&s);
}

Test(words, what_an_example_tells_is_printed) {
    Said s =
        said("rebato words warn; rebato words sew; rebato words head_girth --units in; rebato words note -o "
             "n.svg; ls");
    said_code(&s, 0);
    said_out(&s, "which tells\n      warning: the back shoulder is long\n");
    said_out(&s, "      holds: seam: band edge: 20.0 cm on 20.0 cm");
    said_out(&s, "      head_girth = 21 7/8 in\n");
    said_out(&s, "It draws nothing, so no file is written.\n");
    cr_expect_null(strstr(s.out.data, "n.svg"));
    said_finish(&s);
}

Test(words, files_are_checked_as_those_of_a_draft) {
    Said s = said("rebato words meet -o meet.doc; rebato words meet -o nowhere/meet.svg; rebato words mete "
                  "-o m.svg; ls");
    said_code(&s, 0);
    said_err(&s, "the ending of meet.doc does not say what to draw");
    said_err(&s, "there is no folder nowhere");
    said_err(&s, "did you mean meet?");
    cr_expect_str_empty(s.out.data);
    said_finish(&s);
}

// Read back with pdftotext and pdfinfo (poppler).
Test(words, all_of_them_or_those_of_a_subject_go_to_one_file, .timeout = 60) {
    Said s =
        said("rebato words -o words.pdf && pdftotext words.pdf - && pdfinfo words.pdf | grep 'Page size' && "
             "rebato words points -o points.pdf --paper letter --units in && pdftotext points.pdf - >points "
             "&& ! grep -q path:offset points && grep -q polar points");
    said_code(&s, 0);
    said_out(&s, "wrote words.pdf (");
    said_out(&s, "wrote points.pdf (");
    int count;
    const WordRow *rows = words_all(&count);
    cr_expect(strstr(s.out.data, "(A4)"), "%s", s.out.data);
    join_lines(&s.out);
    for (int i = 0; i < count; i++) {
        Buffer usage;
        buffer_init(&usage);
        buffer_add_text(&usage, rows[i].usage);
        join_lines(&usage);
        said_out(&s, usage.data);
        buffer_finish(&usage);
    }
    said_finish(&s);
}

Test(words, a_picture_shows_one_word) {
    Said s = said("rebato words -o words.svg; rebato words -o words.pdf --paper whole; rebato words nothing "
                  "-o n.pdf; ls");
    said_err(&s, "words.svg can show one word, not many");
    said_err(&s, "a book needs pages");
    said_err(&s, "no word nothing");
    cr_expect_str_empty(s.out.data);
    said_finish(&s);
}
