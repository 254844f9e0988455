// Numbers as PDF and SVG want them: plain decimals, never an exponent, no zeros at the end, the same on every
// machine.
#ifndef REBATO_SHEET_NUMBER_TEXT_H
#define REBATO_SHEET_NUMBER_TEXT_H

#include "base/buffer.h"

// To `decimals` places, 0 to 6; half away from zero. value within a thousand million.
void number_text_add(Buffer *out, double value, int decimals);

#endif
