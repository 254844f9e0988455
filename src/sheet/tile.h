// One page of a drawing that is joined from several: its share of the pieces, its name, and the marks by
// which it is joined.
#ifndef REBATO_SHEET_TILE_H
#define REBATO_SHEET_TILE_H

#include "sheet/spread.h"

// number and total count the pages of the whole document.
void tile_draw(const Spread *spread, Canvas *canvas, int row, int column, int number, int total);

// The line that stands in the margin of each page: title, body, scale.
void tile_write_line(const Spread *spread, Buffer *out);

#endif
