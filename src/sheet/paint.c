#include "sheet/paint.h"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "sheet/catalog.h"
#include "sheet/font.h"
#include "sheet/shaping.h"
#include "sheet/typesetting.h"

// An operation costs cairo more than the lines or letters in it, so they are gathered: all lines of a kind,
// all marks filled with ink, and texts of one look that follow each other. What was gathered is painted when
// an area is filled, when the clip changes and at the end of the page: lines in the order of their kinds,
// marks over them, and words on top, in the order they came. Colour, width and dash are set when they change.
// Millimetres become units of the surface here and not by a matrix of cairo's: it writes the matrix round
// every stroke.

#define POINTS_PER_MM (72 / 25.4)

#define STROKE_STEPS 1000 // in one stroke of a picture of dots, as far as lines can be parted

enum { NOTHING = -1 };

// Texts of one look, as cairo takes them.
typedef struct TextGroup {
    bool bold, readable; // readable: the bytes are UTF-8
    Colour colour;
    double size, degrees;
    Buffer text;
    struct {
        cairo_glyph_t *items;
        int count, capacity;
    } glyphs;
    struct {
        cairo_text_cluster_t *items;
        int count, capacity;
    } clusters;
} TextGroup;

struct PaintCanvas {
    Canvas canvas;  // first: a Canvas pointer is a pointer to the whole
    Buffer written; // what cairo wrote so far
    cairo_surface_t *surface;
    cairo_t *cr;
    double unit; // of the surface in a millimetre: points, or dots
    bool pdf, clipped;
    const char *language;            // of a PDF for reading, borrowed; NULL for one to print at true size
    const char *const *figure_texts; // borrowed
    int figure_text_count;
    int pages;
    Pen lines[LINE_KIND_COUNT], marks[SHADE_COUNT]; // gathered
    struct {
        TextGroup *items; // the first text_count of them are in use
        int count, capacity;
    } texts;
    int text_count;
    Colour colour;               // set in cairo, as are those that follow
    int line;                    // kind
    int face;                    // 0 regular, 1 bold
    double size, degrees;        // of the font matrix
    cairo_font_face_t *faces[2]; // regular, bold
};

static void trace_steps(const PaintCanvas *paint, const Pen *pen, int first, int last) {
    cairo_t *cr = paint->cr;
    const double k = paint->unit;
    for (int i = first; i < last; i++) {
        const PenStep *step = &pen->items[i];
        const Point to = point_scale(step->to, k), a = point_scale(step->from_handle, k),
                    b = point_scale(step->to_handle, k);
        switch (step->move) {
        case PEN_MOVE:
            cairo_move_to(cr, to.x, to.y);
            break;
        case PEN_LINE:
            cairo_line_to(cr, to.x, to.y);
            break;
        case PEN_CURVE:
            cairo_curve_to(cr, a.x, a.y, b.x, b.y, to.x, to.y);
            break;
        case PEN_CLOSE:
            cairo_close_path(cr);
            break;
        }
    }
}

static bool same_colour(Colour a, Colour b) {
    return a.red == b.red && a.green == b.green && a.blue == b.blue;
}

static void set_colour(PaintCanvas *paint, Colour colour) {
    if (same_colour(paint->colour, colour))
        return;
    cairo_set_source_rgb(paint->cr, colour.red, colour.green, colour.blue);
    paint->colour = colour;
}

