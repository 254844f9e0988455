// Words at the ends of lines in a PDF, each broken as the language of its part has it: a German recipe on an
// English block, with English recipes inside it.
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/file.h"
#include "booklet/pages.h"
#include "sheet/hyphens.h"
#include "words_left.h"

typedef struct Place {
    size_t wanted;
    bool found;
} Place;

static void look(void *context, size_t at) {
    Place *place = context;
    place->found = place->found || at == place->wanted;
}

static bool may_break(const char *language, const char *word, size_t at) {
    Place place = {.wanted = at};
    hyphens_find(language, word, strlen(word), look, &place);
    return place.found;
}

static void read_pdf(const Booked *booked, Buffer *out) {
    Fault fault;
    fault_init(&fault);
    Buffer pdf;
    buffer_init(&pdf);
    char path[64], line[120];
    snprintf(path, sizeof path, "/tmp/rebato-broken-%d.pdf", (int)getpid());
    snprintf(line, sizeof line, "pdftotext -raw %s -", path);
    cr_assert(pages_write(&booked->book, &pdf, NULL, &fault), "%s", fault.message);
    cr_assert(file_write(path, pdf.data, pdf.length, &fault), "%s", fault.message);
    FILE *pipe = popen(line, "r");
    cr_assert_not_null(pipe);
    char bytes[4096];
    for (size_t got; (got = fread(bytes, 1, sizeof bytes, pipe)) > 0;)
        buffer_add(out, bytes, got);
    cr_assert_eq(pclose(pipe), 0);
    // The hyphen of a line end and that of "half-way" have one glyph, and so one letter in the text.
    cr_expect_null(strstr(out->data, "\u00AD"));
    unlink(path);
    buffer_finish(&pdf);
    fault_finish(&fault);
}

static bool in_word(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0xC0 ||
           ((unsigned char)c & 0xC0) == 0x80;
}

// The word that the line end at `end` breaks, and where; false where no letters meet there.
static bool broken_word(const char *text, const char *end, char word[80], size_t *at) {
    if (end - text < 2 || end[-1] != '-' || !in_word(end[-2]))
        return false;
    const char *first = end - 1, *last = end + 1;
    while (first > text && in_word(first[-1]))
        first--;
    while (in_word(*last))
        last++;
    *at = (size_t)(end - 1 - first);
    if (last - first > 78 || last == end + 1 || (first > text && first[-1] == '-'))
        return false;
    snprintf(word, 80, "%.*s%.*s", (int)*at, first, (int)(last - end - 1), end + 1);
    return true;
}

Test(broken_words, each_part_is_broken_in_its_own_language, .timeout = 120) {
    const ComposeOptions narrow = {.paper_width = 148, .paper_height = 210, .version = "0.0.0"};
    Booked b;
    booked(TRIAL("kragen.md"), NULL, NULL, &narrow, &b);
    Buffer said, german, english;
    buffer_init(&said);
    buffer_init(&german);
    buffer_init(&english);
    read_pdf(&b, &said);
    for (int i = 0; i < b.pattern.chapters.count; i++) {
        const Recipe *recipe = shelf_held(&b.shelf, b.pattern.chapters.items[i].recipe);
        buffer_add_text(strstr(recipe->file, "kragen") ? &german : &english, recipe->source);
    }
    table_words(language_find("de"), &german);
    int as_german = 0, as_english = 0, in_english_alone = 0;
    for (const char *end = said.data; (end = strchr(end, '\n')) != NULL; end++) {
        char word[80];
        size_t at;
        if (!broken_word(said.data, end, word, &at))
            continue;
        const bool is_german = has_word(german.data, word, strlen(word));
        const bool is_english = has_word(english.data, word, strlen(word));
        if (is_german == is_english)
            continue;
        cr_expect(may_break(is_german ? "de" : "en", word, at), "%s, at %zu", word, at);
        as_german += is_german;
        as_english += is_english;
        in_english_alone += is_english && !may_break("de", word, at);
    }
    cr_expect_geq(as_german, 3, "%d", as_german);
    cr_expect_geq(as_english, 3, "%d", as_english);
    cr_expect_geq(in_english_alone, 1, "%d", in_english_alone);
    buffer_finish(&said);
    buffer_finish(&german);
    buffer_finish(&english);
    booked_finish(&b);
}
