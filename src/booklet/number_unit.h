// Where in a text a number stands with its unit, which no line end parts.
#ifndef REBATO_BOOKLET_NUMBER_UNIT_H
#define REBATO_BOOKLET_NUMBER_UNIT_H

#include <stdbool.h>
#include <stddef.h>

// The first number with a unit behind a blank, "16.5 cm" or "7 5/16 in", that begins at the byte `from` or
// later: its bytes from *first up to *end. False where there is none.
bool number_unit_find(const char *text, size_t from, size_t *first, size_t *end);

#endif