static void set_line(PaintCanvas *paint, LineKind kind) {
    const LineStyle *style = line_style(kind);
    set_colour(paint, style->colour);
    if (paint->line == (int)kind)
        return;
    double dash[DASH_PARTS_MAX];
    int dashes = 0;
    for (; dashes < DASH_PARTS_MAX && style->dash[dashes] > 0; dashes++)
        dash[dashes] = style->dash[dashes] * paint->unit;
    cairo_set_line_width(paint->cr, style->width * paint->unit);
    cairo_set_dash(paint->cr, dash, dashes, 0);
    cairo_set_line_cap(paint->cr, style->round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(paint->cr, style->round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
    paint->line = (int)kind;
}

static void pen_add(Pen *pen, const Pen *more) {
    for (int i = 0; i < more->count; i++)
        ARRAY_ADD(pen, more->items[i]);
}

static void set_font(PaintCanvas *paint, bool bold, double size, double degrees) {
    if (paint->face != (int)bold) {
        if (paint->faces[bold] == NULL)
            paint->faces[bold] = cairo_ft_font_face_create_for_ft_face(font_face(bold), FT_LOAD_NO_HINTING);
        cairo_set_font_face(paint->cr, paint->faces[bold]);
        paint->face = (int)bold;
    }
    if (paint->size == size && paint->degrees == degrees)
        return;
    cairo_matrix_t matrix;
    cairo_matrix_init_rotate(&matrix, -RADIANS(degrees));
    cairo_matrix_scale(&matrix, size * paint->unit, size * paint->unit);
    cairo_set_font_matrix(paint->cr, &matrix);
    paint->size = size;
    paint->degrees = degrees;
}

static void show_group(PaintCanvas *paint, const TextGroup *group) {
    set_colour(paint, group->colour);
    set_font(paint, group->bold, group->size, group->degrees);
    if (group->readable)
        cairo_show_text_glyphs(paint->cr, group->text.data, (int)group->text.length, group->glyphs.items,
                               group->glyphs.count, group->clusters.items, group->clusters.count, 0);
    else
        cairo_show_glyphs(paint->cr, group->glyphs.items, group->glyphs.count);
}

// As dots, a stroke takes the longer the more of its lines cross each other: so many are drawn in parts.
static void stroke_lines(PaintCanvas *paint, const Pen *pen) {
    const int most = paint->pdf ? pen->count : STROKE_STEPS;
    for (int first = 0, last; first < pen->count; first = last) {
        last = first + 1;
        while (last < pen->count && !(last - first >= most && pen->items[last].move == PEN_MOVE))
            last++;
        trace_steps(paint, pen, first, last);
        cairo_stroke(paint->cr);
    }
}

static void paint_gathered(PaintCanvas *paint) {
    for (int kind = 0; kind < LINE_KIND_COUNT; kind++) {
        if (paint->lines[kind].count == 0)
            continue;
        set_line(paint, (LineKind)kind);
        stroke_lines(paint, &paint->lines[kind]);
        paint->lines[kind].count = 0;
    }
    for (int shade = 0; shade < SHADE_COUNT; shade++) {
        if (paint->marks[shade].count == 0)
            continue;
        set_colour(paint, shade_colour((Shade)shade));
        trace_steps(paint, &paint->marks[shade], 0, paint->marks[shade].count);
        cairo_fill(paint->cr);
        paint->marks[shade].count = 0;
    }
    for (int i = 0; i < paint->text_count; i++)
        show_group(paint, &paint->texts.items[i]);
    paint->text_count = 0;
}

static void paint_stroke(Canvas *canvas, const Pen *pen, LineKind kind) {
    pen_add(&((PaintCanvas *)canvas)->lines[kind], pen);
}

static void paint_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    bool mark = shade == SHADE_INK;
    if (!mark)
        paint_gathered(paint); // the area may cover it
    pen_add(&paint->marks[shade], pen);
    if (!mark)
        paint_gathered(paint);
}

// The last group where it looks like the run, else a new one.
static TextGroup *group_for(PaintCanvas *paint, const TextRun *run, bool readable) {
    const TextStyle *style = text_style(run->kind);
    if (paint->text_count > 0) {
        TextGroup *last = &paint->texts.items[paint->text_count - 1];
        if (last->bold == style->bold && last->readable == readable && last->size == run->size &&
            last->degrees == run->degrees && same_colour(last->colour, style->colour))
            return last;
    }
    if (paint->text_count == paint->texts.count) {
        ARRAY_ADD(&paint->texts, (TextGroup){.bold = false});
        buffer_init(&paint->texts.items[paint->text_count].text);
    }
    TextGroup *group = &paint->texts.items[paint->text_count++];
    group->bold = style->bold;
    group->readable = readable;
    group->colour = style->colour;
    group->size = run->size;
    group->degrees = run->degrees;
    buffer_clear(&group->text);
    group->glyphs.count = group->clusters.count = 0;
    return group;
}

// One glyph for each character, kerned; each a cluster of its own, so that a reader finds the text again.
static void gather_text(PaintCanvas *paint, const TextRun *run) {
    size_t length = strlen(run->text);
    TextGroup *group = group_for(paint, run, text_is_utf8(run->text, length));
    buffer_add(&group->text, run->text, length);
    double back = run->align == ALIGN_LEFT ? 0 : run->align == ALIGN_MIDDLE ? run->width / 2 : run->width;
    double c = cos(RADIANS(run->degrees)), s = sin(RADIANS(run->degrees)), along = -back;
    const char *from = run->text, *at = from;
    for (uint32_t code = text_next(&at), next; code != 0; code = next) {
        ARRAY_ADD(&group->clusters, ((cairo_text_cluster_t){.num_bytes = (int)(at - from), .num_glyphs = 1}));
        ARRAY_ADD(&group->glyphs, ((cairo_glyph_t){.index = font_glyph(group->bold, code),
                                                   .x = (run->at.x + along * c) * paint->unit,
                                                   .y = (run->at.y - along * s) * paint->unit}));
        from = at;
        next = text_next(&at);
        along += run->size * font_advance(group->bold, code, next);
    }
}

static bool show_shaped(PaintCanvas *paint, const TextRun *run) {
    paint_gathered(paint);
    set_colour(paint, text_style(run->kind)->colour);
    cairo_save(paint->cr);
    cairo_scale(paint->cr, paint->unit, paint->unit);
    cairo_translate(paint->cr, run->at.x, run->at.y);
    cairo_rotate(paint->cr, -RADIANS(run->degrees));
    bool shown = shaping_show(paint->cr, run);
    cairo_restore(paint->cr);
    return shown;
}

static void paint_text(Canvas *canvas, const TextRun *run) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    if (font_covers(run->text) || !show_shaped(paint, run))
        gather_text(paint, run);
}

