// Columns are as wide as their words need, where all have room: numbers stand by what they tell. What is left
// over stays white. Where they have too little, those of few words keep what they need, and the others share.
#include <math.h>

#include "base/memory.h"
#include "booklet/paging.h"

#define CELL_GAP_MM 5.0   // between columns
#define CELL_CLOSE_MM 3.0 // where room is scarce
#define CELL_PAD_MM 1.1   // above and below
#define CELL_SPARE_MM 0.4 // beyond the words of a cell, so that they are not broken for a hair
#define PICTURE_WIDE_MM 30.0
#define PICTURE_TALL_MM 20.0
#define TALLEST_PART 0.8 // of a page: what a row of cells may take
#define ROWS_ASKED 200   // how wide the words of those are; the others take the widths that come out
#define ROWS_TOGETHER 3  // at the head and at the end of a table
#define SHORT_ROWS 6     // a table of so few, with its names, stays on one page
#define PAGE_ROWS 20     // one of so few is parted for much only
#define SHORT_PRICE 75.0
#define LONG_PRICE 15.0

// The words of a cell: those that name a row or a column are strong.
static SpanList cell_spans(Paging *p, const BookTable *table, int index) {
    SpanList spans = table->cells[index].spans;
    const bool names = table->header && index < table->column_count;
    if (!names && !(table->names_first && index % table->column_count == 0))
        return spans;
    Span *strong = arena_take(&p->arena, sizeof *strong * (size_t)(spans.count + 1));
    for (int i = 0; i < spans.count; i++) {
        strong[i] = spans.items[i];
        strong[i].style |= SPAN_STRONG;
    }
    spans.items = strong;
    return spans;
}

static double words_width(const TypeText *text) {
    double width = 0;
    for (int i = 0; i < type_text_lines(text); i++) {
        double from, to;
        type_text_extent(text, i, &from, &to);
        width = fmax(width, to - from);
    }
    return width + CELL_SPARE_MM;
}

// Of one column: how wide its widest cell is where it need not be broken.
static double wanted_width(Paging *p, const Column *column, const BookTable *table, int at) {
    double wanted = 0;
    for (int r = 0; r < table->row_count && r < ROWS_ASKED; r++) {
        const int index = r * table->column_count + at;
        const BookCell *cell = &table->cells[index];
        if (cell->picture != NULL)
            wanted = fmax(wanted, PICTURE_WIDE_MM);
        if (cell->spans.count == 0 || wanted >= column->width)
            continue;
        TypeText *text = page_text(p, TYPE_SMALL, cell_spans(p, table, index), column->width,
                                   page_language(p, column, cell->authored, cell->language), ALIGN_LEFT);
        wanted = fmax(wanted, fmin(words_width(text), column->width));
    }
    return wanted;
}

// Those that want no more than an even share get what they want; the others share what is left by the roots
// of what they want, which makes their rows about as tall.
static void share_widths(Paging *p, double *widths, int count, double room) {
    bool *settled = arena_take(&p->arena, sizeof *settled * (size_t)count);
    for (int i = 0; i < count; i++)
        settled[i] = false;
    int open = count;
    for (bool changed = true; changed && open > 0;) {
        changed = false;
        for (int i = 0; i < count; i++)
            if (!settled[i] && widths[i] <= room / open) {
                settled[i] = changed = true;
                room -= widths[i];
                open--;
                break;
            }
    }
    double roots = 0;
    for (int i = 0; i < count; i++)
        roots += settled[i] ? 0 : sqrt(widths[i]);
    for (int i = 0; i < count; i++)
        if (!settled[i])
            widths[i] = room * sqrt(widths[i]) / roots;
}

// Gives the gap between the columns.
static double find_widths(Paging *p, const Column *column, const BookTable *table, double *out) {
    double wanted = 0;
    const int count = table->column_count;
    for (int i = 0; i < count; i++)
        wanted += out[i] = wanted_width(p, column, table, i);
    if (wanted + CELL_GAP_MM * (count - 1) <= column->width)
        return CELL_GAP_MM;
    share_widths(p, out, count, column->width - CELL_CLOSE_MM * (count - 1));
    return CELL_CLOSE_MM;
}

