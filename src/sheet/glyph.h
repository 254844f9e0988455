// Letters as outlines, for pictures made of dots.
#ifndef REBATO_SHEET_GLYPH_H
#define REBATO_SHEET_GLYPH_H

#include "sheet/canvas.h"

// Adds the outlines of a text to pen, in millimetres of paper, at the place and turn of the run.
void glyph_add_text(const TextRun *run, Pen *pen);

#endif