static void paint_group(Canvas *canvas, const char *kind, const char *name) {
    (void)canvas; // a page has no named groups
    (void)kind;
    (void)name;
}

static void paint_clip(Canvas *canvas, Box box) {
    PaintCanvas *paint = (PaintCanvas *)canvas;
    paint_gathered(paint);
    if (paint->clipped)
        cairo_reset_clip(paint->cr);
    paint->clipped = !box_is_empty(box);
    if (!paint->clipped)
        return;
    Point from = point_scale(box.least, paint->unit), to = point_scale(box.most, paint->unit);
    cairo_rectangle(paint->cr, from.x, from.y, to.x - from.x, to.y - from.y);
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

static PaintCanvas *paint_new(void) {
    PaintCanvas *paint = mem_new(sizeof *paint);
    buffer_init(&paint->written);
    paint->line = paint->face = NOTHING;
    paint->colour.red = NOTHING;
    return paint;
}

static void begin_drawing(PaintCanvas *paint, double units_per_mm) {
    paint->cr = cairo_create(paint->surface);
    paint->unit = units_per_mm;
    set_font_options(paint->cr);
}

static void say(PaintCanvas *paint, cairo_pdf_metadata_t what, const char *text) {
    if (text_is_utf8(text, strlen(text)))
        cairo_pdf_surface_set_metadata(paint->surface, what, text);
}

PaintCanvas *paint_pdf_new(const char *title, const char *subject) {
    PaintCanvas *paint = paint_new();
    paint->pdf = true;
    paint->surface = cairo_pdf_surface_create_for_stream(write_bytes, &paint->written, 100, 100);
    cairo_pdf_surface_restrict_to_version(paint->surface, CAIRO_PDF_VERSION_1_4);
    say(paint, CAIRO_PDF_METADATA_TITLE, title);
    say(paint, CAIRO_PDF_METADATA_SUBJECT, subject);
    say(paint, CAIRO_PDF_METADATA_CREATOR, "rebato");
    say(paint, CAIRO_PDF_METADATA_CREATE_DATE,
        "2000-01-01T00:00:00Z"); // else the time of day is in the bytes
    begin_drawing(paint, POINTS_PER_MM);
    canvas_init(&paint->canvas, &backend, 0, 0);
    return paint;
}

void paint_page(PaintCanvas *paint, double width, double height, const char *label) {
    if (paint->clipped)
        canvas_unclip(&paint->canvas);
    paint_gathered(paint);
    if (paint->pages > 0)
        cairo_show_page(paint->cr);
    paint->pages++;
    cairo_pdf_surface_set_size(paint->surface, width * POINTS_PER_MM, height * POINTS_PER_MM);
    if (label != NULL)
        cairo_pdf_surface_set_page_label(paint->surface, label);
    paint->canvas.window = (Box){{0, 0}, {width, height}};
    canvas_paper(&paint->canvas);
}

int paint_page_count(const PaintCanvas *paint) {
    return paint->pages;
}

void paint_for_reading(PaintCanvas *paint, const char *language) {
    paint->language = language;
}

void paint_figure_texts(PaintCanvas *paint, const char *const *texts, int count) {
    paint->figure_texts = texts;
    paint->figure_text_count = count;
}

cairo_t *paint_open(PaintCanvas *paint) {
    paint_gathered(paint);
    paint->line = paint->face = NOTHING;
    paint->colour.red = NOTHING;
    paint->size = 0;
    return paint->cr;
}

cairo_surface_t *paint_surface(PaintCanvas *paint) {
    return paint->surface;
}

PaintCanvas *paint_png_new(double width, double height, double dots_per_mm) {
    PaintCanvas *paint = paint_new();
    paint->pages = 1;
    int across = (int)ceil(width * dots_per_mm), down = (int)ceil(height * dots_per_mm);
    paint->surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, across, down);
    begin_drawing(paint, dots_per_mm);
    cairo_set_source_rgb(paint->cr, 1, 1, 1);
    cairo_paint(paint->cr);
    canvas_init(&paint->canvas, &backend, width, height);
    return paint;
}

