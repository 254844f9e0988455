// Running text on the pages of a PDF: paragraphs of styled spans measured and drawn line by line, with links,
// an outline, a title, a language, and the order of reading told. Millimetres from the upper left corner, y
// down. The same text is the same bytes.
#ifndef REBATO_SHEET_TYPESET_H
#define REBATO_SHEET_TYPESET_H

#include <stdbool.h>

#include "base/buffer.h"
#include "sheet/canvas.h"

typedef enum TypeLook {
    TYPE_TITLE,
    TYPE_PART,
    TYPE_STEP,
    TYPE_SUB,
    TYPE_BODY,
    TYPE_SMALL,
    TYPE_CAPTION,
    TYPE_CODE,
    TYPE_CODE_FINE, // for lines that would be broken
    TYPE_PALE,      // heads and feet of pages
    TYPE_LOOK_COUNT
} TypeLook;

typedef enum TypeStyle {
    TYPE_EMPHASIS = 1,
    TYPE_STRONG = 2,
    TYPE_MONO = 4,
    TYPE_VALUE = 8,     // a number to work with: strong
    TYPE_TOGETHER = 16, // on one line
} TypeStyle;

typedef struct TypeSpan {
    unsigned style;   // of TypeStyle
    const char *text; // UTF-8; "\n" is a line end
    const char *link; // "#name" of a place, or an address; NULL for none
} TypeSpan;

typedef struct Typeset Typeset;

typedef struct TypesetOptions {
    const char *title, *subject; // subject may be NULL
    const char *language;        // tag of the document
    double width, height;        // of a page, mm
    bool own_fonts; // no text needs a font but the program's own: the machine's are not looked at
} TypesetOptions;

// Whether the program's own fonts have all letters of a text.
bool typeset_knows(const char *text);

// NULL where the machine has no pango.
Typeset *typeset_new(const TypesetOptions *options);
bool typeset_finish(Typeset *set, Buffer *out); // as paint_finish

// A paragraph broken into lines. What it is made of is copied.
typedef struct TypeAsk {
    TypeLook look;
    double width;         // mm
    const char *language; // of its words, for their breaking and their shapes; NULL for that of the document
    const TypeSpan *spans;
    int count;
    Align align;  // ALIGN_LEFT is the side where reading begins
    bool hyphens; // words may be broken
    bool quiet;   // links are not told by their colour
} TypeAsk;
typedef struct TypeText TypeText;
TypeText *type_text_new(Typeset *set, const TypeAsk *ask);
void type_text_free(TypeText *text);

int type_text_lines(const TypeText *text);
double type_text_line_height(const TypeText *text, int line);
double type_text_height(const TypeText *text);
// Where the letters of a line lie: from and to, mm from the left side of the paragraph.
void type_text_extent(const TypeText *text, int line, double *from, double *to);
double type_text_baseline(const TypeText *text, int line); // below the top of the line
bool type_text_is_rtl(const TypeText *text);               // its first line is read from the right

// Pages, and what is on them. `role` is the kind of a part of the document for reading aloud, as PDF names it
// ("P", "H1", "Figure"); parts may stand in each other, and run on over pages.
void typeset_page(Typeset *set);
int typeset_page_count(const Typeset *set);
void typeset_begin(Typeset *set, const char *role);
void typeset_end(Typeset *set, const char *role);
void typeset_line(Typeset *set, const TypeText *text, int line, Point at); // its upper left corner
Canvas *typeset_canvas(Typeset *set);

// A picture of pixels: a whole PNG or JPEG file.
typedef struct TypeImage {
    const unsigned char *bytes;
    size_t length;
    bool jpeg;
    int width, height; // pixels
} TypeImage;
bool type_image_opens(const TypeImage *image); // a PNG as a whole; of a JPEG nothing is decoded
bool typeset_image(Typeset *set, const TypeImage *image, Box box); // false where it does not

// Named places: links to them must have one, each name once.
void typeset_place(Typeset *set, const char *name, Point at);
void typeset_link(Typeset *set, const char *link, Box box);                         // as of a span
int typeset_outline(Typeset *set, int parent, const char *title, const char *name); // parent -1: at the top

// What the figures show, in the order they were begun ("Figure"), for those who cannot see them.
void typeset_figure_text(Typeset *set, const char *text);

#endif
