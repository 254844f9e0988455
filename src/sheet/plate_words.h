// The words on a piece: what they are, how big, and where there is room for them.
#ifndef REBATO_SHEET_PLATE_WORDS_H
#define REBATO_SHEET_PLATE_WORDS_H

#include "sheet/plate.h"

void plate_write_label(Plate *plate);
void plate_draw_label(const Plate *plate, Canvas *canvas);

#endif
