#include "sheet/paint.h"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "sheet/font.h"
#include "sheet/shaping.h"

#define POINTS_PER_MM (72.0 / 25.4)

static void trace_pen(cairo_t *cr, const Pen *pen) {
    cairo_new_path(cr);
    for (int i = 0; i < pen->count; i++) {
        const PenStep *step = &pen->items[i];
        switch (step->move) {
        case PEN_MOVE:
            cairo_move_to(cr, step->to.x, step->to.y);
            break;
        case PEN_LINE:
            cairo_line_to(cr, step->to.x, step->to.y);
            break;
        case PEN_CURVE:
            cairo_curve_to(cr, step->from_handle.x, step->from_handle.y, step->to_handle.x, step->to_handle.y,
                           step->to.x, step->to.y);
            break;
        case PEN_CLOSE:
            cairo_close_path(cr);
            break;
        }
    }
}

static void paint_stroke(Canvas *canvas, const Pen *pen, LineKind kind) {
    cairo_t *cr = ((PaintCanvas *)canvas)->cr;
    const LineStyle *style = line_style(kind);
    int dashes = 0;
    while (dashes < DASH_PARTS_MAX && style->dash[dashes] > 0)
        dashes++;
    trace_pen(cr, pen);
    cairo_set_source_rgb(cr, style->colour.red, style->colour.green, style->colour.blue);
    cairo_set_line_width(cr, style->width);
    cairo_set_dash(cr, style->dash, dashes, 0);
    cairo_set_line_cap(cr, style->round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(cr, style->round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
    cairo_stroke(cr);
}

static void paint_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    cairo_t *cr = ((PaintCanvas *)canvas)->cr;
    Colour colour = shade_colour(shade);
    trace_pen(cr, pen);
    cairo_set_source_rgb(cr, colour.red, colour.green, colour.blue);
    cairo_fill(cr);
}

static cairo_font_face_t *paint_face(PaintCanvas *paint, bool bold) {
    if (paint->faces[bold] == NULL)
        paint->faces[bold] = cairo_ft_font_face_create_for_ft_face(font_face(bold), FT_LOAD_NO_HINTING);
    return paint->faces[bold];
}

static void show_glyphs(PaintCanvas *paint, const TextRun *run, double x, double y) {
    bool bold = text_style(run->kind)->bold;
    paint->glyphs.count = paint->clusters.count = 0;
    for (const char *at = run->text; *at != '\0';) {
        const char *from = at;
        uint32_t code = text_next(&at);
        const char *ahead = at;
        uint32_t next = *ahead != '\0' ? text_next(&ahead) : 0;
        cairo_glyph_t glyph = {.index = font_glyph(bold, code), .x = x, .y = y};
        ARRAY_ADD(&paint->glyphs, glyph);
        ARRAY_ADD(&paint->clusters, ((cairo_text_cluster_t){.num_bytes = (int)(at - from), .num_glyphs = 1}));
        x += run->size * (glyph.index != 0 ? font_advance(bold, code, next) : 0.5);
    }
    cairo_set_font_face(paint->cr, paint_face(paint, bold));
    cairo_set_font_size(paint->cr, run->size);
    if (text_is_utf8(run->text, strlen(run->text)))
        cairo_show_text_glyphs(paint->cr, run->text, (int)strlen(run->text), paint->glyphs.items,
                               paint->glyphs.count, paint->clusters.items, paint->clusters.count, 0);
    else
        cairo_show_glyphs(paint->cr, paint->glyphs.items, paint->glyphs.count);
}

static void paint_text(Canvas *canvas, const TextRun *run) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    cairo_t *cr = paint->cr;
    const TextStyle *style = text_style(run->kind);
    cairo_set_source_rgb(cr, style->colour.red, style->colour.green, style->colour.blue);
    double back = run->align == ALIGN_LEFT ? 0 : run->align == ALIGN_MIDDLE ? run->width / 2 : run->width;
    bool covered = font_covers(run->text);
    if (covered && run->degrees == 0) {
        show_glyphs(paint, run, run->at.x - back, run->at.y);
        return;
    }
    cairo_save(cr);
    cairo_translate(cr, run->at.x, run->at.y);
    cairo_rotate(cr, -RADIANS(run->degrees));
    if (covered || !shaping_show(cr, run->text, run->size, style->bold, run->align))
        show_glyphs(paint, run, -back, 0);
    cairo_restore(cr);
}

static void paint_group(Canvas *canvas, const char *kind, const char *name) {
    (void)canvas; // a page has no named groups
    (void)kind;
    (void)name;
}

