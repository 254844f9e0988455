// A canvas painted by cairo: pages of a PDF, or one PNG picture.
#ifndef REBATO_SHEET_PAINT_H
#define REBATO_SHEET_PAINT_H

#include <cairo.h>

#include "base/buffer.h"
#include "sheet/canvas.h"

typedef struct PaintCanvas {
    Canvas canvas; // first: a Canvas pointer is a pointer to the whole
    cairo_surface_t *surface;
    cairo_t *cr;
    bool pdf;
    bool clipped;
    double width, height; // of the page in mm
    int pages;
    cairo_font_face_t *faces[2];
    struct {
        cairo_glyph_t *items;
        int count, capacity;
    } glyphs;
    struct {
        cairo_text_cluster_t *items;
        int count, capacity;
    } clusters;
} PaintCanvas;

// A PDF into out, with a fixed date, so that the same pages are the same bytes. Pages are begun one after the
// other; label (may be NULL) is the name the reader shows for the page.
void paint_pdf_begin(PaintCanvas *paint, const char *title, const char *subject, Buffer *out);
void paint_pdf_page(PaintCanvas *paint, double width, double height, const char *label);
bool paint_pdf_end(PaintCanvas *paint); // false when cairo failed

// A picture with a white ground. width and height in mm.
void paint_png_begin(PaintCanvas *paint, double width, double height, double dots_per_mm);
bool paint_png_end(PaintCanvas *paint, Buffer *out);

#endif
