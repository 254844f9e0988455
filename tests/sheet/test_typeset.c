#include <criterion/criterion.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/file.h"
#include "base/memory.h"
#include "reader.h"
#include "sheet/hyphens.h"
#include "sheet/typeset.h"

static Typeset *set;
static Buffer out;

static const TypesetOptions usual = {
    .title = "Lesson", .subject = "Trial", .language = "en", .width = 210, .height = 297, .own_fonts = true};

static void begin(void) {
    set = typeset_new(&usual);
    cr_assert_not_null(set);
    buffer_init(&out);
}

static void end(void) {
    buffer_finish(&out);
}

TestSuite(typeset, .init = begin, .fini = end, .timeout = 60);

static TypeText *text_of(const char *words, const char *language, double width, bool hyphens) {
    const TypeSpan span = {.text = words};
    const TypeAsk ask = {.look = TYPE_BODY,
                         .width = width,
                         .language = language,
                         .spans = &span,
                         .count = 1,
                         .hyphens = hyphens};
    return type_text_new(set, &ask);
}

static void draw(const TypeText *text) {
    typeset_begin(set, "P");
    double y = 20;
    for (int i = 0; i < type_text_lines(text); i++) {
        typeset_line(set, text, i, point(20, y));
        y += type_text_line_height(text, i);
    }
    typeset_end(set, "P");
}

// What poppler reads in the finished file.
static void read_back(Buffer *words) {
    Drawing drawing = {.directory = "/tmp/rebato-sheet-XXXXXX"};
    Fault fault;
    fault_init(&fault);
    cr_assert(typeset_finish(set, &out));
    set = NULL;
    cr_assert_not_null(mkdtemp(drawing.directory));
    snprintf(drawing.path, sizeof drawing.path, "%s/x.pdf", drawing.directory);
    buffer_init(&drawing.bytes);
    buffer_init(words);
    cr_assert(file_write(drawing.path, out.data, out.length, &fault));
    cr_assert_eq(reader_run(&drawing, "qpdf --check %s", words), 0, "%s", words->data);
    cr_assert_eq(reader_run(&drawing, "pdftotext %s -", words), 0);
    drawing_finish(&drawing);
    fault_finish(&fault);
}

#define PROSE                                                                                              \
    "The interfacing of an understanding cutter is measured, considered and remembered before the collar " \
    "is attached to the neckline of any garment whatsoever, notwithstanding fashion."

Test(typeset, no_line_is_wider_than_its_paragraph) {
    for (double width = 35; width < 150; width += 11.3) {
        TypeText *text = text_of(PROSE, "en", width, true);
        cr_expect_gt(type_text_lines(text), 1);
        for (int i = 0; i < type_text_lines(text); i++) {
            double from, to;
            type_text_extent(text, i, &from, &to);
            cr_expect(from >= -0.01 && to <= width + 0.01, "line %d of %g mm: %g to %g", i, width, from, to);
        }
        type_text_free(text);
    }
    typeset_page(set);
    cr_assert(typeset_finish(set, &out));
}

// The words come out of the file as they went in, but for the hyphens at the ends of lines.
Test(typeset, broken_words_are_found_again) {
    typeset_page(set);
    TypeText *text = text_of(PROSE, "en", 45, true);
    draw(text);
    type_text_free(text);
    Buffer words;
    read_back(&words);
    Buffer joined;
    buffer_init(&joined);
    for (const char *at = words.data; *at != '\0' && *at != '\f'; at++) {
        if (strncmp(at, "-\n", 2) == 0 && PROSE[joined.length] != '-') { // where a line ends
            at++;
            continue;
        }
        buffer_add_char(&joined, *at == '\n' ? ' ' : *at);
    }
    cr_expect_eq(strncmp(joined.data, PROSE, strlen(PROSE)), 0, "%s", joined.data);
    buffer_finish(&joined);
    buffer_finish(&words);
}

typedef struct Found {
    size_t at[40];
    int count;
} Found;

static void note(void *context, size_t at) {
    Found *found = context;
    found->at[found->count++] = at;
}

static void broken(const char *language, const char *word, const char *expected) {
    Found found = {.count = 0};
    hyphens_find(language, word, strlen(word), note, &found);
    Buffer made;
    buffer_init(&made);
    for (size_t i = 0, k = 0; word[i] != '\0'; i++) {
        if (k < (size_t)found.count && found.at[k] == i) {
            buffer_add_char(&made, '|');
            k++;
        }
        buffer_add_char(&made, word[i]);
    }
    cr_expect_str_eq(made.data, expected, "%s", language);
    buffer_finish(&made);
}

Test(typeset, a_word_too_long_for_a_narrow_column_is_broken_as_a_word) {
    typeset_page(set);
    TypeText *text = text_of("1 im Stoffbruch", "de", 16, true);
    cr_expect_eq(type_text_lines(text), 3);
    draw(text);
    type_text_free(text);
    text = text_of("ein Stoffbruch", "de", 34, true); // has room without
    cr_expect_eq(type_text_lines(text), 1);
    type_text_free(text);
    Buffer said;
    read_back(&said);
    // poppler joins again what a hyphen parted at the end of a line, and nothing else.
    cr_expect_not_null(strstr(said.data, "Stoffbruch"), "%s", said.data);
    buffer_finish(&said);
}

