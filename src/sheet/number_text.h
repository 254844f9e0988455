// Numbers in drawings: plain decimals as SVG wants them, never an exponent, no zeros at the end, the same on
// every machine; and scales as they are said.
#ifndef REBATO_SHEET_NUMBER_TEXT_H
#define REBATO_SHEET_NUMBER_TEXT_H

#include "base/buffer.h"

// To `decimals` places, 0 to 6; half away from zero. value within a thousand million.
void number_text_add(Buffer *out, double value, int decimals);

// "1:4", "2:1"
void scale_text(double scale, char *out, size_t size);

#endif
