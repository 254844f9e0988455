// The words on a piece: what they are, how big, and where there is room for them.
#ifndef REBATO_SHEET_PLATE_WORDS_H
#define REBATO_SHEET_PLATE_WORDS_H

#include "sheet/plate.h"

void plate_write_label(Plate *plate);
void plate_measure_label(const Plate *plate, double *width, double *height); // mm of paper, at full size

// For narrow pieces: the name, and all other lines as two.
void plate_widen_label(Plate *plate);
// For small drawings: the name, and how often it is cut.
void plate_shorten_label(Plate *plate);
void plate_cut_label(Plate *plate, int count); // only the first count lines stay

void plate_draw_label(const Plate *plate, Canvas *canvas);

#endif
