#include "sheet/svg.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "sheet/font.h"
#include "sheet/number_text.h"

void svg_add_escaped(Buffer *out, const char *text) {
    for (const char *at = text; *at != '\0';) {
        const char *from = at;
        uint32_t code = text_next(&at);
        if (code == '&')
            buffer_add_text(out, "&amp;");
        else if (code == '<')
            buffer_add_text(out, "&lt;");
        else if (code == '>')
            buffer_add_text(out, "&gt;");
        else if (code == '"')
            buffer_add_text(out, "&quot;");
        else if (code == 0xfffd)
            buffer_add_text(out, "\xef\xbf\xbd");
        else if (code == '\t' || code == '\n' || (code >= 0x20 && code != 0xfffe && code != 0xffff))
            buffer_add(out, from, (size_t)(at - from));
    }
}

static void add_number(Buffer *out, double value) {
    number_text_add(out, value, 3);
}

static void add_attribute(Buffer *out, const char *name, double value) {
    buffer_add_char(out, ' ');
    buffer_add_text(out, name);
    buffer_add_text(out, "=\"");
    add_number(out, value);
    buffer_add_char(out, '"');
}

// The least part of the ink that lines and words are drawn with on an unknown ground: with ink from #1a1a1a
// on white and from #ececec on near black it leaves lines 3 to 1 against the ground and words 4.5 to 1
// (WCAG 2.1, 1.4.11 and 1.4.3).
#define LINE_INK 0.52
#define WORD_INK 0.68
#define MIDDLE_INK 0.78
#define TINT_INK 0.07

// Inside a page whose ground may be light or dark only what is loud keeps its colour; the paler a line is on
// white, the weaker is its ink. The opacity is that of the whole, so that lines of one kind do not darken
// each other.
static void add_ink(Buffer *out, const char *name, Colour colour, double palest) {
    const double pale = 0.30 * colour.red + 0.59 * colour.green + 0.11 * colour.blue;
    if (colour.red > 0.7 && colour.green < 0.2) {
        buffer_add_format(out, " %s=\"#e5484d\"", name);
        return;
    }
    buffer_add_format(out, " %s=\"currentColor\"", name);
    if (pale > 0.35)
        add_attribute(out, "opacity", pale > 0.5 ? palest : MIDDLE_INK);
}

// palest: the part of the ink that is left of a pale colour.
static void add_colour(const SvgCanvas *svg, Buffer *out, const char *name, Colour colour, double palest) {
    if (svg->prefix != NULL) {
        add_ink(out, name, colour, palest);
        return;
    }
    buffer_add_format(out, " %s=\"#%02x%02x%02x\"", name, (unsigned)lround(colour.red * 255),
                      (unsigned)lround(colour.green * 255), (unsigned)lround(colour.blue * 255));
}

static void add_pen(Buffer *out, const Pen *pen) {
    buffer_add_text(out, " d=\"");
    for (int i = 0; i < pen->count; i++) {
        const PenStep *step = &pen->items[i];
        if (step->move == PEN_CLOSE) {
            buffer_add_char(out, 'Z');
            continue;
        }
        buffer_add_char(out, step->move == PEN_MOVE ? 'M' : step->move == PEN_LINE ? 'L' : 'C');
        Point points[3] = {step->from_handle, step->to_handle, step->to};
        for (int k = step->move == PEN_CURVE ? 0 : 2; k < 3; k++) {
            add_number(out, points[k].x);
            buffer_add_char(out, ' ');
            add_number(out, points[k].y);
            if (k < 2)
                buffer_add_char(out, ' ');
        }
    }
    buffer_add_char(out, '"');
}

static bool id_taken(const SvgCanvas *svg, const char *id) {
    for (int i = 0; i < svg->ids.count; i++)
        if (strcmp(svg->ids.items[i], id) == 0)
            return true;
    return false;
}

