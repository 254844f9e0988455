#include "sheet/paint.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "sheet/font.h"
#include "sheet/glyph.h"
#include "sheet/late.h"
#include "sheet/shaping.h"

struct PaintCanvas {
    Canvas canvas; // first: a Canvas pointer is a pointer to the whole
    const LateCairo *cairo;
    cairo_surface_t *surface;
    cairo_t *cr;
    bool clipped;
};

static void trace_pen(const PaintCanvas *paint, const Pen *pen) {
    const LateCairo *cairo = paint->cairo;
    cairo_t *cr = paint->cr;
    cairo->cairo_new_path(cr);
    for (int i = 0; i < pen->count; i++) {
        const PenStep *step = &pen->items[i];
        switch (step->move) {
        case PEN_MOVE:
            cairo->cairo_move_to(cr, step->to.x, step->to.y);
            break;
        case PEN_LINE:
            cairo->cairo_line_to(cr, step->to.x, step->to.y);
            break;
        case PEN_CURVE:
            cairo->cairo_curve_to(cr, step->from_handle.x, step->from_handle.y, step->to_handle.x,
                                  step->to_handle.y, step->to.x, step->to.y);
            break;
        case PEN_CLOSE:
            cairo->cairo_close_path(cr);
            break;
        }
    }
}

static void set_colour(const PaintCanvas *paint, Colour colour) {
    paint->cairo->cairo_set_source_rgb(paint->cr, colour.red, colour.green, colour.blue);
}

static void paint_stroke(Canvas *canvas, const Pen *pen, LineKind kind) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    const LateCairo *cairo = paint->cairo;
    const LineStyle *style = line_style(kind);
    int dashes = 0;
    while (dashes < DASH_PARTS_MAX && style->dash[dashes] > 0)
        dashes++;
    trace_pen(paint, pen);
    set_colour(paint, style->colour);
    cairo->cairo_set_line_width(paint->cr, style->width);
    cairo->cairo_set_dash(paint->cr, style->dash, dashes, 0);
    cairo->cairo_set_line_cap(paint->cr, style->round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo->cairo_set_line_join(paint->cr, style->round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
    cairo->cairo_stroke(paint->cr);
}

static void paint_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    trace_pen(paint, pen);
    set_colour(paint, shade_colour(shade));
    paint->cairo->cairo_fill(paint->cr);
}

static void paint_text(Canvas *canvas, const TextRun *run) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    Pen pen = {.items = NULL};
    if (font_covers(run->text) || !shaping_outline(run, &pen))
        glyph_add_text(run, &pen);
    trace_pen(paint, &pen);
    set_colour(paint, text_style(run->kind)->colour);
    paint->cairo->cairo_fill(paint->cr);
    mem_free(pen.items);
}

static void paint_group(Canvas *canvas, const char *kind, const char *name) {
    (void)canvas; // a picture has no named groups
    (void)kind;
    (void)name;
}

static void paint_clip(Canvas *canvas, Box box) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    const LateCairo *cairo = paint->cairo;
    if (paint->clipped)
        cairo->cairo_restore(paint->cr);
    paint->clipped = !box_is_empty(box);
    if (!paint->clipped)
        return;
    cairo->cairo_save(paint->cr);
    cairo->cairo_rectangle(paint->cr, box.least.x, box.least.y, box.most.x - box.least.x,
                           box.most.y - box.least.y);
    cairo->cairo_clip(paint->cr);
}

static const CanvasBackend backend = {paint_stroke, paint_fill, paint_text, paint_group, paint_clip};

static cairo_status_t write_bytes(void *out, const unsigned char *bytes, unsigned int length) {
    buffer_add(out, bytes, length);
    return CAIRO_STATUS_SUCCESS;
}

PaintCanvas *paint_new(double width, double height, double dots_per_mm) {
    const LateCairo *cairo = late_cairo();
    if (cairo == NULL)
        return NULL;
    PaintCanvas *paint = mem_new(sizeof *paint);
    paint->cairo = cairo;
    canvas_init(&paint->canvas, &backend, width, height);
    int across = (int)ceil(width * dots_per_mm), down = (int)ceil(height * dots_per_mm);
    paint->surface = cairo->cairo_image_surface_create(CAIRO_FORMAT_RGB24, across, down);
    paint->cr = cairo->cairo_create(paint->surface);
    cairo->cairo_set_source_rgb(paint->cr, 1, 1, 1);
    cairo->cairo_paint(paint->cr);
    cairo->cairo_scale(paint->cr, dots_per_mm, dots_per_mm);
    return paint;
}

Canvas *paint_canvas(PaintCanvas *paint) {
    return &paint->canvas;
}

bool paint_finish(PaintCanvas *paint, Buffer *out) {
    const LateCairo *cairo = paint->cairo;
    cairo->cairo_surface_flush(paint->surface);
    bool good =
        cairo->cairo_status(paint->cr) == CAIRO_STATUS_SUCCESS &&
        cairo->cairo_surface_write_to_png_stream(paint->surface, write_bytes, out) == CAIRO_STATUS_SUCCESS;
    cairo->cairo_destroy(paint->cr);
    cairo->cairo_surface_destroy(paint->surface);
    canvas_finish(&paint->canvas);
    mem_free(paint);
    return good;
}
