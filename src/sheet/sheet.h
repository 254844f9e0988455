// Everything drawn: a pattern becomes PDF, SVG or PNG. The same pattern and options give the same bytes.
#ifndef REBATO_SHEET_SHEET_H
#define REBATO_SHEET_SHEET_H

#include "base/buffer.h"
#include "base/fault.h"
#include "pattern/pattern.h"

typedef enum SheetFormat { SHEET_PDF, SHEET_SVG, SHEET_PNG } SheetFormat;
typedef enum SheetShow { SHOW_PIECES, SHOW_DRAFT, SHOW_BOTH } SheetShow;

typedef struct SheetOptions {
    SheetFormat format;
    SheetShow show;       // BOTH adds the drafts; under pieces of full size they are small
    bool whole;           // PDF: one page, as large as the pieces need, up to 5 m; SVG and PNG always are
    double width, height; // paper in mm, portrait; ignored when whole
    double scale;         // 1 for full size, 0.25 for 1:4
    Units units;
    double dots_per_mm; // PNG; 0 for a sensible picture
} SheetOptions;

// "a4", "a3", "letter", "WIDTHxHEIGHT" ("60cm x 90cm", "24x36in") or "whole". Fills fault otherwise.
bool sheet_paper(const char *text, SheetOptions *options, Fault *fault);

// pages (may be NULL) gets the number of pages. On failure fills fault; out untouched.
bool sheet_draw(const Pattern *pattern, const SheetOptions *options, Buffer *out, int *pages, Fault *fault);

#endif
