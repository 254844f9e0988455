// Placing many small names on a drawing so that they cover neither each other nor the lines more than they
// must. Everything in millimetres of paper, y down.
#ifndef REBATO_SHEET_LABELS_H
#define REBATO_SHEET_LABELS_H

#include "sheet/canvas.h"
#include "sheet/cells.h"
#include "sheet/polygon.h"

typedef struct Labels {
    Box frame; // names should stay inside it
    struct {
        Box *items;
        int count, capacity;
    } taken;
    LineList lines;
    struct {
        Point *items;
        int count, capacity;
    } points;
    Cells taken_cells, line_cells, point_cells; // where they lie
} Labels;

void labels_finish(Labels *labels);
void labels_take(Labels *labels, Box box);
void labels_add_line(Labels *labels, Line line);
void labels_add_point(Labels *labels, Point at); // a point drawn as a dot, and its room

// The best of eight places round a point for a text of that width and cap height, at least `gap` away from
// it; takes it. The name of a dot stands nearer to no other dot than to its own where it can. Gives the base
// line point of the text, left aligned. False when even the best place costs worst or more; nothing is taken.
bool labels_place(Labels *labels, Point at, double gap, double width, double height, double worst,
                  Point *out);

// The best place for a text along a straight line, above or below it and turned with it so that it reads from
// below or from the right; takes it. out is the middle of the base line, degrees counter-clockwise as seen.
bool labels_place_along(Labels *labels, Line line, double gap, double width, double height, double worst,
                        Point *out, double *degrees);

#define LABELS_CLEAR 2.9    // a name crosses no line
#define LABELS_CROWDED 15.0 // the cost at which a name would cover another one

#endif
