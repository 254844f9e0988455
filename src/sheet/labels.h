// Placing many small names on a drawing so that they cover neither each other nor the lines more than they
// must. Everything in millimetres of paper, y down.
#ifndef REBATO_SHEET_LABELS_H
#define REBATO_SHEET_LABELS_H

#include "sheet/canvas.h"
#include "sheet/polygon.h"

typedef struct Labels {
    Box frame; // names should stay inside it
    struct {
        Box *items;
        int count, capacity;
    } taken;
    LineList lines;
} Labels;

void labels_finish(Labels *labels);
void labels_take(Labels *labels, Box box);
void labels_add_line(Labels *labels, Line line);

// The best of eight places round a point for a text of that width and cap height, at least `gap` away from
// it; takes it. Gives the base line point of the text, left aligned. False when even the best place costs
// worst or more; nothing is taken.
bool labels_place(Labels *labels, Point at, double gap, double width, double height, double worst,
                  Point *out);

#define LABELS_CROWDED 15.0 // the cost at which a name would cover another one

// How bad a place is: 0 when it is free.
double labels_cost(const Labels *labels, Box box);

#endif
