// The booklet as rows on pages: how full they are, and what stands together.
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/file.h"
#include "booked.h"
#include "booklet/paging.h"

#define LEAST_FILL 0.66 // of a page, but for
#define LEAST_LAST 0.2  // the last of a chapter

#define MEAN_FILL 0.8 // of all pages but the last of each lesson

static double filled;
static int filled_pages;

static const double papers[][2] = {{210, 297}, {215.9, 279.4}};

static int rows_of_text(const Paging *p, int first, int page) {
    int count = 0;
    for (int i = first; i >= 0 && p->rows.items[i].text == p->rows.items[first].text; i--)
        count += p->rows.items[i].page == page;
    for (int i = first + 1; i < p->rows.count && p->rows.items[i].text == p->rows.items[first].text; i++)
        count += p->rows.items[i].page == page;
    return count;
}

static bool is_heading(const Row *row) {
    return row->kind == ROW_LINE && row->role[0] == 'H';
}

// Common practice of setting type, no source: no line of a paragraph alone, no heading at the foot.
static void is_well_broken(const Paging *p, const char *name) {
    int words_page = 0;
    for (int i = 0; i < p->rows.count; i++) {
        const Row *row = &p->rows.items[i], *next = i + 1 < p->rows.count ? row + 1 : NULL;
        const bool ends = next == NULL || next->page != row->page;
        if (row->kind == ROW_LINE && type_text_lines(row->text) > 1)
            cr_expect_gt(rows_of_text(p, i, row->page), 1, "%s, page %d: a line alone", name, row->page + 1);
        cr_expect_not(is_heading(row) && ends, "%s, page %d: a heading at the foot", name, row->page + 1);
        if (is_heading(row) && !ends && next->kind == ROW_LINE && !is_heading(next) &&
            i + 2 < p->rows.count && p->rows.items[i + 2].chapter == CHAPTER_NONE)
            cr_expect_eq(p->rows.items[i + 2].page, row->page, "%s, page %d: one line below a heading", name,
                         row->page + 1);
        if ((row->kind == ROW_LINE && strcmp(row->role, "Caption") != 0) || row->kind == ROW_PAIR)
            words_page = row->page;
        if (row->kind == ROW_PICTURES)
            cr_expect_leq(row->page, words_page + 1, "%s, page %d: a figure far from its step", name,
                          row->page + 1);
        if (!ends || next == NULL)
            continue;
        const double fill = (row->y + row->height - p->top) / (p->bottom - p->top);
        filled += fill;
        filled_pages++;
        cr_expect(fill >= (next->chapter == CHAPTER_NONE ? LEAST_FILL : LEAST_LAST),
                  "%s, %g mm wide: page %d filled to %.2f", name, p->book->paper_width, row->page + 1, fill);
    }
}

static void is_within(const Paging *p, double x, double y, double width, double height, const char *name) {
    cr_expect(x >= p->margin - 0.1 && x + width <= p->margin + p->width + 0.1 && y >= p->top - 0.1 &&
                  y + height <= p->bottom + 0.1,
              "%s: %g by %g mm at %g, %g", name, width, height, x, y);
}

static void rows_are_within(const Paging *p, const Row *rows, int count, double down, const char *name) {
    for (int i = 0; i < count; i++) {
        const Row *row = &rows[i];
        is_within(p, row->x, row->y + down, row->width, row->height, name);
        for (int k = 0; k < row->picture_count; k++)
            is_within(p, row->x + row->pictures[k].x, row->y + down + row->pictures[k].y,
                      row->pictures[k].width, row->pictures[k].height, name);
        for (int k = 0; k < row->cell_count; k++) {
            const Cell *cell = &row->cells[k];
            for (int n = 0; cell->text != NULL && n < type_text_lines(cell->text); n++) {
                double from, to;
                type_text_extent(cell->text, n, &from, &to);
                is_within(p, row->x + cell->x + from, row->y + down + cell->y, to - from,
                          type_text_height(cell->text), name);
            }
        }
        rows_are_within(p, row->inner, row->inner_count, row->y + down, name);
    }
}

