// A canvas that writes SVG: millimetres, one named group for each piece and each kind of line in it, real
// text.
#ifndef REBATO_SHEET_SVG_H
#define REBATO_SHEET_SVG_H

#include "base/buffer.h"
#include "sheet/canvas.h"

typedef struct SvgCanvas {
    Canvas canvas; // first: a Canvas pointer is a pointer to the whole
    Buffer *out;
    Buffer lines[LINE_KIND_COUNT]; // of the group that is open, gathered by kind
    Buffer over;                   // words and flags, which lie over the lines
    LineKind line;                 // drawn last in the group; LINE_KIND_COUNT for none
    Buffer group;                  // id of the group that is open, empty outside
    const char *prefix;            // of all ids, where the document stands inside another; else NULL
    struct {
        char **items;
        int count, capacity;
    } ids; // all ids given so far
} SvgCanvas;

// Starts a document of that size in mm. Text and desc are plain text.
void svg_begin(SvgCanvas *svg, double width, double height, const char *title, const char *desc, Buffer *out);
// The same to stand inside a page of HTML: ids start with prefix (borrowed), ink is currentColor with other
// colours as weaker ink, cloth is a tint of it, and texts are in the page's font but keep their measured
// widths.
void svg_begin_inside(SvgCanvas *svg, double width, double height, const char *prefix, const char *title,
                      Buffer *out);
void svg_end(SvgCanvas *svg);

// Escapes & < > " and drops what XML 1.0 does not allow.
void svg_add_escaped(Buffer *out, const char *text);

#endif
