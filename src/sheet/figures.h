// The drafts as small figures with their names and scales: as many on a page as can be read there.
#ifndef REBATO_SHEET_FIGURES_H
#define REBATO_SHEET_FIGURES_H

#include "sheet/plan.h"

// On pages of that size, begun through page; gives how many.
int figures_draw(const Spread *spread, Canvas *canvas, double width, double height, PlanPage page,
                 void *context);

// Below and beside each other in a block of that width; gives its height. small: at half their size or less.
// A NULL canvas draws nothing.
double figures_draw_block(const Spread *spread, Canvas *canvas, Point at, double width, bool small);

#endif
