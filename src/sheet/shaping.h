// Text the built-in font cannot show, or that must be joined or reordered to be read: set by pango in the
// fonts of the machine, and drawn as outlines.
#ifndef REBATO_SHEET_SHAPING_H
#define REBATO_SHEET_SHAPING_H

#include "sheet/canvas.h"

// Adds the outlines of the run to pen, in millimetres of paper. False when there is no pango here; then
// nothing was added.
bool shaping_outline(const TextRun *run, Pen *pen);

#endif
