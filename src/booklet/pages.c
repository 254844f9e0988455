// First everything becomes rows: lines of paragraphs, pictures, rows of tables, in one long column. Then the
// rows are set on pages (pages_break.c), so that the contents know their page numbers, and drawn.
#include "booklet/pages.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "booklet/bulk.h"
#include "booklet/paging.h"

#define MARGIN_MM 20.0
#define MARGIN_PART 0.095 // of a narrow page
#define MEASURE_MM 128.0  // a line of prose is no longer: about 75 letters
#define SMALL_LINES 8     // of a section kept on one page with its figure

static const double heading_before[] = {0, 0, 11, 7, 5, 4, 4};
static const TypeLook heading_looks[] = {TYPE_TITLE, TYPE_TITLE, TYPE_PART, TYPE_STEP,
                                         TYPE_SUB,   TYPE_SUB,   TYPE_SUB};
static const char *const heading_roles[] = {"H1", "H1", "H2", "H3", "H4", "H5", "H6"};

// The lines of a paragraph. At least two stand together at the foot of a page and at the head of the next.
void page_lines(const Column *column, TypeText *text, double before, const char *role, bool keep_all) {
    const int count = type_text_lines(text);
    for (int i = 0; i < count; i++) {
        const Row row = {ROW_AT(column, type_text_line_height(text, i)),
                         .kind = ROW_LINE,
                         .before = i == 0 ? before : 0,
                         .keep = keep_all || (count > 1 && (i == 0 || i == count - 2)),
                         .role = role,
                         .text = text,
                         .line = i};
        ARRAY_ADD(column->rows, row);
    }
}

const Nest *page_nest(Paging *p, const Nest *outer, const char *role) {
    Nest *nest = arena_take(&p->arena, sizeof *nest);
    *nest = (Nest){.role = role, .outer = outer};
    return nest;
}

void rows_keep(RowList *rows, int first) {
    for (int i = first; i < rows->count; i++)
        rows->items[i].keep = true;
}

double rows_height(const RowList *rows) {
    double height = 0;
    for (int i = 0; i < rows->count; i++)
        height += (i > 0 ? rows->items[i].before : 0) + rows->items[i].height;
    return height;
}

static void add_heading(Paging *p, const Column *column, const BookBlock *block) {
    const int level = block->level < 1 ? 1 : block->level > 6 ? 6 : block->level;
    SpanList spans = block->spans;
    if (block->number != NULL) {
        Span *own = arena_take(&p->arena, sizeof *own * (size_t)(spans.count + 1));
        own[0] = (Span){.text = arena_format(&p->arena, "%s  ", block->number)};
        memcpy(own + 1, spans.items, sizeof *own * (size_t)spans.count);
        spans = (SpanList){.items = own, .count = spans.count + 1};
    }
    TypeText *text = page_text(p, heading_looks[level], spans, column->width,
                               page_language(p, column, block->authored, block->language), ALIGN_LEFT);
    page_lines(column, text, heading_before[level], heading_roles[level], true);
}

// The second part of the front may begin a page, so that what is before it is a cover.
static ChapterStart chapter_start(const BookBlock *section, int front) {
    switch (section->role) {
    case ROLE_CUTTING:
    case ROLE_SEWING:
        return CHAPTER_BEGINS_PAGE;
    case ROLE_PART:
        return section->items[0].level == 2 ? CHAPTER_RUNS_ON : CHAPTER_NONE;
    case ROLE_CONTENTS:
    case ROLE_PROOFS:
    case ROLE_VERSION:
        return CHAPTER_RUNS_ON;
    case ROLE_FRONT:
        return CHAPTER_NONE;
    default:
        return front == 2 && section->items[0].level == 2 ? CHAPTER_RUNS_ON : CHAPTER_NONE;
    }
}

// A section that is a few words and a figure, as a seam: all of it on one page.
static void keep_small(RowList *rows, int first) {
    int words = 0, figures = 0, last = first;
    for (int i = first; i < rows->count; i++) {
        words += rows->items[i].kind == ROW_LINE;
        figures += rows->items[i].kind == ROW_PICTURES;
        last = rows->items[i].kind == ROW_PICTURES ? i : last;
    }
    for (int i = first; figures == 1 && words <= SMALL_LINES && i < last; i++)
        rows->items[i].keep = true;
}

