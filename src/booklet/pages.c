// First everything becomes rows: lines of paragraphs, pictures, rows of tables, in one long column. Then the
// rows are set on pages (pages_break.c), so that the contents know their page numbers, and drawn.
#include "booklet/pages.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "booklet/bulk.h"
#include "booklet/paging.h"

#define MARGIN_MM 20.0
#define MARGIN_PART 0.095   // of a narrow page
#define INDENT_MM 7.0       // of list items
#define MEASURE_MM 128.0    // a line of prose is no longer: about 75 letters
#define CODE_LETTER_MM 1.75 // each letter of TYPE_CODE is as wide
#define SHORT_CODE 8        // lines that stay together
#define SMALL_LINES 8       // of a section kept on one page with its figure
#define QUOTE_MM 5.0

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

static void add_item(Paging *p, const Column *column, const BookBlock *list, int index) {
    const BookBlock *item = &list->items[index];
    const char *mark = list->ordered ? arena_format(&p->arena, "%d.", list->start + index) : "\xE2\x80\xA2";
    Span span = {.text = mark};
    Column inner = *column;
    inner.language = page_language(p, column, list->authored, list->language);
    inner.language = page_language(p, &inner, item->authored, item->language);
    inner.x += INDENT_MM;
    inner.width -= INDENT_MM;
    const Nest *nest = page_nest(p, column->nest, "LI");
    inner.nest = page_nest(p, nest, "LBody");
    const int first = column->rows->count;
    page_blocks(p, &inner, item->items, item->count);
    if (column->rows->count == first)
        return;
    Row *row = &column->rows->items[first];
    for (int i = first; row->kind == ROW_LINE && type_text_is_rtl(row->text) && i < column->rows->count; i++)
        column->rows->items[i].x -= INDENT_MM; // the room for the mark is at the right
    row->before = list->tight ? (index == 0 ? 1.6 : 0.6) : 1.8;
    if (row->kind == ROW_LINE && type_text_is_rtl(row->text))
        span.text = arena_format(&p->arena, "\xE2\x80\x8F%s", mark); // its point stands at the left
    if (row->kind == ROW_LINE && row->marker == NULL) {
        row->marked = nest;
        row->marker = page_text(p, column->small ? TYPE_SMALL : TYPE_BODY,
                                (SpanList){.items = &span, .count = 1}, INDENT_MM - 2, NULL, ALIGN_LEFT);
    }
    for (int i = first + 1; list->tight && i < column->rows->count; i++)
        if (column->rows->items[i].before > 1)
            column->rows->items[i].before = 1;
}

// A line alone at the head or the foot of a page is no list.
static void add_list(Paging *p, const Column *column, const BookBlock *list) {
    RowList *rows = column->rows;
    const int first = rows->count;
    int before = first;
    Column inner = *column;
    inner.nest = page_nest(p, column->nest, "L");
    for (int i = 0; i < list->count; i++) {
        before = rows->count;
        add_item(p, &inner, list, i);
    }
    if (rows->count - first < 2)
        return;
    if (first > 0 && rows->items[first - 1].kind == ROW_LINE)
        rows->items[first - 1].keep = true; // what says what the list is of
    rows->items[first].keep = true;
    if (rows->count - before == 1)
        rows->items[before - 1].keep = true;
}

static void add_framed(Paging *p, const Column *column, const BookBlock *block) {
    const bool quote = block->kind == BOOK_QUOTE;
    const Frame frame = {
        .tone = block->tone, .quote = quote, .parent = column->frame, .x = column->x, .width = column->width};
    ARRAY_ADD(&p->frames, frame);
    Column inner = *column;
    inner.frame = p->frames.count - 1;
    inner.x += QUOTE_MM;
    inner.width -= quote ? QUOTE_MM : 2 * QUOTE_MM;
    inner.language = page_language(p, column, block->authored, block->language);
    inner.small = !quote;
    inner.nest = page_nest(p, column->nest, quote ? "BlockQuote" : "Div");
    const int first = column->rows->count;
    page_blocks(p, &inner, block->items, block->count);
    if (column->rows->count == first)
        return;
    column->rows->items[first].before = 3 + FRAME_PAD_MM;
    column->rows->items[first].keep = true;
    column->rows->items[column->rows->count - 1].height += FRAME_PAD_MM;
    if (column->rows->count - first <= 8)
        for (int i = first; i + 1 < column->rows->count; i++)
            column->rows->items[i].keep = true;
}

// Whoever types code from the page takes a broken line for two.
static TypeLook code_look(const char *text, double width) {
    size_t longest = 0;
    for (const char *at = text; *at != '\0'; at += *at == '\n') {
        size_t letters = 0;
        for (; *at != '\0' && *at != '\n'; at++)
            letters += ((unsigned char)*at & 0xC0) != 0x80;
        longest = letters > longest ? letters : longest;
    }
    return (double)longest * CODE_LETTER_MM > width ? TYPE_CODE_FINE : TYPE_CODE;
}

static void add_code(Paging *p, const Column *column, const BookBlock *block) {
    const TypeLook look = code_look(block->text, column->width - QUOTE_MM);
    int number = 0;
    const int first = column->rows->count;
    for (const char *at = block->text; at != NULL && *at != '\0'; number++) {
        const size_t length = strcspn(at, "\n");
        const char *line = arena_text_n(&p->arena, at, length);
        const Span span = {.text = *line != '\0' ? line : " "};
        TypeText *text = page_text(p, look, (SpanList){.items = &span, .count = 1}, column->width - QUOTE_MM,
                                   NULL, ALIGN_LEFT);
        Column inner = *column;
        inner.x += QUOTE_MM;
        inner.width -= QUOTE_MM;
        page_lines(&inner, text, number == 0 ? 2.5 : 0, "P", number < 1);
        at += length + (at[length] == '\n');
    }
    RowList *rows = column->rows;
    for (int i = first; i + 1 < rows->count; i++)
        if (rows->count - first <= SHORT_CODE || i == first || i == rows->count - 2)
            rows->items[i].keep = true;
    if (rows->count > first)
        rows->items[rows->count - 1].keep = false;
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
            add_list(p, column, block);
            break;
        case BOOK_ITEM:
            inner.language = page_language(p, column, block->authored, block->language);
            page_blocks(p, &inner, block->items, block->count);
            break;
        case BOOK_QUOTE:
        case BOOK_NOTICE:
            add_framed(p, column, block);
            break;
        case BOOK_CODE:
            add_code(p, column, block);
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