// The typeset of a paging that is not printed.
static void put_away(Paging *p) {
    Typeset *set = p->set;
    paging_finish(p);
    Buffer nothing;
    buffer_init(&nothing);
    typeset_page(set);
    cr_expect(typeset_finish(set, &nothing));
    buffer_finish(&nothing);
}

static void is_laid_out_well(const char *name, const Booked *booked) {
    for (size_t i = 0; i < sizeof papers / sizeof *papers; i++) {
        Book book = booked->book;
        book.paper_width = papers[i][0];
        book.paper_height = papers[i][1];
        Paging p;
        cr_assert(paging_make(&book, &p));
        is_well_broken(&p, name);
        rows_are_within(&p, p.rows.items, p.rows.count, 0, name);
        put_away(&p);
    }
}

Test(paging, pages_are_full_and_no_line_stands_alone, .timeout = 300) {
    filled = 0;
    filled_pages = 0;
    booked_each(is_laid_out_well);
    cr_expect_gt(filled, MEAN_FILL * filled_pages, "%g of %d pages", filled, filled_pages);
}

static void booked_text(const char *text, Booked *out) {
    char path[64];
    Fault fault;
    fault_init(&fault);
    snprintf(path, sizeof path, "/tmp/rebato-paging-%d.md", (int)getpid());
    cr_assert(file_write(path, text, strlen(text), &fault), "%s", fault.message);
    booked(path, NULL, NULL, NULL, out);
    unlink(path);
    fault_finish(&fault);
}

// Paragraphs and lists of every length from one line to many, so that each meets the foot of a page
// somewhere.
Test(paging, prose_of_any_length_is_well_broken, .timeout = 60) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, "# Long\n\nIt is.\n\n```lua\nA = 1*cm\n```\n\n");
    unsigned seed = 7;
    for (int i = 0; i < 400; i++) {
        seed = seed * 1103515245u + 12345u;
        const int words = (int)(seed >> 16) % 90 + 3, kind = (int)(seed >> 8) % 7;
        if (kind == 0)
            buffer_add_format(&text, "## Part %d\n\n", i);
        for (int k = 0; k < words; k++)
            buffer_add_text(&text, kind == 1 && k % 12 == 0 ? "\n- hem"
                                   : k % 5 == 0             ? " gathering"
                                                            : " cloth");
        buffer_add_text(&text, ".\n\n");
    }
    Booked b;
    booked_text(text.data, &b);
    is_laid_out_well("long", &b);
    booked_finish(&b);
    buffer_finish(&text);
}

Test(paging, what_is_read_from_the_right_is_mirrored) {
    Booked b;
    booked_text("<!-- language: he -->\n\n# \u05E6\u05D5\u05D5\u05D0\u05E8\u05D5\u05DF\n\n"
                "\u05E7\u05E6\u05E8.\n\n## \u05E7\u05D5\n\n"
                "\u05E7\u05D5 \u05D0\u05E8\u05D5\u05DA.\n\n"
                "```lua\nd = draft \"Band\"\nd.A = point(0, 0)\nd.B = d.A:right(20*cm)\n"
                "d.neck = line(d.A, d.B)\n```\n\n## \u05DC\u05D5\u05D7\n\n"
                "| \u05D0 | \u05D1 |\n|---|---|\n| \u05D2 | \u05D3 |\n",
                &b);
    Paging p;
    cr_assert(paging_make(&b.book, &p));
    int pairs = 0, cells = 0;
    for (int i = 0; i < p.rows.count; i++) {
        const Row *row = &p.rows.items[i];
        if (row->kind == ROW_PAIR && row->picture_count > 0 && type_text_is_rtl(row->inner[0].text)) {
            pairs++;
            cr_expect_lt(row->pictures[0].x + row->pictures[0].width, row->inner[0].x - row->x);
        }
        if (row->kind == ROW_CELLS && row->cell_count == 2 && row->cells[0].text != NULL &&
            type_text_is_rtl(row->cells[0].text)) {
            cells++;
            cr_expect_gt(row->cells[0].x, row->cells[1].x);
            cr_expect_float_eq(row->x + row->width, p.margin + p.width, 0.01);
        }
    }
    cr_expect_eq(pairs, 1, "%d", pairs);
    cr_expect_eq(cells, 2, "%d", cells);
    put_away(&p);
    booked_finish(&b);
}
