#include "sheet/shaping.h"

#include <dlfcn.h>
#include <pango/pangocairo.h>
#include <stddef.h>

// The few functions of pango that are used, found by name when they are first needed.
#define PANGO_USED(X)                           \
    X(pango_cairo_create_layout)                \
    X(pango_cairo_show_layout_line)             \
    X(pango_font_description_new)               \
    X(pango_font_description_set_family_static) \
    X(pango_font_description_set_weight)        \
    X(pango_font_description_set_absolute_size) \
    X(pango_font_description_free)              \
    X(pango_layout_set_font_description)        \
    X(pango_layout_set_single_paragraph_mode)   \
    X(pango_layout_set_text)                    \
    X(pango_layout_get_line_readonly)           \
    X(pango_layout_line_get_extents)            \
    X(g_object_unref)

#define FIELD(name) __typeof__(&name) name;
typedef struct Pango {
    PANGO_USED(FIELD)
} Pango;
#undef FIELD

static bool find(void *library, const char *name, void *place) {
    void *found = dlsym(library, name);
    if (found == NULL)
        return false;
    *(void **)place = found;
    return true;
}

// The library stays loaded: its types are registered once in a process.
static const Pango *pango_ready(void) {
    static Pango pango;
    static bool tried, there;
    if (!tried) {
        tried = true;
        void *library = dlopen("libpangocairo-1.0.so.0", RTLD_NOW | RTLD_GLOBAL);
#define FIND(name) &&find(library, #name, &pango.name)
        there = library != NULL PANGO_USED(FIND);
#undef FIND
    }
    return there ? &pango : NULL;
}

// Pango rounds positions to its own unit of the screen: text is laid out this many times larger than it is
// drawn, so that it does not show.
#define LARGER 64.0

bool shaping_show(cairo_t *cr, const TextRun *run) {
    const Pango *pango = pango_ready();
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
