#include "sheet/cells.h"

#include <math.h>

#include "base/memory.h"

void cells_finish(Cells *cells) {
    for (int i = 0; cells->cells != NULL && i < CELLS_MOST * CELLS_MOST; i++)
        mem_free(cells->cells[i].items);
    mem_free(cells->cells);
    mem_free(cells->met.items);
    *cells = (Cells){.cells = NULL};
}

void cells_begin(Cells *cells, Box frame) {
    const double side = fmax(frame.most.x - frame.least.x, frame.most.y - frame.least.y);
    cells->corner = frame.least;
    cells->size = fmax(CELL_MM, side / CELLS_MOST);
}

static double cell_size(const Cells *cells) {
    return cells->size > 0 ? cells->size : CELL_MM;
}

static int cell_at(const Cells *cells, double from_corner) {
    return (int)fmax(0, fmin(CELLS_MOST - 1, floor(from_corner / cell_size(cells))));
}

static int row_at(const Cells *cells, double y) {
    return cell_at(cells, y - cells->corner.y);
}

static int column_at(const Cells *cells, double x) {
    return cell_at(cells, x - cells->corner.x);
}

static int add_thing(Cells *cells) {
    if (cells->cells == NULL)
        cells->cells = mem_new(sizeof *cells->cells * CELLS_MOST * CELLS_MOST);
    ARRAY_ADD(&cells->met, 0u);
    return cells->met.count - 1;
}

static void add_row(Cells *cells, int thing, int row, double from, double to) {
    for (int column = column_at(cells, from); column <= column_at(cells, to); column++)
        ARRAY_ADD(&cells->cells[row * CELLS_MOST + column], thing);
}

void cells_add_box(Cells *cells, Box box) {
    const int thing = add_thing(cells);
    for (int row = row_at(cells, box.least.y); row <= row_at(cells, box.most.y); row++)
        add_row(cells, thing, row, box.least.x, box.most.x);
}

// A line in the rows of cells that it crosses. The first and the last row reach on without end.
typedef struct LineRows {
    Point low, high;
    int first, last;
} LineRows;

static LineRows rows_of_line(const Cells *cells, Line line) {
    const bool falls = line.from.y <= line.to.y;
    LineRows rows = {.low = falls ? line.from : line.to, .high = falls ? line.to : line.from};
    rows.first = row_at(cells, rows.low.y);
    rows.last = row_at(cells, rows.high.y);
    return rows;
}

// From where the line enters a row to where it leaves it.
static void stretch_in_row(const Cells *cells, const LineRows *rows, int row, double *from, double *to) {
    const double tall = rows->high.y - rows->low.y, top = cells->corner.y + row * cell_size(cells),
                 enters = row == rows->first ? 0 : (top - rows->low.y) / tall,
                 leaves = row == rows->last ? 1 : (top + cell_size(cells) - rows->low.y) / tall;
    const double first = point_mix(rows->low, rows->high, enters).x,
                 last = point_mix(rows->low, rows->high, leaves).x;
    *from = fmin(first, last);
    *to = fmax(first, last);
}

void cells_add_line(Cells *cells, Line line) {
    const int thing = add_thing(cells);
    const LineRows rows = rows_of_line(cells, line);
    for (int row = rows.first; row <= rows.last; row++) {
        double from, to;
        stretch_in_row(cells, &rows, row, &from, &to);
        add_row(cells, thing, row, from, to);
    }
}

static bool visit_row(Cells *cells, int row, double from, double to, CellVisit *visit, void *context) {
    for (int column = column_at(cells, from); column <= column_at(cells, to); column++) {
        const CellList *list = &cells->cells[row * CELLS_MOST + column];
        for (int i = 0; i < list->count; i++) {
            const int thing = list->items[i];
            if (cells->met.items[thing] == cells->search)
                continue;
            cells->met.items[thing] = cells->search;
            if (!visit(context, thing))
                return false;
        }
    }
    return true;
}

bool cells_visit(Cells *cells, Box box, CellVisit *visit, void *context) {
    if (cells->cells == NULL)
        return true;
    cells->search++;
    for (int row = row_at(cells, box.least.y); row <= row_at(cells, box.most.y); row++)
        if (!visit_row(cells, row, box.least.x, box.most.x, visit, context))
            return false;
    return true;
}

#define NEAR_MM 0.01 // what the line meets on the side of a cell is found in either

bool cells_visit_line(Cells *cells, Line line, CellVisit *visit, void *context) {
    if (cells->cells == NULL)
        return true;
    cells->search++;
    const LineRows rows = rows_of_line(cells, line);
    const int first = row_at(cells, rows.low.y - NEAR_MM), last = row_at(cells, rows.high.y + NEAR_MM);
    for (int row = first; row <= last; row++) {
        const int inside = row < rows.first ? rows.first : row > rows.last ? rows.last : row;
        double from, to;
        stretch_in_row(cells, &rows, inside, &from, &to);
        if (!visit_row(cells, row, from - NEAR_MM, to + NEAR_MM, visit, context))
            return false;
    }
    return true;
}
