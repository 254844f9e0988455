// What stands in from the column it is in: items of lists, quotes, notices and code.
#include <string.h>

#include "base/memory.h"
#include "booklet/paging.h"

#define INDENT_MM 7.0       // of list items
#define QUOTE_MM 5.0        // of quotes, notices and code
#define NARROWEST_MM 40.0   // what stands in deeper is not made narrower, so that its words stay on the paper
#define CODE_LETTER_MM 1.75 // each letter of TYPE_CODE is as wide
#define SHORT_CODE 8        // lines that stay together

static double indent_in(const Column *column, double wanted) {
    return column->width - 2 * wanted >= NARROWEST_MM ? wanted : 0;
}

static void add_item(Paging *p, const Column *column, const BookBlock *list, int index) {
    const BookBlock *item = &list->items[index];
    const char *mark = list->ordered ? arena_format(&p->arena, "%d.", list->start + index) : "\xE2\x80\xA2";
    Span span = {.text = mark};
    Column inner = *column;
    inner.language = page_language(p, column, list->authored, list->language);
    inner.language = page_language(p, &inner, item->authored, item->language);
    const double indent = indent_in(column, INDENT_MM);
    inner.x += indent;
    inner.width -= indent;
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
void page_list(Paging *p, const Column *column, const BookBlock *list) {
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

void page_framed(Paging *p, const Column *column, const BookBlock *block) {
    const bool quote = block->kind == BOOK_QUOTE;
    const Frame frame = {
        .tone = block->tone, .quote = quote, .parent = column->frame, .x = column->x, .width = column->width};
    const double indent = indent_in(column, QUOTE_MM);
    Column inner = *column;
    if (!quote || indent > 0) { // else its line would lie on the words
        ARRAY_ADD(&p->frames, frame);
        inner.frame = p->frames.count - 1;
    }
    inner.x += indent;
    inner.width -= quote ? indent : 2 * indent;
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

void page_code(Paging *p, const Column *column, const BookBlock *block) {
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
