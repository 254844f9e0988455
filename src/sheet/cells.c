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

static int cell_at(double place) {
    return (int)fmax(0, fmin(CELLS_MOST - 1, floor(place / CELL_MM)));
}

static int add_thing(Cells *cells) {
    if (cells->cells == NULL)
        cells->cells = mem_new(sizeof *cells->cells * CELLS_MOST * CELLS_MOST);
    ARRAY_ADD(&cells->met, 0u);
    return cells->met.count - 1;
}

static void add_row(Cells *cells, int thing, int row, double from, double to) {
    for (int column = cell_at(from); column <= cell_at(to); column++)
        ARRAY_ADD(&cells->cells[row * CELLS_MOST + column], thing);
}

void cells_add_box(Cells *cells, Box box) {
    const int thing = add_thing(cells);
    for (int row = cell_at(box.least.y); row <= cell_at(box.most.y); row++)
        add_row(cells, thing, row, box.least.x, box.most.x);
}

// In each row of cells, from where the line enters it to where it leaves it. The first and the last row reach
// on without end.
void cells_add_line(Cells *cells, Line line) {
    const int thing = add_thing(cells);
    const Point low = line.from.y <= line.to.y ? line.from : line.to,
                high = line.from.y <= line.to.y ? line.to : line.from;
    const int first = cell_at(low.y), last = cell_at(high.y);
    for (int row = first; row <= last; row++) {
        const double enters = row == first ? 0 : (row * CELL_MM - low.y) / (high.y - low.y),
                     leaves = row == last ? 1 : ((row + 1) * CELL_MM - low.y) / (high.y - low.y);
        const double from = point_mix(low, high, enters).x, to = point_mix(low, high, leaves).x;
        add_row(cells, thing, row, fmin(from, to), fmax(from, to));
    }
}

bool cells_visit(Cells *cells, Box box, CellVisit *visit, void *context) {
    if (cells->cells == NULL)
        return true;
    cells->search++;
    for (int row = cell_at(box.least.y); row <= cell_at(box.most.y); row++)
        for (int column = cell_at(box.least.x); column <= cell_at(box.most.x); column++) {
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