// An id made of letters, digits, - and _, each given once: "piece-front-funnel", "piece-front-funnel-2".
static void make_id(SvgCanvas *svg, const char *first, const char *second, Buffer *out) {
    Buffer id;
    buffer_init(&id);
    const bool again = svg->group.length > 0 && first == svg->group.data; // has the prefix already
    const char *parts[3] = {svg->prefix != NULL && !again ? svg->prefix : "", first, second};
    for (int p = 0; p < 3; p++) {
        if (p > 0 && id.length > 0 && id.data[id.length - 1] != '-' && *parts[p] != '\0')
            buffer_add_char(&id, '-');
        for (const char *at = parts[p]; *at != '\0';) {
            uint32_t code = text_next(&at);
            if (code >= 'A' && code <= 'Z')
                buffer_add_char(&id, (char)(code - 'A' + 'a'));
            else if ((code >= 'a' && code <= 'z') || (code >= '0' && code <= '9') || code == '_')
                buffer_add_char(&id, (char)code);
            else if (code < 0x80) {
                if (id.length > 0 && id.data[id.length - 1] != '-')
                    buffer_add_char(&id, '-');
            } else
                buffer_add_format(&id, "u%x", (unsigned)code);
        }
    }
    size_t plain = id.length;
    for (int n = 2; id_taken(svg, id.data); n++) {
        id.data[id.length = plain] = '\0';
        buffer_add_format(&id, "-%d", n);
    }
    ARRAY_ADD(&svg->ids, mem_text(id.data));
    buffer_clear(out);
    buffer_add_text(out, id.data);
    buffer_finish(&id);
}

// The start of the group of a kind of line: all lines of the kind, and what is filled with ink at their ends.
static void begin_line_group(SvgCanvas *svg, LineKind kind) {
    const LineStyle *style = line_style(kind);
    Buffer id;
    buffer_init(&id);
    make_id(svg, svg->group.length > 0 ? svg->group.data : "page", style->name, &id);
    buffer_add_format(svg->out, "<g id=\"%s\" class=\"%s\" fill=\"none\"", id.data, style->name);
    buffer_finish(&id);
    add_colour(svg, svg->out, "stroke", style->colour, LINE_INK);
    add_attribute(svg->out, "stroke-width", style->width);
    if (style->round)
        buffer_add_text(svg->out, " stroke-linecap=\"round\" stroke-linejoin=\"round\"");
    if (style->dash[0] > 0) {
        buffer_add_text(svg->out, " stroke-dasharray=\"");
        for (int i = 0; i < DASH_PARTS_MAX && style->dash[i] > 0; i++) {
            if (i > 0)
                buffer_add_char(svg->out, ',');
            add_number(svg->out, style->dash[i]);
        }
        buffer_add_char(svg->out, '"');
    }
    buffer_add_text(svg->out, ">\n");
}

static void move_text(Buffer *from, Buffer *to) {
    buffer_add(to, from->data, from->length);
    buffer_clear(from);
}

// What was gathered: lines by their kinds, words and flags over them in the order they came.
static void write_gathered(SvgCanvas *svg) {
    for (int kind = 0; kind < LINE_KIND_COUNT; kind++) {
        if (svg->lines[kind].length == 0)
            continue;
        begin_line_group(svg, (LineKind)kind);
        move_text(&svg->lines[kind], svg->out);
        buffer_add_text(svg->out, "</g>\n");
    }
    move_text(&svg->over, svg->out);
    svg->line = LINE_KIND_COUNT;
}

static void svg_stroke(Canvas *canvas, const Pen *pen, LineKind kind) {
    SvgCanvas *svg = (SvgCanvas *)canvas;
    buffer_add_text(&svg->lines[kind], "<path");
    add_pen(&svg->lines[kind], pen);
    buffer_add_text(&svg->lines[kind], "/>\n");
    svg->line = kind;
}

// Ink belongs to the line drawn last: the heads of an arrow, the triangles of notches.
static void svg_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    SvgCanvas *svg = (SvgCanvas *)canvas;
    const bool of_line = shade == SHADE_INK && svg->line != LINE_KIND_COUNT;
    Buffer *out = of_line ? &svg->lines[svg->line] : &svg->over;
    buffer_add_format(out, "<path class=\"%s\" stroke=\"none\"", shade_name(shade));
    add_colour(svg, out, "fill", shade_colour(shade), TINT_INK);
    add_pen(out, pen);
    buffer_add_text(out, "/>\n");
}