// Liang 1983 breaks "hyphenation" so; the others after the rules of their languages (Duden; Grevisse; RAE).
Test(typeset, words_are_broken_where_their_language_breaks_them) {
    broken("en", "hyphenation", "hy|phen|ation");
    broken("de", "Schnittmuster", "Schnitt|mus|ter");
    broken("de",
           "\xC3\x9C"
           "bertritt",
           "\xC3\x9C"
           "ber|tritt");
    broken("fr", "encolure", "en|co|lure");
    broken("es", "cuello solapado", "cue|llo so|la|pado");
    broken("en", "collar", "col|lar");
    broken("de-AT", "Schnittmuster", "Schnitt|mus|ter");
    broken("es-Latn-419", "encolado", "en|co|lado");
    broken("fr-FR", "encolure", "en|co|lure");
    broken("en-XX", "hyphenation", "hy|phen|ation");
    broken("en", "neck", "neck");
    broken("xx", "hyphenation", "hyphenation");
    broken("../en", "hyphenation", "hyphenation");
    typeset_page(set);
    cr_assert(typeset_finish(set, &out));
}

Test(typeset, hebrew_and_arabic_start_at_the_right) {
    typeset_finish(set, &out);
    buffer_clear(&out);
    TypesetOptions options = usual;
    options.own_fonts = false;
    set = typeset_new(&options);
    cr_assert_not_null(set);
    typeset_page(set);
    static const char *const words[][2] = {
        {"he", "\xD7\xA6\xD7\x95\xD7\x95\xD7\x90\xD7\xA8\xD7\x95\xD7\x9F \xD7\xA2\xD7\x92\xD7\x95\xD7\x9C"},
        {"ar", "\xD9\x8A\xD8\xA7\xD9\x82\xD8\xA9 \xD9\x85\xD8\xB3\xD8\xAA\xD8\xAF\xD9\x8A\xD8\xB1\xD8\xA9"}};
    for (int i = 0; i < 2; i++) {
        TypeText *text = text_of(words[i][1], words[i][0], 100, true);
        double from, to;
        type_text_extent(text, 0, &from, &to);
        cr_expect(type_text_is_rtl(text), "%s", words[i][0]);
        cr_expect_float_eq(to, 100, 0.5);
        cr_expect_gt(from, 50);
        draw(text);
        type_text_free(text);
    }
    Buffer said;
    read_back(&said);
    buffer_finish(&said);
}

Test(typeset, east_asian_text_is_broken_without_blanks) {
    typeset_finish(set, &out);
    buffer_clear(&out);
    TypesetOptions options = usual;
    options.own_fonts = false;
    set = typeset_new(&options);
    Buffer words;
    buffer_init(&words);
    for (int i = 0; i < 60; i++)
        buffer_add_text(&words, "\xE8\xA1\xBF");
    typeset_page(set);
    TypeText *text = text_of(words.data, "ja", 60, true);
    cr_expect_gt(type_text_lines(text), 2);
    draw(text);
    type_text_free(text);
    buffer_finish(&words);
    Buffer said;
    read_back(&said);
    buffer_finish(&said);
}

// JIS X 4051 and Unicode Standard Annex 14, class CL: no full stop begins a line. Tried at every width, so
// that one of them would.
Test(typeset, no_east_asian_line_begins_with_a_full_stop) {
    typeset_finish(set, &out);
    buffer_clear(&out);
    TypesetOptions options = usual;
    options.own_fonts = false;
    set = typeset_new(&options);
    for (double width = 30; width < 40; width += 1) {
        TypeText *text = text_of(
            "\u8863\u8863\u8863\u8863\u8863\u8863\u8863\u8863\u8863\u3002\u8863\u8863\u8863\u8863\u8863"
            "\u8863\u8863\u8863\u8863\u8863\u8863\u8863\u8863\u8863\u3002\u8863\u8863\u8863",
            "zh-Hant", width, true);
        typeset_page(set);
        draw(text);
        type_text_free(text);
    }
    Buffer said;
    read_back(&said);
    cr_expect_null(strstr(said.data, "\n\u3002"));
    cr_expect_null(strstr(said.data, "\f\u3002"));
    cr_expect_not_null(strstr(said.data, "\u3002"));
    buffer_finish(&said);
}

Test(typeset, the_same_text_is_the_same_bytes) {
    Buffer first;
    buffer_init(&first);
    for (int i = 0; i < 2; i++) {
        if (i == 1)
            set = typeset_new(&usual);
        typeset_page(set);
        TypeText *text = text_of(PROSE, "en", 80, true);
        draw(text);
        type_text_free(text);
        cr_assert(typeset_finish(set, i == 0 ? &first : &out));
    }
    cr_expect_eq(first.length, out.length);
    cr_expect_eq(memcmp(first.data, out.data, out.length), 0);
    buffer_finish(&first);
}

Test(typeset, an_address_with_odd_letters_is_still_a_link) {
    typeset_page(set);
    const TypeSpan spans[] = {{.text = "see "},
                              {.text = "there", .link = "https://example.org/a'(b)\\c \xC3\xA9?x=1"}};
    const TypeAsk ask = {.look = TYPE_BODY, .width = 100, .spans = spans, .count = 2};
    TypeText *text = type_text_new(set, &ask);
    draw(text);
    type_text_free(text);
    Buffer words;
    read_back(&words);
    cr_expect_not_null(strstr(words.data, "see there"));
    cr_expect_not_null(strstr(out.data, "%PDF"));
    buffer_finish(&words);
}
