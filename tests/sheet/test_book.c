// The reference as a PDF: its words are read back with poppler, its pages counted with qpdf.
#include <criterion/criterion.h>

#include <string.h>

#include "example.h"
#include "reader.h"
#include "sheet/book.h"

static Fault fault;

static void begin(void) {
    fault_init(&fault);
}

static void end(void) {
    fault_finish(&fault);
}

TestSuite(book, .init = begin, .fini = end, .timeout = 60);

static void draw(const BookEntry *entries, int count, const char *paper, Drawing *drawing) {
    SheetOptions options = example_options(SHEET_PDF);
    Buffer bytes;
    int pages = 0;
    buffer_init(&bytes);
    cr_assert(sheet_paper(paper, &options, &fault), "%s", fault.message);
    cr_assert(book_draw("Words", entries, count, &options, &bytes, &pages, &fault), "%s", fault.message);
    drawing_keep(drawing, bytes, "book.pdf");
    drawing->pages = pages;
}

// Read back with pdftotext (poppler), the layout of the page kept; it sets blanks by its own measure.
Test(book, the_words_stand_in_the_file_in_their_order_and_the_code_keeps_its_lines) {
    const BookEntry entries[] = {
        {.section = "points",
         .title = "up(d)",
         .about = "The point above.",
         .code = "a = b\n  c = d",
         .told = "a = 4 cm"},
        {.section = "paths", .title = "at(d)", .about = "A point on it.", .code = "e = f", .told = ""}};
    Drawing drawing;
    Buffer said;
    buffer_init(&said);
    draw(entries, 2, "a4", &drawing);
    cr_expect_eq(drawing.pages, 1);
    cr_expect_eq(reader_run(&drawing, "qpdf --check %s", &said), 0, "%s", said.data);
    reader_run(&drawing, "pdftotext -layout %s - | tr -d ' ' | grep .", &said);
    cr_expect(strstr(said.data,
                     "Words\npoints\nup(d)\nThepointabove.\na=b\nc=d\na=4cm\npaths\nat(d)\nApointonit.\n"),
              "%s", said.data);
    buffer_finish(&said);
    drawing_finish(&drawing);
}

// Each of the drawings is up to 78 mm high, so that no more than three go on a page of A4, 297 mm.
Test(book, what_an_entry_draws_stands_beside_it_and_pages_are_begun_as_they_fill) {
    Pattern pattern;
    BookEntry entries[8];
    Drawing drawing;
    Buffer said;
    buffer_init(&said);
    example_square(&pattern, 300, "Square");
    for (int i = 0; i < 8; i++)
        entries[i] = (BookEntry){.section = "pieces",
                                 .title = "piece",
                                 .about = "A piece.",
                                 .code = "",
                                 .told = "",
                                 .pattern = &pattern};
    draw(entries, 8, "a4", &drawing);
    cr_expect(drawing.pages >= 3 && drawing.pages <= 4, "%d", drawing.pages);
    reader_run(&drawing, "pdftotext %s - | grep -c Square", &said);
    cr_expect_eq(strncmp(said.data, "8\n", 2), 0, "%s", said.data);
    buffer_clear(&said);
    reader_run(&drawing, "pdfinfo %s", &said);
    cr_expect(strstr(said.data, "A4"), "%s", said.data);
    buffer_finish(&said);
    drawing_finish(&drawing);
    pattern_finish(&pattern);
}

Test(book, it_needs_pages) {
    const BookEntry entry = {.section = "a", .title = "a", .about = "a", .code = "", .told = ""};
    SheetOptions options = example_options(SHEET_PDF);
    Buffer bytes;
    buffer_init(&bytes);
    options.whole = true;
    cr_expect_not(book_draw("Words", &entry, 1, &options, &bytes, NULL, &fault));
    cr_expect(strstr(fault.message, "whole is one sheet"), "%s", fault.message);
    cr_expect_eq(bytes.length, 0);
    buffer_finish(&bytes);
}
