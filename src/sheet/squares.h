// The test squares, 100 mm and 4 inches, with what the cutter must know before printing and joining the
// pages.
#ifndef REBATO_SHEET_SQUARES_H
#define REBATO_SHEET_SQUARES_H

#include "sheet/flow.h"
#include "sheet/spread.h"

void squares_draw(Flow *flow, const Spread *spread);

#endif
