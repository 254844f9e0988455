#include "sheet/shaping.h"

#include <dlfcn.h>
#include <pango/pangocairo.h>
#include <stddef.h>

// The few functions of pango that are used, found by name when they are first needed.
#define USED(name) __typeof__(&name) name
typedef struct Pango {
    bool tried, there;
    USED(pango_cairo_create_layout);
    USED(pango_cairo_show_layout_line);
    USED(pango_font_description_new);
    USED(pango_font_description_set_family_static);
    USED(pango_font_description_set_weight);
    USED(pango_font_description_set_absolute_size);
    USED(pango_font_description_free);
    USED(pango_layout_set_font_description);
    USED(pango_layout_set_single_paragraph_mode);
    USED(pango_layout_set_text);
    USED(pango_layout_get_line_readonly);
    USED(pango_layout_line_get_extents);
    USED(g_object_unref);
} Pango;

static Pango pango;

static bool find(void *library, const char *name, void *place) {
    void *found = dlsym(library, name);
    if (found == NULL)
        return false;
    *(void **)place = found;
    return true;
}

// The library stays loaded: its types are registered once in a process.
static bool load(void) {
    if (pango.tried)
        return pango.there;
    pango.tried = true;
    void *library = dlopen("libpangocairo-1.0.so.0", RTLD_NOW | RTLD_GLOBAL);
    if (library == NULL)
        return false;
#define FIND(name) find(library, #name, &pango.name)
    pango.there = FIND(pango_cairo_create_layout) && FIND(pango_cairo_show_layout_line) &&
                  FIND(pango_font_description_new) && FIND(pango_font_description_set_family_static) &&
                  FIND(pango_font_description_set_weight) && FIND(pango_font_description_set_absolute_size) &&
                  FIND(pango_font_description_free) && FIND(pango_layout_set_font_description) &&
                  FIND(pango_layout_set_single_paragraph_mode) && FIND(pango_layout_set_text) &&
                  FIND(pango_layout_get_line_readonly) && FIND(pango_layout_line_get_extents) &&
                  FIND(g_object_unref);
#undef FIND
    return pango.there;
}

bool shaping_show(cairo_t *cr, const char *text, double size, bool bold, Align align) {
    if (!load())
        return false;
    PangoLayout *layout = pango.pango_cairo_create_layout(cr);
    PangoFontDescription *font = pango.pango_font_description_new();
    pango.pango_font_description_set_family_static(font, "Open Sans, DejaVu Sans, sans-serif");
    pango.pango_font_description_set_weight(font, bold ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
    pango.pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
    pango.pango_layout_set_font_description(layout, font);
    pango.pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango.pango_layout_set_text(layout, text, -1);
    PangoLayoutLine *line = pango.pango_layout_get_line_readonly(layout, 0);
    PangoRectangle extents;
    pango.pango_layout_line_get_extents(line, NULL, &extents);
    double width = (double)extents.width / PANGO_SCALE;
    cairo_move_to(cr, align == ALIGN_LEFT ? 0 : align == ALIGN_MIDDLE ? -width / 2 : -width, 0);
    pango.pango_cairo_show_layout_line(cr, line);
    pango.pango_font_description_free(font);
    pango.g_object_unref(layout);
    return true;
}
