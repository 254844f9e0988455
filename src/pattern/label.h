// What is written on a piece, where it fits, and the grain line beside it. Drawing and proof ask here, so
// they agree.
#ifndef REBATO_PATTERN_LABEL_H
#define REBATO_PATTERN_LABEL_H

#include <stdbool.h>

#include "pattern/pattern.h"

#define LABEL_LINES_MAX 7
#define LABEL_TEXT_MAX 512     // bytes of one line, the NUL included
#define LABEL_LINE_MM 5.0      // from line to line at full size
#define LABEL_CHARACTER_MM 2.2 // mean width of a character at full size
#define LABEL_SMALLEST 0.6     // of full size: smaller cannot be read on the table

typedef struct Label {
    char lines[LABEL_LINES_MAX][LABEL_TEXT_MAX];
    int count;
} Label;

// Title, piece and its number, cutting count and cloth, whose measurements, allowance, grain, note: the lines
// of a piece.
void pattern_label_lines(const Pattern *pattern, int piece, Label *out);

// Where a label stands: the block's centre, its size at scale 1, the scale, and whether it reads upwards
// (turned 90 degrees counter-clockwise).
typedef struct LabelPlace {
    Point centre;
    double width, height, scale;
    bool turned;
} LabelPlace;

// Finds the largest size at which the label fits inside the outline, upright before turned: 1.5 mm clear of
// the seam line, dots, inner lines and the bracket of a fold, 3 mm clear of the grain line. Where the piece
// is too narrow for the lines one by one, joins them into fewer, longer ones (label changes). Only where no
// size and no joining is clear of the grain line, it stands over that; and a very small piece keeps to its
// name and the cutting count, in lines of a word or two where it is narrow. False where nothing fits; place then holds the smallest upright size at the
// middle of the piece. The writing reads within 90 degrees of upright, never upside down.
bool pattern_label_place(const Pattern *pattern, int piece, Label *label, LabelPlace *place);

#endif