static void add_section(Paging *p, const Column *given, const BookBlock *section) {
    Column column = *given;
    column.language = page_language(p, given, section->authored, section->language);
    const int first = column.rows->count;
    if (section->role == ROLE_FRONT)
        p->front = 1;
    page_blocks(p, &column, section->items, section->count);
    if (section->role == ROLE_FRONT)
        p->front = 0;
    if (column.rows->count == first)
        return;
    page_place(p, &column, first, section->anchor);
    if (section->role == ROLE_PLAIN)
        keep_small(column.rows, first);
    if (column.rows == &p->rows && given->frame < 0 && column.rows->items[first].chapter == CHAPTER_NONE)
        column.rows->items[first].chapter = chapter_start(section, p->front);
    p->front += p->front > 0;
}

// Whether it says that something follows.
static bool announces(SpanList spans) {
    const char *text = spans.count > 0 ? spans.items[spans.count - 1].text : "";
    const size_t length = strlen(text);
    return length > 0 && text[length - 1] == ':';
}

static void add_paragraph(Paging *p, const Column *column, const BookBlock *block) {
    Column narrow = *column;
    if (p->front == 0) // what it is, in one line if it can be
        narrow.width = fmin(column->width, MEASURE_MM);
    TypeText *text = page_text(p, column->small ? TYPE_SMALL : TYPE_BODY, block->spans, narrow.width,
                               page_language(p, column, block->authored, block->language), ALIGN_LEFT);
    if (type_text_is_rtl(text))
        narrow.x += column->width - narrow.width;
    page_lines(&narrow, text, 2.2, "P", false);
    column->rows->items[column->rows->count - 1].keep = announces(block->spans);
}

void page_blocks(Paging *p, const Column *column, const BookBlock *blocks, int count) {
    for (int i = 0; i < count; i++) {
        const BookBlock *block = &blocks[i];
        Column inner = *column;
        switch (block->kind) {
        case BOOK_SECTION:
            if (block->role == ROLE_STEP)
                i += page_steps(p, column, block, count - i) - 1;
            else
                add_section(p, column, block);
            break;
        case BOOK_HEADING:
            add_heading(p, column, block);
            break;
        case BOOK_PARAGRAPH:
            add_paragraph(p, column, block);
            break;
        case BOOK_LIST:
            page_list(p, column, block);
            break;
        case BOOK_ITEM:
            inner.language = page_language(p, column, block->authored, block->language);
            page_blocks(p, &inner, block->items, block->count);
            break;
        case BOOK_QUOTE:
        case BOOK_NOTICE:
            page_framed(p, column, block);
            break;
        case BOOK_CODE:
            page_code(p, column, block);
            break;
        case BOOK_RULE: {
            const Row row = {ROW_AT(column, 1), .kind = ROW_RULE, .before = 3};
            ARRAY_ADD(column->rows, row);
            break;
        }
        case BOOK_TABLE:
            inner.language = page_language(p, column, block->authored, block->language);
            page_table(p, &inner, block->table);
            break;
        case BOOK_FIGURE:
            inner.language = page_language(p, column, block->authored, block->language);
            page_figure(p, &inner, block);
            break;
        case BOOK_CONTENTS:
            page_contents(p, column);
            break;
        }
    }
}

static bool spans_known(SpanList spans) {
    for (int i = 0; i < spans.count; i++)
        if ((spans.items[i].style & SPAN_CODE) != 0 || !typeset_knows(spans.items[i].text))
            return false;
    return true;
}

// Whether the program's own fonts have all letters of the blocks. Code asks for a font of even widths.
static bool blocks_known(const BookBlock *blocks, int count) {
    for (int i = 0; i < count; i++) {
        const BookBlock *block = &blocks[i];
        const BookTable *table = block->table;
        if (block->kind == BOOK_CODE || !spans_known(block->spans) ||
            !blocks_known(block->items, block->count))
            return false;
        for (int k = 0; table != NULL && k < table->row_count * table->column_count; k++)
            if (!spans_known(table->cells[k].spans))
                return false;
    }
    return true;
}

