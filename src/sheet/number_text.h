// Numbers in drawings: plain decimals as SVG wants them, never an exponent, no zeros at the end, the same on
// every machine; and scales as they are said.
#ifndef REBATO_SHEET_NUMBER_TEXT_H
#define REBATO_SHEET_NUMBER_TEXT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buffer.h"

// To `decimals` places, 0 to 6; half away from zero. value within a thousand million.
void number_text_add(Buffer *out, double value, int decimals);

// How numbers and inches are written where that is not as in English. A zeroed one is English.
typedef struct NumberMarks {
    bool comma;                     // decimals behind a comma
    const char *inch, *square_inch; // "\u2033", or a word, behind a space; NULL for "in" and "in\u00B2"
} NumberMarks;

// "1:4", "1:2.5", "2:1"
void scale_text(double scale, NumberMarks marks, char *out, size_t size);

// A number with its unit, "14.0 cm" or "7 5/16 in", with those marks; any other text as it is. out may be
// text.
void number_text_mark(const char *text, NumberMarks marks, char *out, size_t size);

// The measures within a sentence, each of them so marked; other numbers stay. A whole number before "in" and
// another word stays as well: "2 in the seam" is no measure.
void number_text_mark_within(const char *text, NumberMarks marks, Buffer *out);

#endif
