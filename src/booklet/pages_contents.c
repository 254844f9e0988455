#include "base/memory.h"
#include "booklet/paging.h"

#define COLUMN_GAP_MM 8.0
#define NARROWEST_MM 65.0
#define COLUMN_LEAST 8 // lines in each of two columns
#define BLOCK_MOST 90  // entries that stand on one page
#define NUMBER_MM 9.0  // for the number of a page
#define DEPTH_MM 4.5
#define DEPTH_MOST 2
#define CONTENTS_BEFORE_MM 2.8

static void add_entry(Paging *p, const Column *column, const BookEntry *entry, bool first) {
    const double indent = DEPTH_MM * entry->depth;
    const char *title =
        entry->number != NULL ? arena_format(&p->arena, "%s  %s", entry->number, entry->title) : entry->title;
    const Span span = {.text = title,
                       .style = entry->depth == 0 ? SPAN_STRONG : 0,
                       .link = arena_format(&p->arena, "#%s", entry->anchor)};
    TypeText *text = page_text(p, entry->depth == 0 ? TYPE_BODY : TYPE_SMALL,
                               (SpanList){.items = &span, .count = 1}, column->width - indent - NUMBER_MM,
                               page_language(p, column, entry->authored, entry->language), ALIGN_LEFT);
    const bool mirrored = type_text_is_rtl(text);
    const Column inner = {.x = column->x + (mirrored ? 0 : indent),
                          .width = column->width - indent,
                          .frame = column->frame,
                          .nest = column->nest};
    const int lines = type_text_lines(text);
    for (int k = 0; k < lines; k++) {
        const Row row = {ROW_AT(&inner, type_text_line_height(text, k)),
                         .kind = ROW_ENTRY,
                         .before = k > 0 || first      ? 0
                                   : entry->depth == 0 ? 2.4
                                                       : 0.6,
                         .keep = k + 1 < lines,
                         .role = "TOCI",
                         .text = text,
                         .line = k,
                         .entry = k + 1 == lines ? entry : NULL};
        ARRAY_ADD(column->rows, row);
    }
}

// The row that begins the second column: near the middle, rather where a section of the booklet begins.
static int find_half(const RowList *rows) {
    const double half = rows_height(rows) / 2;
    double reached = 0, best = 0;
    int at = 0;
    for (int i = 0; i < rows->count; i++) {
        const Row *row = &rows->items[i];
        const bool top = row->entry != NULL && row->entry->depth == 0;
        const bool begins = i == 0 || rows->items[i - 1].text != row->text;
        const double off = (reached > half ? reached - half : half - reached) + (top ? 0 : half * 0.25);
        if (begins && i > 0 && (at == 0 || off < best)) {
            at = i;
            best = off;
        }
        reached += row->before + row->height;
    }
    return at;
}

static double set_column(Row *rows, int count, double x) {
    for (int i = 0; i < count; i++)
        rows[i].x += x;
    return rows_set(rows, count);
}

static void add_columns(Paging *p, const Column *column, const BookEntry *entries, int count) {
    RowList rows = {.items = NULL};
    Column half = *column;
    half.width = (column->width - COLUMN_GAP_MM) / 2;
    half.rows = &rows;
    for (int i = 0; i < count; i++)
        add_entry(p, &half, &entries[i], i == 0);
    const bool mirrored = rows.count > 0 && type_text_is_rtl(rows.items[0].text);
    const double other = half.width + COLUMN_GAP_MM;
    const int middle = find_half(&rows);
    const double left = set_column(rows.items, middle, mirrored ? other : 0);
    const double right = set_column(rows.items + middle, rows.count - middle, mirrored ? 0 : other);
    page_pair(p, column, &rows, left > right ? left : right)->before = CONTENTS_BEFORE_MM;
    mem_free(rows.items);
}

void page_contents(Paging *p, const Column *given) {
    Column own = *given;
    own.nest = page_nest(p, given->nest, "TOC");
    const Column *column = &own;
    BookEntry *shown = arena_take(&p->arena, sizeof *shown * (size_t)(p->book->entry_count + 1));
    int count = 0;
    for (int i = 0; i < p->book->entry_count; i++)
        if (p->book->entries[i].depth <= DEPTH_MOST)
            shown[count++] = p->book->entries[i];
    p->quiet_links = true;
    const bool two = count >= 2 * COLUMN_LEAST && (column->width - COLUMN_GAP_MM) / 2 >= NARROWEST_MM;
    for (int i = 0; i < count; i += two ? BLOCK_MOST : 1) {
        if (two)
            add_columns(p, column, &shown[i], count - i < BLOCK_MOST ? count - i : BLOCK_MOST);
        else
            add_entry(p, column, &shown[i], false);
    }
    p->quiet_links = false;
}
