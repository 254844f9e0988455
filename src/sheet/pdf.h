// A canvas that writes PDF pages (ISO 32000-1): true size, real text in the built-in font, and a catalog that
// asks the print dialog not to scale. The same drawing is the same bytes.
#ifndef REBATO_SHEET_PDF_H
#define REBATO_SHEET_PDF_H

#include "base/buffer.h"
#include "sheet/canvas.h"
#include "sheet/subset.h"

typedef struct PdfPage {
    double width, height; // mm
    char label[24];       // the name the reader shows
    Buffer content;
} PdfPage;

typedef struct PdfCanvas {
    Canvas canvas; // first: a Canvas pointer is a pointer to the whole
    struct {
        PdfPage *items;
        int count, capacity;
    } pages;
    Subset fonts[2]; // regular, bold
    // What the content of the page has set so far; -1 for nothing.
    int line, stroke_colour_of, fill_shade, fill_text;
    bool clipped;
} PdfCanvas;

void pdf_begin(PdfCanvas *pdf);

// Begins a page of that size in mm. label may be NULL.
void pdf_page(PdfCanvas *pdf, double width, double height, const char *label);

// Writes the whole document behind what out holds, and ends the canvas.
void pdf_end(PdfCanvas *pdf, const char *title, const char *subject, Buffer *out);

#endif