static void find_places(Paging *p, const BookBlock *blocks, int count) {
    for (int i = 0; i < count; i++) {
        if (blocks[i].kind == BOOK_SECTION && blocks[i].anchor != NULL && blocks[i].count > 0)
            ARRAY_ADD(&p->places, blocks[i].anchor);
        find_places(p, blocks[i].items, blocks[i].count);
    }
}

void paging_finish(Paging *p) {
    for (int i = 0; i < p->texts.count; i++)
        type_text_free(p->texts.items[i]);
    mem_free(p->texts.items);
    mem_free(p->rows.items);
    mem_free(p->frames.items);
    mem_free(p->joints.items);
    mem_free(p->places.items);
    arena_finish(&p->arena);
}

// Two lines at least stand below a heading.
static void keep_below_headings(RowList *rows) {
    for (int i = 1; i + 1 < rows->count; i++) {
        const Row *before = &rows->items[i - 1];
        Row *row = &rows->items[i];
        if (before->kind == ROW_LINE && before->role[0] == 'H' && before->keep && row->kind == ROW_LINE &&
            row->role[0] != 'H')
            row->keep = true;
    }
}

bool paging_make(const Book *book, Paging *out) {
    const TypesetOptions options = {.title = book->title,
                                    .subject = book->subject,
                                    .language = language_tag(book->language),
                                    .width = book->paper_width,
                                    .height = book->paper_height,
                                    .own_fonts = blocks_known(book->blocks, book->count)};
    const double margin = fmin(MARGIN_MM, book->paper_width * MARGIN_PART);
    *out = (Paging){.book = book,
                    .set = typeset_new(&options),
                    .margin = margin,
                    .top = margin,
                    .bottom = book->paper_height - margin,
                    .width = book->paper_width - 2 * margin,
                    .figure_tall = PICTURE_BESIDE_TALL_MM,
                    .marks = language_marks(book->language),
                    .closed = -1};
    if (out->set == NULL)
        return false;
    arena_init(&out->arena);
    find_places(out, book->blocks, book->count);
    ARRAY_ADD(&out->joints, ((Joint){.ways = {0}, .count = 1}));
    out->closed = 0;
    const Column column = {.x = margin,
                           .width = out->width,
                           .frame = -1,
                           .rows = &out->rows,
                           .nest = page_nest(out, NULL, "Document")};
    page_blocks(out, &column, book->blocks, book->count);
    keep_below_headings(&out->rows);
    page_break(out);
    return true;
}

static bool check_bulk(const Book *book, Fault *fault) {
    Bulk bulk = {0};
    bulk_add(&bulk, book->blocks, book->count);
    if (bulk_fits_pages(&bulk))
        return true;
    if (bulk.block > BULK_BLOCK_MOST) {
        fault_set(
            fault, NULL, 0,
            "a paragraph, a cell or a line of the lesson is too long for pages: %zu KB, more than %d KB",
            bulk.block / 1024, BULK_BLOCK_MOST / 1024);
        fault_set_hint(fault, "part it by an empty line, or weave it to HTML");
        return false;
    }
    fault_set(fault, NULL, 0,
              "the lesson is too long for pages: %zu KB of text in %ld runs, more than %d KB or %d runs",
              bulk.bytes / 1024, bulk.runs, BULK_BYTES_MOST / 1024, BULK_RUNS_MOST);
    fault_set_hint(fault, "weave it to HTML, or tell it apart into several recipes");
    return false;
}

bool pages_write(const Book *book, Buffer *out, int *pages, Fault *fault) {
    if (!check_bulk(book, fault))
        return false;
    Paging p;
    if (!paging_make(book, &p)) {
        fault_set(fault, NULL, 0,
                  "the lesson cannot be set in type: the library pango is not on this machine");
        fault_set_hint(fault, "install libpangocairo-1.0-0, or weave it to HTML");
        return false;
    }
    page_draw(&p);
    if (pages != NULL)
        *pages = p.pages;
    Typeset *set = p.set;
    paging_finish(&p);
    if (typeset_finish(set, out))
        return true;
    fault_set(fault, NULL, 0, "the pages of the lesson could not be written as a PDF");
    return false;
}
