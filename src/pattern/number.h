// Numbers and texts in the words of the pattern text: the same value is always the same bytes.
#ifndef REBATO_PATTERN_NUMBER_H
#define REBATO_PATTERN_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buffer.h"
#include "geometry/point.h"

#define NUMBER_LIMIT 1e300 // what is larger, or not a number, is written as this, or as 0

// To four decimals, zeros at the end left out, never "-0": coordinates and widths in mm. Larger than 1e9
// counts as 1e9.
void number_add_fixed(Buffer *out, double value);

// To ten figures: values that may be of any size. What is smaller than 1e-9 is rounding, and written as 0.
void number_add(Buffer *out, double value);

// The value that reading what number_add_fixed wrote gives.
double number_fixed(double value);
Point number_fixed_point(Point p);

// Reads a number that fills the token at .. end; false where it is anything else, or not finite.
bool number_read(const char *at, const char *end, double *out);

#endif
