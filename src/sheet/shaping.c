#include "sheet/shaping.h"

#include <math.h>
#include <stddef.h>

#include "base/memory.h"
#include "sheet/late.h"

// Text is laid out this many times larger than it is drawn, so that hinting and rounding to units of the
// screen do not show.
#define LARGER 64.0

static Point placed(const cairo_path_data_t *data, const TextRun *run, double back) {
    double x = data->point.x / LARGER - back, y = data->point.y / LARGER;
    double c = cos(RADIANS(run->degrees)), s = sin(RADIANS(run->degrees));
    return point(run->at.x + x * c + y * s, run->at.y - x * s + y * c);
}

static void add_path(const cairo_path_t *path, const TextRun *run, double back, Pen *pen) {
    for (int i = 0; i < path->num_data; i += path->data[i].header.length) {
        const cairo_path_data_t *data = &path->data[i];
        PenStep step = {.move = PEN_CLOSE};
        switch (data->header.type) {
        case CAIRO_PATH_MOVE_TO:
            step = (PenStep){.move = PEN_MOVE, .to = placed(&data[1], run, back)};
            break;
        case CAIRO_PATH_LINE_TO:
            step = (PenStep){.move = PEN_LINE, .to = placed(&data[1], run, back)};
            break;
        case CAIRO_PATH_CURVE_TO:
            step = (PenStep){.move = PEN_CURVE,
                             .from_handle = placed(&data[1], run, back),
                             .to_handle = placed(&data[2], run, back),
                             .to = placed(&data[3], run, back)};
            break;
        case CAIRO_PATH_CLOSE_PATH:
            break;
        }
        ARRAY_ADD(pen, step);
    }
}

bool shaping_outline(const TextRun *run, Pen *pen) {
    const LateCairo *cairo = late_cairo();
    const LatePango *pango = cairo != NULL ? late_pango() : NULL;
    if (pango == NULL)
        return false;
    cairo_surface_t *surface = cairo->cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    cairo_t *cr = cairo->cairo_create(surface);
    PangoLayout *layout = pango->pango_cairo_create_layout(cr);
    PangoFontDescription *font = pango->pango_font_description_new();
    pango->pango_font_description_set_family_static(font, "Open Sans, DejaVu Sans, sans-serif");
    pango->pango_font_description_set_weight(font, text_style(run->kind)->bold ? PANGO_WEIGHT_SEMIBOLD
                                                                               : PANGO_WEIGHT_NORMAL);
    pango->pango_font_description_set_absolute_size(font, run->size * LARGER * PANGO_SCALE);
    pango->pango_layout_set_font_description(layout, font);
    pango->pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango->pango_layout_set_text(layout, run->text, -1);
    PangoLayoutLine *line = pango->pango_layout_get_line_readonly(layout, 0);
    PangoRectangle extents;
    pango->pango_layout_line_get_extents(line, NULL, &extents);
    double width = (double)extents.width / PANGO_SCALE / LARGER;
    double back = run->align == ALIGN_LEFT ? 0 : run->align == ALIGN_MIDDLE ? width / 2 : width;
    cairo->cairo_set_tolerance(cr, 0.5);
    cairo->cairo_move_to(cr, 0, 0);
    pango->pango_cairo_layout_line_path(cr, line);
    cairo_path_t *path = cairo->cairo_copy_path(cr);
    add_path(path, run, back, pen);
    bool good = cairo->cairo_status(cr) == CAIRO_STATUS_SUCCESS;
    cairo->cairo_path_destroy(path);
    pango->pango_font_description_free(font);
    pango->g_object_unref(layout);
    cairo->cairo_destroy(cr);
    cairo->cairo_surface_destroy(surface);
    return good;
}
