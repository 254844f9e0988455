// A canvas painted by cairo: the pages of a PDF, or one PNG picture. The same drawing is the same bytes.
#ifndef REBATO_SHEET_PAINT_H
#define REBATO_SHEET_PAINT_H

#include "base/buffer.h"
#include "sheet/canvas.h"

typedef struct PaintCanvas PaintCanvas;

// A PDF at true size, text as real text, with a catalog that asks the print dialog not to scale. It has no
// page yet.
PaintCanvas *paint_pdf_new(const char *title, const char *subject);

// The PDF is one to read, in the language of that tag, and may be scaled; texts say what its figures show, in
// their order. Both are borrowed until paint_finish.
void paint_for_reading(PaintCanvas *paint, const char *language);
void paint_figure_texts(PaintCanvas *paint, const char *const *texts, int count);

// Begins the next page, width by height mm; label (may be NULL) is the name the reader shows for it.
void paint_page(PaintCanvas *paint, double width, double height, const char *label);
int paint_page_count(const PaintCanvas *paint);

// A picture with a white ground, width by height mm.
PaintCanvas *paint_png_new(double width, double height, double dots_per_mm);

Canvas *paint_canvas(PaintCanvas *paint);

// The file behind what out holds, and the end of the canvas. False when cairo failed; out untouched.
bool paint_finish(PaintCanvas *paint, Buffer *out);

#endif
