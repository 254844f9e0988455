// A canvas painted by cairo: one PNG picture.
#ifndef REBATO_SHEET_PAINT_H
#define REBATO_SHEET_PAINT_H

#include "base/buffer.h"
#include "sheet/canvas.h"

typedef struct PaintCanvas PaintCanvas;

// A picture with a white ground, width by height mm. NULL when there is no cairo or no memory for it.
PaintCanvas *paint_new(double width, double height, double dots_per_mm);
Canvas *paint_canvas(PaintCanvas *paint);

// The PNG behind what out holds, and the end of the canvas. False when cairo failed.
bool paint_finish(PaintCanvas *paint, Buffer *out);

#endif
