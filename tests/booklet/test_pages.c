#include "booklet/pages.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/file.h"
#include "booked.h"

#define PT_MM (25.4 / 72)

typedef struct Printed {
    Booked b;
    Buffer pdf, said;
    char path[64];
    int pages;
} Printed;

static void printed(const char *recipe, const char *body, const char *setting, const ComposeOptions *options,
                    Printed *out) {
    Fault fault;
    fault_init(&fault);
    booked(recipe, body, setting, options, &out->b);
    buffer_init(&out->pdf);
    buffer_init(&out->said);
    cr_assert(pages_write(&out->b.book, &out->pdf, &out->pages, &fault), "%s: %s", recipe,
              fault.message ? fault.message : "");
    snprintf(out->path, sizeof out->path, "/tmp/rebato-pages-%d.pdf", (int)getpid());
    cr_assert(file_write(out->path, out->pdf.data, out->pdf.length, &fault), "%s", fault.message);
    fault_finish(&fault);
}

static void printed_finish(Printed *p) {
    unlink(p->path);
    buffer_finish(&p->pdf);
    buffer_finish(&p->said);
    booked_finish(&p->b);
}

// What a program of poppler or qpdf says about the file; %s in the command stands for it.
static const char *ask(Printed *p, const char *command, int *code) {
    char line[300];
    const char *place = strstr(command, "%s");
    snprintf(line, sizeof line, "( %.*s%s%s ) 2>&1", (int)(place - command), command, p->path, place + 2);
    FILE *pipe = popen(line, "r");
    cr_assert_not_null(pipe);
    char bytes[4096];
    buffer_clear(&p->said);
    for (size_t got; (got = fread(bytes, 1, sizeof bytes, pipe)) > 0;)
        buffer_add(&p->said, bytes, got);
    const int status = pclose(pipe);
    cr_assert(WIFEXITED(status) && WEXITSTATUS(status) != 127, "not installed: %s", command);
    if (code)
        *code = WEXITSTATUS(status);
    return p->said.data;
}

static int times(const char *text, const char *part) {
    int count = 0;
    for (const char *at = strstr(text, part); at; at = strstr(at + 1, part))
        count++;
    return count;
}

// Every word that poppler finds lies inside the page, off its edges.
static void is_uncut(Printed *p, const char *name) {
    const char *at = ask(p, "pdftotext -bbox %s -", NULL);
    const double edge = 8;
    int words = 0;
    double page_width = 0, page_height = 0;
    for (at = strchr(at, '<'); at; at = strchr(at + 1, '<')) {
        double box[4];
        sscanf(at, "<page width=\"%lf\" height=\"%lf\"", &page_width, &page_height);
        if (sscanf(at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &box[0], &box[1], &box[2],
                   &box[3]) != 4)
            continue;
        words++;
        cr_expect(box[0] * PT_MM > edge && box[1] * PT_MM > edge && (page_width - box[2]) * PT_MM > edge &&
                      (page_height - box[3]) * PT_MM > edge - 3,
                  "%s: %.120s", name, at);
    }
    cr_expect_gt(words, 20, "%s", name);
}

static void is_sound(Printed *p, const char *name) {
    int code;
    const char *said = ask(p, "qpdf --check %s", &code);
    cr_expect_eq(code, 0, "%s: %s", name, said);
    said = ask(p, "pdfinfo %s", &code);
    cr_expect_eq(code, 0, "%s: %s", name, said);
    char title[300];
    snprintf(title, sizeof title, "Title:           %s\n", p->b.book.title);
    cr_expect_not_null(strstr(said, title), "%s: %s", name, said);
    cr_expect_not_null(strstr(said, "Tagged:          yes"), "%s", name);
    char pages[40];
    snprintf(pages, sizeof pages, "Pages:           %d\n", p->pages);
    cr_expect_not_null(strstr(said, pages), "%s", name);
}

Test(pages, every_recipe_of_the_shelf_is_sound_uncut_and_the_same_again, .timeout = 300) {
    int count;
    const BuiltIn *all = shelf_built_in(&count);
    for (int i = 0; i < count; i += BOOKED_EACH) {
        if (strcmp(all[i].family, "bodies") == 0 || !booked_alone(all[i].name))
            continue;
        const bool measured = strcmp(all[i].name, "blocks/measured") == 0;
        Printed p;
        printed(all[i].name, measured ? TESTS_DIR "/bodies/paper-88.txt" : NULL, NULL, NULL, &p);
        is_sound(&p, all[i].name);
        is_uncut(&p, all[i].name);
        Buffer again;
        Fault fault;
        fault_init(&fault);
        buffer_init(&again);
        cr_assert(pages_write(&p.b.book, &again, NULL, &fault));
        cr_expect_eq(again.length, p.pdf.length, "%s", all[i].name);
        cr_expect_eq(memcmp(again.data, p.pdf.data, again.length), 0, "%s", all[i].name);
        buffer_finish(&again);
        fault_finish(&fault);
        printed_finish(&p);
    }
}

