// How every kind of line and text looks: one table, so that a cut line is a cut line on every page and in
// every format. Each kind of line can be told from the others in black and white: by its dash, its weight or
// its end marks.
#ifndef REBATO_SHEET_STYLE_H
#define REBATO_SHEET_STYLE_H

#include <stdbool.h>

typedef enum LineKind {
    LINE_CUT,
    LINE_STITCH,    // the seam line
    LINE_FOLD_EDGE, // placed on the fold of the cloth
    LINE_FOLD,      // an inner fold
    LINE_ROLL,
    LINE_CENTRE,
    LINE_MATCH,
    LINE_INNER,
    LINE_GRAIN,
    LINE_NOTCH,
    LINE_DOT,
    LINE_BRACKET,      // of a fold edge
    LINE_CONSTRUCTION, // marks of earlier chapters
    LINE_DRAFT,        // marks of the last chapter
    LINE_DRAFT_EDGE,   // those that became edges of pieces
    LINE_OLD_POINT,    // of earlier chapters: round dots, lines of no length
    LINE_POINT,
    LINE_DIMENSION,
    LINE_FLAG, // what is not proven
    LINE_FRAME,
    LINE_JOIN,
    LINE_SQUARE, // the test squares
    LINE_RULE,   // between parts of a page
    LINE_KIND_COUNT
} LineKind;

typedef struct Colour {
    double red, green, blue; // 0 to 1
} Colour;

#define DASH_PARTS_MAX 6

typedef struct LineStyle {
    const char *name;            // in SVG
    const char *words;           // in the legend; NULL where it needs none
    double width;                // mm
    double dash[DASH_PARTS_MAX]; // mm: line, gap, ...; ends at the first 0
    Colour colour;
    bool round; // caps and joins
} LineStyle;

const LineStyle *line_style(LineKind kind);

typedef enum TextKind {
    TEXT_TITLE,
    TEXT_HEAD,
    TEXT_BODY,
    TEXT_SMALL,
    TEXT_PALE, // small, grey
    TEXT_PIECE,
    TEXT_MARK,
    TEXT_LINE_NAME,
    TEXT_OLD_MARK, // of earlier chapters
    TEXT_DIMENSION,
    TEXT_PAGE, // the name of a page
    TEXT_FLAG, // white on a flag
    TEXT_LOUD,
    TEXT_KIND_COUNT
} TextKind;

typedef struct TextStyle {
    const char *name;
    double size; // mm, of the em
    bool bold;
    Colour colour;
} TextStyle;

const TextStyle *text_style(TextKind kind);

typedef enum Shade {
    SHADE_INK,
    SHADE_PAPER,
    SHADE_SELF,
    SHADE_LINING,
    SHADE_INTERFACING,
    SHADE_FLAG,
    SHADE_COUNT
} Shade;

Colour shade_colour(Shade shade);
const char *shade_name(Shade shade);
Shade cloth_shade(const char *cloth);

#endif
