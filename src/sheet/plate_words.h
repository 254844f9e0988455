// The words on a piece: what they are, how big, and how they are drawn.
#ifndef REBATO_SHEET_PLATE_WORDS_H
#define REBATO_SHEET_PLATE_WORDS_H

#include "sheet/plate.h"

typedef enum ShortLabel {
    SHORT_CUT,        // the name and how often it is cut of what
    SHORT_CUT_BROKEN, // the name in two lines, and how often it is cut
    SHORT_CUT_NARROW, // the name in three, and how often it is cut
    SHORT_NAME,       // the name alone
    SHORT_BROKEN,     // the name, a line for each word or two
    SHORT_COUNT
} ShortLabel;

// For drawings under full size, where the lines of the pattern's label are too many.
void plate_write_short_label(Plate *plate, ShortLabel form);

// For narrow pieces: the line with the name, and all others joined into rows of `each`.
void plate_join_label(Plate *plate, int each);

// Sets the block's width and height to what the words need, mm of paper at full size.
void plate_measure_label(Plate *plate);

void plate_draw_label(const Plate *plate, Canvas *canvas);

#endif