static const double papers[][2] = {{210, 297}, {215.9, 279.4}};

// What poppler paints, on each page: no ink nearer to the sides than the margin, nor above and below than
// half of it, where the head and the foot of the page stand.
static void ink_is_in_the_margins(Printed *p, double margin) {
    ask(p, "pdftoppm -r 25.4 -gray %s", NULL);
    const unsigned char *at = (const unsigned char *)p->said.data, *end = at + p->said.length;
    for (int page = 1; page <= p->pages; page++) {
        int width, height, header;
        cr_assert_eq(sscanf((const char *)at, "P5 %d %d 255%n", &width, &height, &header), 2);
        at += header + 1;
        cr_assert_leq((long)width * height, end - at);
        for (int y = 0; y < height; y++)
            for (int x = 0; x < width; x++)
                cr_assert(at[y * width + x] > 225 || (x >= margin - 2 && x <= width - margin + 1 &&
                                                      y >= margin / 2 && y <= height - margin / 2),
                          "page %d: ink at %d, %d mm", page, x, y);
        at += (long)width * height;
    }
}

Test(pages, nothing_is_painted_in_the_margins) {
    static const char *const recipes[] = {"flat/peter-pan", "bands/wing"};
    for (size_t i = 0; i < sizeof papers / sizeof *papers; i++)
        for (size_t k = 0; k < sizeof recipes / sizeof *recipes; k++) {
            const ComposeOptions options = {
                .paper_width = papers[i][0], .paper_height = papers[i][1], .version = "0.0.0"};
            Printed p;
            printed(recipes[k], NULL, NULL, &options, &p);
            ink_is_in_the_margins(&p, 20);
            printed_finish(&p);
        }
}

Test(pages, text_is_found_as_it_is_written) {
    Printed p;
    printed("flat/peter-pan", NULL, NULL, NULL, &p);
    const char *said = ask(&p, "pdftotext %s -", NULL);
    cr_expect_not_null(strstr(said, "A flat collar with round ends"));
    cr_expect_null(strstr(said, "\uFB02"), "letters drawn as one");
    cr_expect_null(strstr(said, "\u00AD"), "a hyphen is found as such");
    cr_expect_not_null(strstr(said, "half-way"));
    char foot[40];
    snprintf(foot, sizeof foot, "Page 2 of %d", p.pages);
    cr_expect_not_null(strstr(said, foot));
    printed_finish(&p);
}

Test(pages, a_number_is_not_parted_from_its_unit) {
    static const char *const recipes[] = {"flat/peter-pan", "bands/wing"};
    for (size_t k = 0; k < sizeof recipes / sizeof *recipes; k++) {
        Printed p;
        printed(recipes[k], NULL, NULL, NULL, &p);
        const char *said = ask(&p, "pdftotext -layout %s -", NULL);
        cr_expect_not_null(strstr(said, "16.5 cm \u00B1 0.1 cm"), "on one line of a table");
        said = ask(&p, "pdftotext %s - | tr '\\n' '|'", NULL);
        const char *line = said; // those of prose: the words along a drawn line come letter by letter
        for (const char *end; (end = strchr(line, '|')) != NULL; line = end + 1)
            cr_expect(end - line < 25 || strchr("0123456789", end[-1]) == NULL ||
                          (strncmp(end, "|cm", 3) != 0 && strncmp(end, "|mm", 3) != 0),
                      "%s: %.100s", recipes[k], line);
        printed_finish(&p);
    }
}

