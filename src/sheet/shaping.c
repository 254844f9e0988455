#include "sheet/shaping.h"

#include "sheet/pango_ready.h"

// Pango rounds positions to its own unit of the screen: text is laid out this many times larger than it is
// drawn, so that it does not show.
#define LARGER 64.0

bool shaping_show(cairo_t *cr, const TextRun *run) {
    const PangoReady *pango = pango_ready();
    if (pango == NULL)
        return false;
    cairo_scale(cr, 1 / LARGER, 1 / LARGER);
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
    double width = (double)extents.width / PANGO_SCALE;
    cairo_move_to(cr, run->align == ALIGN_LEFT ? 0 : run->align == ALIGN_MIDDLE ? -width / 2 : -width, 0);
    pango->pango_cairo_show_layout_line(cr, line);
    cairo_new_path(cr);
    pango->pango_font_description_free(font);
    pango->g_object_unref(layout);
    return true;
}
