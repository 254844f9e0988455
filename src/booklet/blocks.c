#include <string.h>

#include "base/memory.h"
#include "booklet/composing.h"

static SpanList span_of(Composing *c, Span span) {
    Span *kept = arena_take(c->arena, sizeof *kept);
    *kept = span;
    return (SpanList){.items = kept, .count = *span.text ? 1 : 0};
}

SpanList span_styled(Composing *c, unsigned style, const char *text) {
    return span_of(c, (Span){.style = style, .text = arena_text(c->arena, text)});
}

SpanList span_plain(Composing *c, const char *text) {
    return span_styled(c, 0, text);
}

SpanList span_link(Composing *c, const char *text, const char *anchor) {
    return span_of(c,
                   (Span){.text = arena_text(c->arena, text), .link = arena_format(c->arena, "#%s", anchor)});
}

BookBlock block_paragraph(SpanList spans) {
    return (BookBlock){.kind = BOOK_PARAGRAPH, .spans = spans};
}

BookBlock block_heading(int level, const char *number, SpanList spans) {
    level = level > HEADING_LEVEL_MOST ? HEADING_LEVEL_MOST : level;
    return (BookBlock){.kind = BOOK_HEADING, .level = level, .number = number, .spans = spans};
}

void add_block(BlockList *list, BookBlock block) {
    ARRAY_ADD(list, block);
}

void add_paragraph(Composing *c, BlockList *list, const char *text) {
    add_block(list, block_paragraph(span_plain(c, text)));
}

void add_holding(Composing *c, BlockList *list, BookBlock holder, BlockList *inner) {
    holder.count = inner->count;
    if (inner->count) {
        holder.items = arena_take(c->arena, sizeof *holder.items * (size_t)inner->count);
        memcpy(holder.items, inner->items, sizeof *holder.items * (size_t)inner->count);
    }
    mem_free(inner->items);
    *inner = (BlockList){0};
    add_block(list, holder);
}

void add_section(Composing *c, BlockList *list, BookRole role, int level, const char *anchor,
                 const char *text, BlockList *inner) {
    if (inner->count == 0)
        return;
    BlockList all = {0};
    add_block(&all, block_heading(level, NULL, span_plain(c, text)));
    for (int i = 0; i < inner->count; i++)
        add_block(&all, inner->items[i]);
    mem_free(inner->items);
    *inner = (BlockList){0};
    add_holding(c, list, (BookBlock){.kind = BOOK_SECTION, .role = role, .anchor = anchor}, &all);
}

const char *begun_large(Composing *c, const char *text) {
    char *begun = (char *)arena_text(c->arena, text);
    if (*begun >= 'a' && *begun <= 'z')
        *begun = (char)(*begun - 'a' + 'A');
    return begun;
}

const char *language_of_step(const Composing *c, int step) {
    return step < 0 ? NULL : c->lessons[c->pattern->steps.items[step].chapter].language;
}

void add_notice(Composing *c, BlockList *list, BookTone tone, const char *text, int step) {
    static const char *const names[] = {[TONE_NOTE] = "notice.note",
                                        [TONE_CAUTION] = "notice.caution",
                                        [TONE_WARNING] = "notice.warning",
                                        [TONE_FAILED] = "notice.failed"};
    BlockList inner = {0};
    add_block(&inner, block_paragraph(span_styled(c, SPAN_STRONG, say(c, names[tone], NULL))));
    BookBlock words = block_paragraph(span_plain(c, begun_large(c, text)));
    words.authored = step >= 0;
    words.language = language_of_step(c, step);
    add_block(&inner, words);
    add_holding(c, list, (BookBlock){.kind = BOOK_NOTICE, .tone = tone}, &inner);
}

BookPicture *add_figure(Composing *c, BlockList *list, int pictures, SpanList caption) {
    BookPicture *items = arena_take(c->arena, sizeof *items * (size_t)pictures);
    add_block(list, (BookBlock){
                        .kind = BOOK_FIGURE, .pictures = items, .picture_count = pictures, .spans = caption});
    return items;
}

TableMaking table_begin(const BookColumn *columns, int count, bool header, bool names_first) {
    return (TableMaking){
        .table = {.columns = columns, .column_count = count, .header = header, .names_first = names_first}};
}

typedef struct Cells {
    BookCell *items;
    int count, capacity;
} Cells;

void table_add(TableMaking *table, BookCell cell) {
    Cells cells = {table->cells, table->count, table->capacity};
    ARRAY_ADD(&cells, cell);
    table->cells = cells.items;
    table->count = cells.count;
    table->capacity = cells.capacity;
}

void table_text(Composing *c, TableMaking *table, const char *text) {
    table_add(table, (BookCell){.spans = span_plain(c, text)});
}

void table_authored(Composing *c, TableMaking *table, const char *text, int step) {
    table_add(
        table,
        (BookCell){.spans = span_plain(c, text), .authored = true, .language = language_of_step(c, step)});
}

void table_end(Composing *c, TableMaking *making, const char *title, BlockList *out) {
    BookTable *table = arena_take(c->arena, sizeof *table);
    *table = making->table;
    table->row_count = making->count / table->column_count;
    table->title = title;
    if (table->row_count > (table->header ? 1 : 0)) {
        BookCell *cells = arena_take(c->arena, sizeof *cells * (size_t)making->count);
        memcpy(cells, making->cells, sizeof *cells * (size_t)making->count);
        BookColumn *columns = arena_take(c->arena, sizeof *columns * (size_t)table->column_count);
        memcpy(columns, table->columns, sizeof *columns * (size_t)table->column_count);
        table->cells = cells;
        table->columns = columns;
        add_block(out, (BookBlock){.kind = BOOK_TABLE, .table = table});
    }
    mem_free(making->cells);
    *making = (TableMaking){0};
}
