// What the files of typeset share. Inside this room only.
#ifndef REBATO_SHEET_TYPESETTING_H
#define REBATO_SHEET_TYPESETTING_H

#include <cairo.h>

#include "base/arena.h"
#include "sheet/paint.h"
#include "sheet/pango_ready.h"
#include "sheet/typeset.h"

struct Typeset {
    const PangoReady *pango;
    PangoContext *context;
    PaintCanvas *paint;
    TypesetOptions options;
    Arena arena;
    struct {
        const char **items;
        int count, capacity;
    } figures;
    struct {
        const char **items;
        int count, capacity;
    } places;
};

#define POINT_MM (25.4 / 72)

typedef struct TypeLine {
    double top, height, baseline; // points, of the paragraph
    double left, right;           // of its letters
} TypeLine;

struct TypeText {
    const Typeset *set;
    PangoLayout *layout;
    TypeLook look;
    TypeLine *lines;
    int count;
    struct TypeLink {
        int from, to; // bytes
        char *link;
    } * links;
    int link_count;
    bool rtl;
};

typedef struct TypeLookStyle {
    double size; // points, of the em
    bool bold;
    bool grey;
} TypeLookStyle;
const TypeLookStyle *type_look(TypeLook look);

// A font map with the program's own fonts, and those of the machine where they are needed too; kept until the
// program ends. NULL where it cannot be made.
PangoFontMap *typeset_fonts(const PangoReady *pango, bool own_only);

// A page's cairo for drawing beside the canvas: what was gathered is painted, what was set is forgotten.
// Units are points.
cairo_t *paint_open(PaintCanvas *paint);
cairo_surface_t *paint_surface(PaintCanvas *paint);

#endif