// One entry of the outline for each line of the contents, and every link of the contents a link of the PDF.
Test(pages, the_outline_and_the_links_lead_to_the_sections) {
    Printed p;
    printed("flat/peter-pan", NULL, NULL, NULL, &p);
    const char *said = ask(&p, "pdftohtml -xml -i -stdout %s", NULL);
    cr_expect_eq(times(said, "<item page="), p.b.book.entry_count);
    for (int i = 0; i < p.b.book.entry_count; i++)
        cr_expect_not_null(strstr(said, p.b.book.entries[i].title), "%s", p.b.book.entries[i].title);
    said = ask(&p, "qpdf --qdf --object-streams=disable %s -", NULL);
    Buffer all = p.said; // holds NULs
    int links = 0;
    for (size_t i = 0; i + 14 < all.length; i++)
        links += memcmp(all.data + i, "/Subtype /Link", 14) == 0;
    cr_expect_geq(links, p.b.book.entry_count, "%d", links);
    said = ask(&p, "pdfinfo -dests %s", NULL);
    for (int i = 0; i < p.b.book.entry_count; i++) {
        char name[120];
        snprintf(name, sizeof name, "\"%s\"", p.b.book.entries[i].anchor);
        cr_expect_not_null(strstr(said, name), "%s", name);
    }
    printed_finish(&p);
}

// ISO 32000-1, 14.9: the language, and for each figure what it shows.
Test(pages, figures_say_what_they_show_and_the_document_its_language) {
    Printed p;
    const ComposeOptions german = {
        .language = language_find("de"), .paper_width = 210, .paper_height = 297, .version = "0.0.0"};
    printed("bands/mandarin", NULL, NULL, &german, &p);
    ask(&p, "qpdf --qdf --object-streams=disable %s - | tr -d '\\000'", NULL);
    cr_expect_not_null(strstr(p.said.data, "/Lang (de)"));
    const int figures = times(p.said.data, "/S /Figure");
    cr_expect_gt(figures, 4);
    cr_expect_eq(times(p.said.data, "/Alt "), figures);
    const char *said = ask(&p, "pdfinfo -struct-text %s", NULL);
    cr_expect_not_null(strstr(said, "H2"));
    printed_finish(&p);
}

// ISO 32000-1, 14.8.4: one document, of headings, lists whose items are a mark and a body, and tables whose
// rows begin with a name. Poppler reads the tree.
Test(pages, the_order_of_reading_is_a_tree_of_lists_and_tables) {
    static const char *const parts[] = {
        "Document\n  H1 (block)\n    \"Peter Pan collar\"\n", "\n  TOC\n    TOCI\n",
        "\n  L (block)\n    LI (block)\n      Lbl (block)\n        \"1.\"\n      LBody (block)\n        P "
        "(block)\n",
        "\n  Table (block)\n    TR\n      TH\n        \"Measurement\"\n      TH\n",
        "\n    TR\n      TH\n        \"bust girth\"\n      TD\n        \"88.0 cm\"\n"};
    Printed p;
    printed("flat/peter-pan", NULL, NULL, NULL, &p);
    const char *said = ask(&p, "pdfinfo -struct-text %s 2>&1", NULL);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        cr_expect_not_null(strstr(said, parts[i]), "%s", parts[i]);
    cr_expect_null(strstr(said, "Syntax"));
    cr_expect_eq(times(said, "\n    LI (block)\n"), times(said, "\n      Lbl (block)\n"));
    cr_expect_eq(times(said, "Document\n"), 1);
    cr_expect_eq(
        times(ask(&p, "qpdf --qdf --object-streams=disable %s - | tr -d '\\000'", NULL), "/MarkInfo"), 1);
    printed_finish(&p);
}

Test(pages, letter_paper_is_as_good_as_a4) {
    Printed p;
    const ComposeOptions letter = {.paper_width = 215.9, .paper_height = 279.4, .version = "0.0.0"};
    printed("bands/square-funnel", NULL, NULL, &letter, &p);
    is_sound(&p, "letter");
    is_uncut(&p, "letter");
    cr_expect_not_null(strstr(ask(&p, "pdfinfo %s", NULL), "(letter)"));
    printed_finish(&p);
}

Test(pages, narrow_paper_keeps_its_words) {
    Printed p;
    const ComposeOptions narrow = {.paper_width = 105, .paper_height = 148, .version = "0.0.0"};
    printed("flat/peter-pan", NULL, NULL, &narrow, &p);
    int code;
    ask(&p, "qpdf --check %s", &code);
    cr_expect_eq(code, 0);
    printed_finish(&p);
}

Test(pages, all_of_commonmark_is_set) {
    Printed p;
    printed(TRIAL("commonmark.md"), NULL, NULL, NULL, &p);
    is_sound(&p, "commonmark");
    is_uncut(&p, "commonmark");
    cr_expect_not_null(strstr(ask(&p, "pdftotext -layout %s -", NULL), "indented code <b>"));
    cr_expect_geq(times(ask(&p, "pdfimages -list %s", NULL), "\n"), 4);
    printed_finish(&p);
}