static void paint_clip(Canvas *canvas, Box box) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    if (paint->clipped)
        cairo_restore(paint->cr);
    paint->clipped = !box_is_empty(box);
    if (!paint->clipped)
        return;
    cairo_save(paint->cr);
    cairo_rectangle(paint->cr, box.least.x, box.least.y, box.most.x - box.least.x, box.most.y - box.least.y);
    cairo_clip(paint->cr);
}

static const CanvasBackend backend = {paint_stroke, paint_fill, paint_text, paint_group, paint_clip};

static cairo_status_t write_bytes(void *out, const unsigned char *bytes, unsigned int length) {
    buffer_add(out, bytes, length);
    return CAIRO_STATUS_SUCCESS;
}

// Lengths in a drawing never depend on the screen: glyphs keep their true widths.
static void set_font_options(cairo_t *cr) {
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(cr, options);
    cairo_font_options_destroy(options);
}

void paint_pdf_begin(PaintCanvas *paint, const char *title, const char *subject, Buffer *out) {
    *paint = (PaintCanvas){.pdf = true};
    paint->surface = cairo_pdf_surface_create_for_stream(write_bytes, out, 100, 100);
    cairo_pdf_surface_restrict_to_version(paint->surface, CAIRO_PDF_VERSION_1_5);
    cairo_pdf_surface_set_metadata(paint->surface, CAIRO_PDF_METADATA_TITLE, title);
    cairo_pdf_surface_set_metadata(paint->surface, CAIRO_PDF_METADATA_SUBJECT, subject);
    cairo_pdf_surface_set_metadata(paint->surface, CAIRO_PDF_METADATA_CREATOR, "rebato");
    cairo_pdf_surface_set_metadata(paint->surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
    paint->cr = cairo_create(paint->surface);
    cairo_scale(paint->cr, POINTS_PER_MM, POINTS_PER_MM);
    cairo_set_tolerance(paint->cr, 0.01);
    set_font_options(paint->cr);
    canvas_init(&paint->canvas, &backend, 0, 0);
}

void paint_pdf_page(PaintCanvas *paint, double width, double height, const char *label) {
    if (paint->clipped)
        canvas_unclip(&paint->canvas);
    if (paint->pages > 0)
        cairo_show_page(paint->cr);
    paint->pages++;
    cairo_pdf_surface_set_size(paint->surface, width * POINTS_PER_MM, height * POINTS_PER_MM);
    if (label != NULL)
        cairo_pdf_surface_set_page_label(paint->surface, label);
    paint->width = width;
    paint->height = height;
    paint->canvas.window = (Box){{0, 0}, {width, height}};
    canvas_paper(&paint->canvas);
}

static bool paint_end(PaintCanvas *paint) {
    bool good = cairo_status(paint->cr) == CAIRO_STATUS_SUCCESS &&
                cairo_surface_status(paint->surface) == CAIRO_STATUS_SUCCESS;
    cairo_destroy(paint->cr);
    cairo_surface_destroy(paint->surface);
    for (int i = 0; i < 2; i++)
        if (paint->faces[i] != NULL)
            cairo_font_face_destroy(paint->faces[i]);
    mem_free(paint->glyphs.items);
    mem_free(paint->clusters.items);
    canvas_finish(&paint->canvas);
    // The faces stay open: cairo's caches of scaled fonts may still know them until the program ends.
    return good;
}

bool paint_pdf_end(PaintCanvas *paint) {
    cairo_surface_finish(paint->surface);
    return paint_end(paint);
}

void paint_png_begin(PaintCanvas *paint, double width, double height, double dots_per_mm) {
    *paint = (PaintCanvas){.width = width, .height = height, .pages = 1};
    int across = (int)ceil(width * dots_per_mm), down = (int)ceil(height * dots_per_mm);
    paint->surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, across, down);
    paint->cr = cairo_create(paint->surface);
    cairo_set_source_rgb(paint->cr, 1, 1, 1);
    cairo_paint(paint->cr);
    cairo_scale(paint->cr, dots_per_mm, dots_per_mm);
    set_font_options(paint->cr);
    canvas_init(&paint->canvas, &backend, width, height);
}

bool paint_png_end(PaintCanvas *paint, Buffer *out) {
    cairo_surface_flush(paint->surface);
    bool good = cairo_surface_write_to_png_stream(paint->surface, write_bytes, out) == CAIRO_STATUS_SUCCESS;
    return paint_end(paint) && good;
}
