// Running text broken into lines of a width.
#ifndef REBATO_SHEET_PARAGRAPH_H
#define REBATO_SHEET_PARAGRAPH_H

#include "base/buffer.h"
#include "sheet/canvas.h"

// Takes the next line that fits width (mm) from *text, which moves past it; one word longer than the width is
// broken. False at the end.
bool paragraph_next(const char **text, TextKind kind, double width, Buffer *line);

// How far the next base line is below the last, mm.
double paragraph_step(TextKind kind);

#endif
