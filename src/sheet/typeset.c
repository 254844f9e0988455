#include "sheet/typeset.h"

#include <cairo-pdf.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "sheet/font.h"
#include "sheet/typesetting.h"

bool typeset_knows(const char *text) {
    return strcmp(text, "\n") == 0 || font_covers(text);
}

Typeset *typeset_new(const TypesetOptions *options) {
    const PangoReady *pango = pango_ready();
    PangoFontMap *map = pango != NULL ? typeset_fonts(pango, options->own_fonts) : NULL;
    if (map == NULL)
        return NULL;
    Typeset *set = mem_new(sizeof *set);
    *set = (Typeset){.pango = pango, .options = *options};
    arena_init(&set->arena);
    set->options.title = arena_text(&set->arena, options->title);
    set->options.subject = arena_text(&set->arena, options->subject != NULL ? options->subject : "");
    set->options.language = arena_text(&set->arena, options->language);
    set->context = pango->pango_font_map_create_context(map);
    cairo_font_options_t *fonts = cairo_font_options_create();
    cairo_font_options_set_hint_style(fonts, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(fonts, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(fonts, CAIRO_ANTIALIAS_GRAY);
    pango->pango_cairo_context_set_font_options(set->context, fonts);
    cairo_font_options_destroy(fonts);
    pango->pango_cairo_context_set_resolution(set->context, 72);
    pango->pango_context_set_round_glyph_positions(set->context, FALSE);
    set->paint = paint_pdf_new(set->options.title, set->options.subject);
    paint_for_reading(set->paint, set->options.language);
    return set;
}

bool typeset_finish(Typeset *set, Buffer *out) {
    paint_figure_texts(set->paint, set->figures.items, set->figures.count);
    const bool good = paint_finish(set->paint, out);
    set->pango->g_object_unref(set->context);
    mem_free(set->figures.items);
    mem_free(set->places.items);
    arena_finish(&set->arena);
    mem_free(set);
    return good;
}

void typeset_page(Typeset *set) {
    char label[16];
    snprintf(label, sizeof label, "%d", paint_page_count(set->paint) + 1);
    paint_page(set->paint, set->options.width, set->options.height, label);
}

int typeset_page_count(const Typeset *set) {
    return paint_page_count(set->paint);
}

Canvas *typeset_canvas(Typeset *set) {
    return paint_canvas(set->paint);
}

void typeset_begin(Typeset *set, const char *role) {
    cairo_tag_begin(paint_open(set->paint), role, NULL);
}

void typeset_end(Typeset *set, const char *role) {
    cairo_tag_end(paint_open(set->paint), role);
}

// A text in quotes, as cairo reads the attributes of its tags.
static void add_quoted(Buffer *out, const char *text) {
    buffer_add_char(out, '\'');
    for (; *text != '\0'; text++) {
        if (*text == '\'' || *text == '\\')
            buffer_add_char(out, '\\');
        buffer_add_char(out, *text);
    }
    buffer_add_char(out, '\'');
}

// An address in the characters that may stand in one (RFC 3986): others as % and two digits.
static void add_address(Buffer *out, const char *text) {
    Buffer plain;
    buffer_init(&plain);
    for (; *text != '\0'; text++) {
        const unsigned char c = (unsigned char)*text;
        if (c > 0x20 && c < 0x7F && strchr("'\\\"<>()", c) == NULL)
            buffer_add_char(&plain, (char)c);
        else
            buffer_add_format(&plain, "%%%02X", c);
    }
    add_quoted(out, plain.data);
    buffer_finish(&plain);
}

static bool has_place(const Typeset *set, const char *name) {
    for (int i = 0; i < set->places.count; i++)
        if (strcmp(set->places.items[i], name) == 0)
            return true;
    return false;
}

void typeset_link(Typeset *set, const char *link, Box box) {
    Buffer attributes;
    buffer_init(&attributes);
    buffer_add_text(&attributes, *link == '#' ? "dest=" : "uri=");
    if (*link == '#')
        add_quoted(&attributes, link + 1);
    else
        add_address(&attributes, link);
    buffer_add_format(&attributes, " rect=[%.2f %.2f %.2f %.2f]", box.least.x / POINT_MM,
                      box.least.y / POINT_MM, (box.most.x - box.least.x) / POINT_MM,
                      (box.most.y - box.least.y) / POINT_MM);
    cairo_t *cr = paint_open(set->paint);
    cairo_tag_begin(cr, CAIRO_TAG_LINK, attributes.data);
    cairo_tag_end(cr, CAIRO_TAG_LINK);
    buffer_finish(&attributes);
}

void typeset_place(Typeset *set, const char *name, Point at) {
    if (has_place(set, name))
        return;
    ARRAY_ADD(&set->places, arena_text(&set->arena, name));
    Buffer attributes;
    buffer_init(&attributes);
    buffer_add_text(&attributes, "name=");
    add_quoted(&attributes, name);
    buffer_add_format(&attributes, " x=%.2f y=%.2f", at.x / POINT_MM, at.y / POINT_MM);
    cairo_t *cr = paint_open(set->paint);
    cairo_tag_begin(cr, CAIRO_TAG_DEST, attributes.data);
    cairo_tag_end(cr, CAIRO_TAG_DEST);
    buffer_finish(&attributes);
}

int typeset_outline(Typeset *set, int parent, const char *title, const char *name) {
    Buffer attributes;
    buffer_init(&attributes);
    buffer_add_text(&attributes, "dest=");
    add_quoted(&attributes, name);
    const int id =
        cairo_pdf_surface_add_outline(paint_surface(set->paint), parent < 0 ? CAIRO_PDF_OUTLINE_ROOT : parent,
                                      title, attributes.data, parent < 0 ? CAIRO_PDF_OUTLINE_FLAG_OPEN : 0);
    buffer_finish(&attributes);
    return id;
}

void typeset_figure_text(Typeset *set, const char *text) {
    ARRAY_ADD(&set->figures, arena_text(&set->arena, text));
}

static void link_line(Typeset *set, const TypeText *text, const PangoLayoutLine *line, const TypeLine *place,
                      Point at) {
    const PangoReady *pango = set->pango;
    for (int i = 0; i < text->link_count; i++) {
        int *ranges = NULL, count = 0;
        if (text->links[i].to <= line->start_index || text->links[i].from >= line->start_index + line->length)
            continue;
        pango->pango_layout_line_get_x_ranges((PangoLayoutLine *)line, text->links[i].from, text->links[i].to,
                                              &ranges, &count);
        for (int k = 0; k < count; k++) {
            const double from = ranges[2 * k] * POINT_MM / PANGO_SCALE,
                         to = ranges[2 * k + 1] * POINT_MM / PANGO_SCALE;
            typeset_link(set, text->links[i].link,
                         (Box){{at.x + from, at.y}, {at.x + to, at.y + place->height * POINT_MM}});
        }
        pango->g_free(ranges);
    }
}

void typeset_line(Typeset *set, const TypeText *text, int index, Point at) {
    const PangoReady *pango = set->pango;
    const TypeLine *place = &text->lines[index];
    PangoLayoutLine *line = pango->pango_layout_get_line_readonly(text->layout, index);
    const Colour colour =
        type_look(text->look)->grey ? text_style(TEXT_PALE)->colour : text_style(TEXT_BODY)->colour;
    cairo_t *cr = paint_open(set->paint);
    cairo_set_source_rgb(cr, colour.red, colour.green, colour.blue);
    cairo_move_to(cr, at.x / POINT_MM + place->left, at.y / POINT_MM + place->baseline);
    pango->pango_cairo_show_layout_line(cr, line);
    cairo_new_path(cr);
    link_line(set, text, line, place, at);
}

typedef struct Bytes {
    const unsigned char *at;
    size_t left;
} Bytes;

static cairo_status_t read_bytes(void *context, unsigned char *out, unsigned int length) {
    Bytes *bytes = context;
    if (length > bytes->left)
        return CAIRO_STATUS_READ_ERROR;
    memcpy(out, bytes->at, length);
    bytes->at += length;
    bytes->left -= length;
    return CAIRO_STATUS_SUCCESS;
}

// A JPEG stays as it is in the PDF; cairo wants a surface of its size to hang it on.
static cairo_surface_t *jpeg_surface(const unsigned char *bytes, size_t length, int width, int height) {
    cairo_surface_t *image = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    unsigned char *copy = mem_new(length);
    memcpy(copy, bytes, length);
    if (cairo_surface_set_mime_data(image, CAIRO_MIME_TYPE_JPEG, copy, length, mem_free, copy) !=
        CAIRO_STATUS_SUCCESS)
        mem_free(copy);
    return image;
}

static cairo_surface_t *image_surface(const TypeImage *given) {
    Bytes from = {.at = given->bytes, .left = given->length};
    return given->jpeg ? jpeg_surface(given->bytes, given->length, given->width, given->height)
                       : cairo_image_surface_create_from_png_stream(read_bytes, &from);
}

bool type_image_opens(const TypeImage *given) {
    cairo_surface_t *image = image_surface(given);
    const bool good = cairo_surface_status(image) == CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(image);
    return good;
}

bool typeset_image(Typeset *set, const TypeImage *given, Box box) {
    cairo_surface_t *image = image_surface(given);
    const bool good = cairo_surface_status(image) == CAIRO_STATUS_SUCCESS;
    if (good) {
        cairo_t *cr = paint_open(set->paint);
        cairo_save(cr);
        cairo_translate(cr, box.least.x / POINT_MM, box.least.y / POINT_MM);
        cairo_scale(cr, (box.most.x - box.least.x) / POINT_MM / cairo_image_surface_get_width(image),
                    (box.most.y - box.least.y) / POINT_MM / cairo_image_surface_get_height(image));
        cairo_set_source_surface(cr, image, 0, 0);
        cairo_paint(cr);
        cairo_restore(cr);
    }
    cairo_surface_destroy(image);
    return good;
}
