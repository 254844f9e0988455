// Names of places in the booklet, made from headings as common Markdown readers make them.
#ifndef REBATO_BOOKLET_ANCHOR_H
#define REBATO_BOOKLET_ANCHOR_H

#include <stdbool.h>

#define ANCHOR_MAX 72

// "Draw the neck edge" becomes "draw-the-neck-edge": letters a to z, digits and hyphens; what else there is
// is left out, so that it may be empty.
void anchor_of(const char *text, char out[ANCHOR_MAX]);

// Whether the booklet has a place of that name of its own: "cloth", "seam-3", "then-12".
bool anchor_is_own(const char *anchor);

#endif
