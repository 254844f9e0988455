#include <math.h>

#include "base/memory.h"
#include "booklet/paging.h"

#define CELL_GAP_MM 3.0 // between columns
#define CELL_PAD_MM 1.1 // above and below
#define PICTURE_WIDE_MM 30.0
#define PICTURE_TALL_MM 20.0
#define TALLEST_PART 0.8 // of a page: what a row of cells may take
#define COLUMNS_MAX 16

// Widths by weight; a column with pictures is as wide as those at least.
static void find_widths(const BookTable *table, double width, double *out) {
    double weights = 0;
    for (int i = 0; i < table->column_count; i++)
        weights += fmax(1, table->columns[i].weight);
    const double room = width - CELL_GAP_MM * (table->column_count - 1);
    double fixed = 0, loose = 0;
    for (int i = 0; i < table->column_count; i++) {
        bool pictures = false;
        for (int k = 0; k < table->row_count; k++)
            pictures = pictures || table->cells[k * table->column_count + i].picture != NULL;
        out[i] = room * fmax(1, table->columns[i].weight) / weights;
        if (pictures && out[i] < PICTURE_WIDE_MM) {
            out[i] = -PICTURE_WIDE_MM;
            fixed += PICTURE_WIDE_MM;
        } else {
            loose += out[i];
        }
    }
    for (int i = 0; i < table->column_count; i++)
        out[i] = out[i] < 0 ? -out[i] : out[i] * (room - fixed) / loose;
}

static void add_cell(Paging *p, const Column *column, const BookTable *table, int index, double x,
                     double width, Row *row) {
    const int at = index % table->column_count;
    const bool names = table->header && index < table->column_count;
    const BookCell *given = &table->cells[index];
    Cell *cell = &row->cells[at];
    double y = CELL_PAD_MM;
    *cell = (Cell){.x = x};
    if (given->picture != NULL) {
        const PictureAsk ask = {.kind = PICTURE_PIECE,
                                .piece = given->picture->piece,
                                .width = fmin(width, PICTURE_WIDE_MM),
                                .height = PICTURE_TALL_MM};
        PictureSize size;
        cell->has_picture =
            given->picture->kind == BOOK_PICTURE_PIECE && picture_measure(p->book->pattern, &ask, &size);
        if (cell->has_picture) {
            cell->picture = (Placed){.picture = given->picture,
                                     .ask = ask,
                                     .x = x,
                                     .y = y,
                                     .width = size.width,
                                     .height = size.height};
            y += size.height + 1;
        }
    }
    if (given->spans.count > 0) {
        SpanList spans = given->spans;
        if (names || (table->names_first && at == 0)) {
            Span *strong = arena_take(&p->arena, sizeof *strong * (size_t)spans.count);
            for (int i = 0; i < spans.count; i++) {
                strong[i] = spans.items[i];
                strong[i].style |= SPAN_STRONG;
            }
            spans.items = strong;
        }
        cell->y = y;
        cell->text = page_text(p, TYPE_SMALL, spans, width, page_language(p, column, given->authored, NULL),
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

void page_table(Paging *p, const Column *column, const BookTable *table) {
    double widths[COLUMNS_MAX];
    if (table->column_count > COLUMNS_MAX || table->column_count == 0)
        return;
    find_widths(table, column->width, widths);
    const int number = p->tables++,
              header = table->header && column->rows == &p->rows ? column->rows->count : -1;
    for (int r = 0; r < table->row_count; r++) {
        Row row = {.kind = ROW_CELLS,
                   .before = r == 0 ? 2.5 : 0,
                   .x = column->x,
                   .width = column->width,
                   .keep = r == 0 || r == table->row_count - 2,
                   .frame = column->frame,
                   .table = number,
                   .header = r > 0 ? header : -1,
                   .names = table->header && r == 0,
                   .rule = true,
                   .cells = arena_take(&p->arena, sizeof *row.cells * (size_t)table->column_count),
                   .cell_count = table->column_count};
        double x = 0;
        for (int i = 0; i < table->column_count; i++) {
            add_cell(p, column, table, r * table->column_count + i, x, widths[i], &row);
            x += widths[i] + CELL_GAP_MM;
        }
        if (row.height > (p->bottom - p->top) * TALLEST_PART)
            loosen(column, &row);
        else
            ARRAY_ADD(column->rows, row);
    }
}