static void add_cell(Paging *p, const Column *column, const BookTable *table, int index, double x,
                     double width, Row *row) {
    const int at = index % table->column_count;
    const BookCell *given = &table->cells[index];
    Cell *cell = &row->cells[at];
    double y = CELL_PAD_MM;
    SpanList spans = cell_spans(p, table, index);
    *cell = (Cell){.x = x};
    if (given->picture != NULL) {
        const PictureAsk ask = {.kind = PICTURE_PIECE,
                                .piece = given->picture->piece,
                                .width = fmin(width, PICTURE_WIDE_MM),
                                .height = PICTURE_TALL_MM};
        PictureSize size;
        cell->has_picture =
            given->picture->kind == BOOK_PICTURE_PIECE && picture_measure(p->book->pictures, &ask, &size);
        if (cell->has_picture) {
            cell->picture = (Placed){.picture = given->picture,
                                     .ask = ask,
                                     .x = x,
                                     .y = y,
                                     .width = size.width,
                                     .height = size.height};
            y += size.height + 1;
        } else {
            spans = page_picture_words(p, given->picture, spans);
        }
    }
    if (spans.count > 0) {
        cell->y = y;
        cell->text =
            page_text(p, TYPE_SMALL, spans, width, page_language(p, column, given->authored, given->language),
                      table->columns[at].number ? ALIGN_RIGHT : ALIGN_LEFT);
        y += type_text_height(cell->text);
    }
    row->height = fmax(row->height, y + CELL_PAD_MM);
}

// A row too tall for a page: its cells below each other, which can be broken.
static void loosen(const Column *column, const Row *row) {
    for (int i = 0; i < row->cell_count; i++) {
        Column narrow = *column;
        narrow.x += row->cells[i].x;
        if (row->cells[i].text != NULL)
            page_lines(&narrow, row->cells[i].text, CELL_PAD_MM, "P", false);
    }
}

// A table that is read from the right has its first column there.
static void mirror(const Column *column, const double *widths, double wide, Row *row) {
    row->x += column->width - wide;
    for (int i = 0; i < row->cell_count; i++) {
        row->cells[i].x = wide - row->cells[i].x - widths[i];
        row->cells[i].picture.x = row->cells[i].x;
    }
}

void page_table(Paging *p, const Column *column, const BookTable *table) {
    if (table->column_count == 0)
        return;
    double *widths = arena_take(&p->arena, sizeof *widths * (size_t)table->column_count);
    const double gap = find_widths(p, column, table, widths);
    const int number = p->tables++, last = table->row_count - 1;
    int header = -1;
    bool mirrored = false;
    double wide = gap * (table->column_count - 1);
    for (int i = 0; i < table->column_count; i++)
        wide += widths[i];
    for (int r = 0; r <= last; r++) {
        Row row = {ROW_AT(column, 0),
                   .kind = ROW_CELLS,
                   .before = r == 0 ? 2.5 : 0,
                   .keep =
                       r < last && (r + 1 < ROWS_TOGETHER || last - r < ROWS_TOGETHER || last <= SHORT_ROWS),
                   .parting = r == 0              ? 0
                              : last <= PAGE_ROWS ? SHORT_PRICE
                                                  : LONG_PRICE,
                   .names = table->header && r == 0,
                   .first_names = table->names_first,
                   .rule = true,
                   .cells = arena_take(&p->arena, sizeof *row.cells * (size_t)table->column_count),
                   .cell_count = table->column_count};
        row.width = wide;
        row.table = number;
        row.header = header;
        double x = 0;
        for (int i = 0; i < table->column_count; i++) {
            add_cell(p, column, table, r * table->column_count + i, x, widths[i], &row);
            x += widths[i] + gap;
        }
        if (r == 0)
            mirrored = row.cells[0].text != NULL && type_text_is_rtl(row.cells[0].text);
        if (mirrored)
            mirror(column, widths, wide, &row);
        if (row.height > (p->bottom - p->top) * TALLEST_PART)
            loosen(column, &row);
        else {
            if (r == 0 && table->header && column->rows == &p->rows)
                header = column->rows->count;
            ARRAY_ADD(column->rows, row);
        }
    }
}