Test(pages, a_strangers_recipe_is_set_and_its_links_are_addresses_only) {
    Printed p;
    printed(TRIAL("hostile.md"), NULL, NULL, NULL, &p);
    is_sound(&p, "hostile");
    ask(&p, "qpdf --qdf --object-streams=disable %s - | tr -d '\\000'", NULL);
    cr_expect_null(strstr(p.said.data, "/JavaScript"));
    cr_expect_null(strstr(p.said.data, "/Launch"));
    cr_expect_null(strstr(p.said.data, "(javascript:"));
    printed_finish(&p);
}

Test(pages, a_recipe_without_steps_is_set) {
    Printed p;
    printed(TRIAL("no-steps.md"), NULL, NULL, NULL, &p);
    is_sound(&p, "no steps");
    printed_finish(&p);
}

static void woven_text(const char *text, Printed *p) {
    char path[64];
    Fault fault;
    fault_init(&fault);
    snprintf(path, sizeof path, "/tmp/rebato-huge-%d.md", (int)getpid());
    cr_assert(file_write(path, text, strlen(text), &fault), "%s", fault.message);
    printed(path, NULL, NULL, NULL, p);
    unlink(path);
    fault_finish(&fault);
}

#define HUGE_START "# Huge\n\nIt is.\n\n```lua\nA = 1*cm\n```\n\n"

Test(pages, a_cell_longer_than_a_page_is_set_whole, .timeout = 60) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, HUGE_START "| a | b |\n|---|---|\n| ");
    for (int i = 0; i < 4000; i++)
        buffer_add_format(&text, "word%d ", i);
    buffer_add_text(&text, "| end |\n");
    Printed p;
    woven_text(text.data, &p);
    is_sound(&p, "cell");
    is_uncut(&p, "cell");
    const char *said = ask(&p, "pdftotext %s -", NULL);
    cr_expect_not_null(strstr(said, "word0"));
    cr_expect_not_null(strstr(said, "word3999"));
    printed_finish(&p);
    buffer_finish(&text);
}

// A page has no room for so many columns: the rows are a list, in HTML too, and the notes say so.
Test(pages, the_words_of_a_table_of_many_columns_are_set) {
    enum { COLUMNS = 40 };
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, HUGE_START);
    for (int row = 0; row < 4; row++) {
        for (int i = 0; i < COLUMNS; i++)
            buffer_add_format(&text, row == 1 ? "|---" : row == 0 ? "| name%d " : "| cell%d", i);
        buffer_add_text(&text, "|\n");
    }
    Printed p;
    woven_text(text.data, &p);
    is_sound(&p, "columns");
    is_uncut(&p, "columns");
    const char *said = ask(&p, "pdftotext %s -", NULL);
    cr_expect_eq(times(said, "name39: cell39"), 2, "%s", said);
    cr_expect_eq(times(said, "name0: cell0"), 2);
    has(&p.b, "name39: ");
    has(&p.b, "cell39");
    cr_expect_not_null(strstr(p.b.notes.data, "line 9, has 40 columns"), "%s", p.b.notes.data);
    printed_finish(&p);
    buffer_finish(&text);
}

// The second row is loosened over pages; what follows on the last of them has no names of columns over it.
Test(pages, the_names_of_columns_stand_at_the_head_of_a_page_alone, .timeout = 60) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, HUGE_START "| firstname | secondname |\n|---|---|\n| begin | begin |\n| ");
    for (int i = 0; i < 1500; i++)
        buffer_add_format(&text, "word%d ", i);
    buffer_add_text(&text, "| end |\n| next | row |\n| last | row |\n");
    Printed p;
    woven_text(text.data, &p);
    is_sound(&p, "names");
    const char *said = ask(&p, "pdftotext %s -", NULL);
    cr_expect_not_null(strstr(said, "word1499"));
    cr_expect_not_null(strstr(said, "last"));
    cr_expect_eq(times(said, "secondname"), 1, "%d", times(said, "secondname"));
    printed_finish(&p);
    buffer_finish(&text);
}

static void long_paragraph(int words, Buffer *out) {
    buffer_init(out);
    buffer_add_text(out, HUGE_START);
    for (int i = 0; i < words; i++)
        buffer_add_format(out, "stitch gathering%d ", i);
    buffer_add_text(out, "\n");
}

