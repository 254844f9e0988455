// What the lines mean: the kinds that this pattern uses, each drawn as on the pieces.
#ifndef REBATO_SHEET_LEGEND_H
#define REBATO_SHEET_LEGEND_H

#include "sheet/flow.h"
#include "sheet/spread.h"

void legend_draw(Flow *flow, const Spread *spread);

#endif