static void svg_text(Canvas *canvas, const TextRun *run) {
    static const char *const anchors[] = {"start", "middle", "end"};
    SvgCanvas *svg = (SvgCanvas *)canvas;
    const TextStyle *style = text_style(run->kind);
    Buffer *out = &svg->over;
    buffer_add_format(out, "<text class=\"%s\"", style->name);
    add_attribute(out, "x", run->at.x);
    add_attribute(out, "y", run->at.y);
    if (svg->prefix == NULL)
        buffer_add_text(out, " font-family=\"" FONT_FAMILY "\"");
    add_attribute(out, "font-size", run->size);
    if (style->bold)
        buffer_add_text(out, " font-weight=\"600\"");
    if (svg->prefix != NULL) {
        add_attribute(out, "textLength", font_width(style->bold, run->size, run->text));
        buffer_add_text(out, " lengthAdjust=\"spacingAndGlyphs\"");
    }
    if (run->align != ALIGN_LEFT)
        buffer_add_format(out, " text-anchor=\"%s\"", anchors[run->align]);
    add_colour(svg, out, "fill", style->colour, WORD_INK);
    if (run->degrees != 0) {
        buffer_add_text(out, " transform=\"rotate(");
        add_number(out, -run->degrees);
        buffer_add_char(out, ' ');
        add_number(out, run->at.x);
        buffer_add_char(out, ' ');
        add_number(out, run->at.y);
        buffer_add_text(out, ")\"");
    }
    buffer_add_char(out, '>');
    svg_add_escaped(out, run->text);
    buffer_add_text(out, "</text>\n");
}

static void svg_group(Canvas *canvas, const char *kind, const char *name) {
    SvgCanvas *svg = (SvgCanvas *)canvas;
    write_gathered(svg);
    if (kind == NULL) {
        buffer_add_text(svg->out, "</g>\n");
        buffer_clear(&svg->group);
        return;
    }
    make_id(svg, kind, name, &svg->group);
    buffer_add_format(svg->out, "<g id=\"%s\" class=\"%s\">\n", svg->group.data, kind);
    if (svg->prefix != NULL)
        return; // the title of the whole says what it shows
    buffer_add_text(svg->out, "<title>");
    svg_add_escaped(svg->out, name[0] != '\0' ? name : kind);
    buffer_add_text(svg->out, "</title>\n");
}

static void svg_clip(Canvas *canvas, Box box) {
    (void)canvas; // one sheet, nothing beyond its edge
    (void)box;
}

static const CanvasBackend backend = {svg_stroke, svg_fill, svg_text, svg_group, svg_clip};

static void begin_canvas(SvgCanvas *svg, double width, double height, const char *prefix, Buffer *out) {
    *svg = (SvgCanvas){.out = out, .line = LINE_KIND_COUNT, .prefix = prefix};
    for (int kind = 0; kind < LINE_KIND_COUNT; kind++)
        buffer_init(&svg->lines[kind]);
    buffer_init(&svg->over);
    canvas_init(&svg->canvas, &backend, width, height);
    buffer_init(&svg->group);
}

static void add_size(Buffer *out, double width, double height) {
    add_number(out, width);
    buffer_add_text(out, "mm\" height=\"");
    add_number(out, height);
    buffer_add_text(out, "mm\" viewBox=\"0 0 ");
    add_number(out, width);
    buffer_add_char(out, ' ');
    add_number(out, height);
}

void svg_begin(SvgCanvas *svg, double width, double height, const char *title, const char *desc,
               Buffer *out) {
    begin_canvas(svg, width, height, NULL, out);
    Buffer id;
    buffer_init(&id);
    make_id(svg, "title", "", &id);
    make_id(svg, "desc", "", &id);
    buffer_finish(&id);
    buffer_add_text(out,
                    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                    "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" xml:lang=\"en\" width=\"");
    add_size(out, width, height);
    buffer_add_text(out, "\" role=\"img\" aria-labelledby=\"title desc\">\n<title id=\"title\">");
    svg_add_escaped(out, title);
    buffer_add_text(out, "</title>\n<desc id=\"desc\">");
    svg_add_escaped(out, desc);
    buffer_add_text(out, "</desc>\n");
}

void svg_begin_inside(SvgCanvas *svg, double width, double height, const char *prefix, const char *title,
                      Buffer *out) {
    begin_canvas(svg, width, height, prefix, out);
    Buffer id;
    buffer_init(&id);
    make_id(svg, "title", "", &id);
    buffer_add_text(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"");
    add_size(out, width, height);
    buffer_add_format(out, "\" role=\"img\" aria-labelledby=\"%s\">\n<title id=\"%s\">", id.data, id.data);
    svg_add_escaped(out, title);
    buffer_add_text(out, "</title>\n");
    buffer_finish(&id);
}

void svg_end(SvgCanvas *svg) {
    write_gathered(svg);
    buffer_add_text(svg->out, "</svg>\n");
    for (int i = 0; i < svg->ids.count; i++)
        mem_free(svg->ids.items[i]);
    mem_free(svg->ids.items);
    for (int kind = 0; kind < LINE_KIND_COUNT; kind++)
        buffer_finish(&svg->lines[kind]);
    buffer_finish(&svg->over);
    buffer_finish(&svg->group);
    canvas_finish(&svg->canvas);
}