Test(pages, a_paragraph_of_many_pages_is_set_whole, .timeout = 60) {
    Buffer text;
    long_paragraph(3000, &text); // 20 bytes each: nearly 64 KB
    Printed p;
    woven_text(text.data, &p);
    is_sound(&p, "paragraph");
    is_uncut(&p, "paragraph");
    const char *said = ask(&p, "pdftotext %s -", NULL);
    cr_expect_eq(times(said, "stitch"), 3000, "%d", times(said, "stitch"));
    cr_expect_not_null(strstr(said, "2999"));
    printed_finish(&p);
    buffer_finish(&text);
}

Test(pages, a_paragraph_too_long_to_be_set_is_refused_with_a_way_out) {
    Buffer text, out;
    Booked b;
    Fault fault;
    char path[64];
    long_paragraph(24000, &text); // 500 KB
    fault_init(&fault);
    buffer_init(&out);
    snprintf(path, sizeof path, "/tmp/rebato-long-%d.md", (int)getpid());
    cr_assert(file_write(path, text.data, text.length, &fault), "%s", fault.message);
    booked(path, NULL, NULL, NULL, &b);
    unlink(path);
    cr_expect_not(pages_write(&b.book, &out, NULL, &fault));
    cr_expect_eq(out.length, 0);
    cr_expect_not_null(strstr(fault.message, "more than 64 KB"), "%s", fault.message);
    cr_expect_not_null(strstr(fault.hint, "HTML"), "%s", fault.hint);
    booked_finish(&b);
    buffer_finish(&out);
    buffer_finish(&text);
    fault_finish(&fault);
}

// The pictures of a figure and of a cell without pieces: what they would show is said, as in HTML.
Test(pages, the_words_of_what_cannot_be_drawn_are_set) {
    static const Span under[] = {{.text = "cutunder"}};
    static const BookPicture pictures[] = {{.kind = BOOK_PICTURE_ALL, .alt = "figurewords"},
                                           {.kind = BOOK_PICTURE_ALL, .alt = "cellwords"}};
    static const BookCell cells[] = {{.picture = &pictures[1]},
                                     {.picture = &pictures[1], .spans = {.items = under, .count = 1}}};
    static const BookColumn columns[2];
    static const BookTable table = {.columns = columns, .column_count = 2, .cells = cells, .row_count = 1};
    BookBlock blocks[] = {{.kind = BOOK_FIGURE, .pictures = pictures, .picture_count = 1},
                          {.kind = BOOK_TABLE, .table = &table}};
    Printed p;
    woven_text(HUGE_START, &p);
    Book book = p.b.book;
    book.blocks = blocks;
    book.count = 2;
    book.entry_count = 0;
    Fault fault;
    fault_init(&fault);
    buffer_clear(&p.pdf);
    cr_assert(pages_write(&book, &p.pdf, NULL, &fault));
    cr_assert(file_write(p.path, p.pdf.data, p.pdf.length, &fault), "%s", fault.message);
    const char *said = ask(&p, "pdftotext %s -", NULL);
    cr_expect_eq(times(said, "figurewords"), 1, "%s", said);
    cr_expect_eq(times(said, "cellwords"), 2, "%s", said);
    cr_expect_eq(times(said, "cutunder"), 1, "%s", said);
    printed_finish(&p);
    fault_finish(&fault);
}

// Fifty lists in each other, and fifty quotes.
Test(pages, what_is_nested_deep_stays_on_the_paper) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, HUGE_START);
    for (int i = 0; i < 50; i++)
        buffer_add_format(&text, "%*s- gathering the cloth at level %d with a long line of words\n", 2 * i,
                          "", i);
    buffer_add_text(&text, "\nAnd so on.\n\n");
    for (int i = 0; i < 50; i++)
        buffer_add_text(&text, "> ");
    buffer_add_text(&text, "deepest of all\n");
    Printed p;
    woven_text(text.data, &p);
    is_sound(&p, "nested");
    is_uncut(&p, "nested");
    const char *said = ask(&p, "pdftotext %s -", NULL);
    cr_expect_eq(times(said, "gath"), 50, "%d", times(said, "gath"));
    cr_expect_not_null(strstr(said, "deepest"));
    printed_finish(&p);
    buffer_finish(&text);
}

Test(pages, a_word_longer_than_a_page_is_broken, .timeout = 60) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, HUGE_START);
    for (int i = 0; i < 30000; i++)
        buffer_add_char(&text, 'x');
    buffer_add_text(&text, "\n");
    Printed p;
    woven_text(text.data, &p);
    is_sound(&p, "word");
    is_uncut(&p, "word");
    printed_finish(&p);
    buffer_finish(&text);
}
