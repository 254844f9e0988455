// Where words may be broken at the end of a line, by the patterns of the language that the machine has (those
// of the packages hyphen-en-us, hyphen-de ...): of its region if there are such, "de-AT", else of the usual
// one. No patterns, no breaks.
#ifndef REBATO_SHEET_HYPHENS_H
#define REBATO_SHEET_HYPHENS_H

#include <stddef.h>

// Finds the places in a text of length bytes, language a tag ("de", "en-GB"), and calls found with the index
// of the byte before which each break would be, in order.
void hyphens_find(const char *language, const char *text, size_t length,
                  void (*found)(void *context, size_t at), void *context);

#endif
