// The front pages: what this is, whether it is proven, what to cut, how to print it true, how the pages are
// joined, what the lines mean; and the drafts as small figures.
#ifndef REBATO_SHEET_PLAN_H
#define REBATO_SHEET_PLAN_H

#include "sheet/spread.h"

typedef void (*PlanPage)(void *context); // begins one more page on the canvas

// All front pages on paper of that size, begun through page; gives how many.
int plan_draw(const Spread *spread, Canvas *canvas, double width, double height, PlanPage page,
              void *context);

// The same as one block for a single large sheet, its upper left corner at `at`; gives its height for
// PLAN_BLOCK_MM. canvas may be NULL: only measured.
double plan_draw_block(const Spread *spread, Canvas *canvas, Point at);

#define PLAN_BLOCK_MM 190.0
#define PLAN_NARROWEST_MM (101.6 + 2 * MARGIN_MM + 2) // paper on which the test squares stand

#endif
