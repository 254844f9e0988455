// What drawing code draws on: lines of a kind, texts of a kind, groups. Millimetres of paper from its upper
// left corner, y down, behind a view that places a draft or a piece (y up) there. PDF and PNG pages and SVG
// are back ends of it.
#ifndef REBATO_SHEET_CANVAS_H
#define REBATO_SHEET_CANVAS_H

#include "geometry/path.h"
#include "sheet/style.h"

typedef enum PenMove { PEN_MOVE, PEN_LINE, PEN_CURVE, PEN_CLOSE } PenMove;

// One step of a line, in millimetres of paper; to is the place reached, handles are those of a curve.
typedef struct PenStep {
    PenMove move;
    Point from_handle, to_handle, to;
} PenStep;

typedef struct Pen {
    PenStep *items;
    int count, capacity;
} Pen;

typedef enum Align { ALIGN_LEFT, ALIGN_MIDDLE, ALIGN_RIGHT } Align;

// A text as a back end gets it: base line point in millimetres of paper, degrees counter-clockwise as seen.
typedef struct TextRun {
    TextKind kind;
    const char *text;
    Point at;
    double degrees;
    Align align;
    double size;  // of the em, mm
    double width; // mm, where the place depends on it: 0 when aligned to the left
} TextRun;

typedef struct Canvas Canvas;
typedef struct CanvasBackend {
    void (*stroke)(Canvas *canvas, const Pen *pen, LineKind kind);
    void (*fill)(Canvas *canvas, const Pen *pen, Shade shade);
    void (*text)(Canvas *canvas, const TextRun *run);
    void (*group)(Canvas *canvas, const char *kind, const char *name); // NULL, NULL ends it
    void (*clip)(Canvas *canvas, Box box);                             // an empty box ends it
} CanvasBackend;

struct Canvas {
    const CanvasBackend *backend;
    Affine view;
    double turn; // of the view, degrees counter-clockwise as seen
    Box window;  // what can be seen, mm of paper; what lies wholly outside is left out
    Pen pen;
};

// For back ends. width and height in mm of paper.
void canvas_init(Canvas *canvas, const CanvasBackend *backend, double width, double height);
void canvas_finish(Canvas *canvas);

// Later coordinates go through view, then stand on the paper. canvas_paper is the view that changes nothing.
void canvas_view(Canvas *canvas, Affine view);
void canvas_paper(Canvas *canvas);

// The view that lays a drawing with y up on the paper: at scale, turned by degrees, the point from landing on
// to.
Affine canvas_place(double scale, double degrees, Point from, Point to);

void canvas_group(Canvas *canvas, const char *kind, const char *name);
void canvas_group_end(Canvas *canvas);
void canvas_clip(Canvas *canvas, Box box); // mm of paper; one at a time
void canvas_unclip(Canvas *canvas);

// A line in the making, ended by canvas_stroke or canvas_fill.
void canvas_move(Canvas *canvas, Point to);
void canvas_line_to(Canvas *canvas, Point to);
void canvas_path(Canvas *canvas, const Path *path);
void canvas_close(Canvas *canvas);
void canvas_circle(Canvas *canvas, Point centre, double radius); // radius in mm of paper
void canvas_box(Canvas *canvas, Box box);
void canvas_stroke(Canvas *canvas, LineKind kind);
void canvas_fill(Canvas *canvas, Shade shade);
void canvas_fill_stroke(Canvas *canvas, Shade shade, LineKind kind);

// Whole lines.
void canvas_draw_line(Canvas *canvas, LineKind kind, Point from, Point to);
void canvas_draw_path(Canvas *canvas, LineKind kind, const Path *path);
void canvas_draw_arrow_head(Canvas *canvas, Shade shade, Point tip, Point away, double length); // solid

// degrees are those of the view's coordinates. The base line starts, has its middle or ends at `at`.
void canvas_text(Canvas *canvas, TextKind kind, Align align, Point at, double degrees, const char *text);
// As canvas_text at an em other than the kind's.
void canvas_text_sized(Canvas *canvas, TextKind kind, double size, Align align, Point at, double degrees,
                       const char *text);
double canvas_text_width(TextKind kind, const char *text); // mm of paper

#endif
