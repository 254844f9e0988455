// The functions of pango that are used, found by name when they are first needed: loading it takes longer
// than drawing a whole pattern, and most drawings never need it. Inside this room only.
#ifndef REBATO_SHEET_PANGO_READY_H
#define REBATO_SHEET_PANGO_READY_H

#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>
#include <stdbool.h>

#define PANGO_USED(X)                           \
    X(pango_attr_allow_breaks_new)              \
    X(pango_attr_font_desc_new)                 \
    X(pango_attr_font_features_new)             \
    X(pango_attr_foreground_new)                \
    X(pango_attr_insert_hyphens_new)            \
    X(pango_attr_list_insert)                   \
    X(pango_attr_list_new)                      \
    X(pango_attr_list_unref)                    \
    X(pango_cairo_context_set_font_options)     \
    X(pango_cairo_context_set_resolution)       \
    X(pango_cairo_create_layout)                \
    X(pango_cairo_font_map_new_for_font_type)   \
    X(pango_cairo_show_layout_line)             \
    X(pango_context_set_base_dir)               \
    X(pango_context_set_language)               \
    X(pango_context_set_round_glyph_positions)  \
    X(pango_fc_font_map_set_config)             \
    X(pango_font_description_free)              \
    X(pango_font_description_new)               \
    X(pango_font_description_set_absolute_size) \
    X(pango_font_description_set_family_static) \
    X(pango_font_description_set_style)         \
    X(pango_font_description_set_weight)        \
    X(pango_font_map_create_context)            \
    X(pango_language_from_string)               \
    X(pango_layout_get_iter)                    \
    X(pango_layout_get_line_count)              \
    X(pango_layout_get_line_readonly)           \
    X(pango_layout_iter_free)                   \
    X(pango_layout_iter_get_baseline)           \
    X(pango_layout_iter_get_line_extents)       \
    X(pango_layout_iter_get_line_readonly)      \
    X(pango_layout_iter_get_line_yrange)        \
    X(pango_layout_iter_next_line)              \
    X(pango_layout_line_get_extents)            \
    X(pango_layout_line_get_x_ranges)           \
    X(pango_layout_new)                         \
    X(pango_layout_set_alignment)               \
    X(pango_layout_set_attributes)              \
    X(pango_layout_set_font_description)        \
    X(pango_layout_set_line_spacing)            \
    X(pango_layout_set_single_paragraph_mode)   \
    X(pango_layout_set_text)                    \
    X(pango_layout_set_width)                   \
    X(pango_layout_set_wrap)                    \
    X(g_free)                                   \
    X(g_object_unref)

#define PANGO_FIELD(name) __typeof__(&name) name;
typedef struct PangoReady {
    PANGO_USED(PANGO_FIELD)
} PangoReady;
#undef PANGO_FIELD

const PangoReady *pango_ready(void); // NULL where there is no pango

#endif
