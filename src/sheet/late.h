// Libraries loaded only when a drawing needs them: cairo for pictures made of dots, pango for scripts that
// need shaping. Loading them takes longer than drawing a whole pattern, and most drawings need neither.
#ifndef REBATO_SHEET_LATE_H
#define REBATO_SHEET_LATE_H

#include <cairo.h>
#include <pango/pangocairo.h>

#define LATE_CAIRO(X)                    \
    X(cairo_image_surface_create)        \
    X(cairo_surface_write_to_png_stream) \
    X(cairo_surface_flush)               \
    X(cairo_surface_status)              \
    X(cairo_surface_destroy)             \
    X(cairo_create)                      \
    X(cairo_destroy)                     \
    X(cairo_status)                      \
    X(cairo_save)                        \
    X(cairo_restore)                     \
    X(cairo_scale)                       \
    X(cairo_translate)                   \
    X(cairo_rotate)                      \
    X(cairo_paint)                       \
    X(cairo_clip)                        \
    X(cairo_rectangle)                   \
    X(cairo_new_path)                    \
    X(cairo_move_to)                     \
    X(cairo_line_to)                     \
    X(cairo_curve_to)                    \
    X(cairo_close_path)                  \
    X(cairo_stroke)                      \
    X(cairo_fill)                        \
    X(cairo_set_source_rgb)              \
    X(cairo_set_line_width)              \
    X(cairo_set_dash)                    \
    X(cairo_set_line_cap)                \
    X(cairo_set_line_join)               \
    X(cairo_set_tolerance)               \
    X(cairo_copy_path)                   \
    X(cairo_path_destroy)

#define LATE_PANGO(X)                           \
    X(pango_cairo_create_layout)                \
    X(pango_cairo_layout_line_path)             \
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

#define LATE_FIELD(name) __typeof__(&name) name;
typedef struct LateCairo {
    LATE_CAIRO(LATE_FIELD)
} LateCairo;
typedef struct LatePango {
    LATE_PANGO(LATE_FIELD)
} LatePango;
#undef LATE_FIELD

// NULL where the library is not there.
const LateCairo *late_cairo(void);
const LatePango *late_pango(void);

#endif
