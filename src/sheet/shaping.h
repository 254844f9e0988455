// Text the built-in font cannot show, or that must be joined or reordered to be read: drawn by pango with the
// fonts of the machine.
#ifndef REBATO_SHEET_SHAPING_H
#define REBATO_SHEET_SHAPING_H

#include <cairo.h>

#include "sheet/canvas.h"

// Draws the run on the base line through the origin of cr in its current colour. False when there is no pango
// here; then nothing was drawn.
bool shaping_show(cairo_t *cr, const TextRun *run);

#endif
