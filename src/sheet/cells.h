// A drawing ruled into square cells, each with the things that reach into it, so that what lies near a place
// is found without looking at all of it.
#ifndef REBATO_SHEET_CELLS_H
#define REBATO_SHEET_CELLS_H

#include "sheet/polygon.h"

#define CELL_MM 6.0   // about a name; larger where a drawing is so large that it would take more
#define CELLS_MOST 64 // on a side; what lies beyond the last is held there

typedef struct CellList {
    int *items;
    int count, capacity;
} CellList;

typedef struct Cells {
    CellList *cells; // CELLS_MOST rows of as many; NULL until something is added
    struct {
        unsigned *items; // of each thing, the search that met it last
        int count, capacity;
    } met;
    unsigned search;
    Point corner; // upper left one of the first cell
    double size;  // of a cell, mm; 0 stands for CELL_MM
} Cells;

// Of a drawing that large; before anything is added.
void cells_begin(Cells *cells, Box frame);

void cells_finish(Cells *cells);

// The next thing, numbered from 0 on, reaches into the cells of the box; a line only into those it crosses.
void cells_add_box(Cells *cells, Box box);
void cells_add_line(Cells *cells, Line line);

// Calls visit with the number of each thing near the box, in no order that means anything, until it gives
// false. Gives whether all were visited.
typedef bool CellVisit(void *context, int index);
bool cells_visit(Cells *cells, Box box, CellVisit *visit, void *context);
bool cells_visit_line(Cells *cells, Line line, CellVisit *visit, void *context); // near the line

#endif
