// Hand-made patterns for the tests of the sheet: simple enough to know every number of them.
#ifndef REBATO_TESTS_SHEET_EXAMPLE_H
#define REBATO_TESTS_SHEET_EXAMPLE_H

#include "pattern/pattern.h"
#include "sheet/sheet.h"

// A funnel of four pieces with a draft, seams of every kind, notches, dots, folds and a bias grain.
// Everything proven.
void example_funnel(Pattern *pattern);

// The same with two proofs that fail, one on an edge of the first piece.
void example_unproven(Pattern *pattern);

// Eight pieces, some larger than a page.
void example_large(Pattern *pattern);

// One piece, a square of that side (mm) without allowance.
void example_square(Pattern *pattern, double side, const char *name);

// One piece, length by height without allowance, its grain along it.
void example_band(Pattern *pattern, double length, double height, const char *name);

// No piece; one draft 20 mm wide with eight named points and eight named lines.
void example_crowded(Pattern *pattern);

SheetOptions example_options(SheetFormat format);

#endif