Canvas *paint_canvas(PaintCanvas *paint) {
    return &paint->canvas;
}

static bool finish_surface(PaintCanvas *paint) {
    if (paint->pdf)
        cairo_surface_finish(paint->surface);
    else if (cairo_surface_write_to_png_stream(paint->surface, write_bytes, &paint->written) !=
             CAIRO_STATUS_SUCCESS)
        return false;
    return cairo_surface_status(paint->surface) == CAIRO_STATUS_SUCCESS;
}

// The faces of FreeType stay open: cairo keeps scaled fonts that know them until the program ends.
bool paint_finish(PaintCanvas *paint, Buffer *out) {
    paint_gathered(paint);
    bool good = cairo_status(paint->cr) == CAIRO_STATUS_SUCCESS && finish_surface(paint);
    // Should some cairo write its file in another form, the pages are as right without the request.
    if (good && paint->language != NULL)
        catalog_add_reading(&paint->written, paint->language, paint->figure_texts, paint->figure_text_count);
    else if (good && paint->pdf)
        catalog_add_true_scale(&paint->written);
    if (good)
        buffer_add(out, paint->written.data, paint->written.length);
    cairo_destroy(paint->cr);
    cairo_surface_destroy(paint->surface);
    for (int i = 0; i < 2; i++)
        cairo_font_face_destroy(paint->faces[i]);
    for (int i = 0; i < LINE_KIND_COUNT; i++)
        mem_free(paint->lines[i].items);
    for (int i = 0; i < SHADE_COUNT; i++)
        mem_free(paint->marks[i].items);
    for (int i = 0; i < paint->texts.count; i++) {
        buffer_finish(&paint->texts.items[i].text);
        mem_free(paint->texts.items[i].glyphs.items);
        mem_free(paint->texts.items[i].clusters.items);
    }
    mem_free(paint->texts.items);
    buffer_finish(&paint->written);
    canvas_finish(&paint->canvas);
    mem_free(paint);
    return good;
}
