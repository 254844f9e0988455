#include "sheet/pdf.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "sheet/font.h"
#include "sheet/number_text.h"
#include "sheet/pdf_file.h"
#include "sheet/shaping.h"

// The content of a page. Its first line makes one unit a millimetre and turns y downward, so that everything
// after it is written in millimetres of paper to 0.001 mm. Colours, widths and dashes are written only when
// they change; what a q (save) hides is forgotten at its Q (restore).

static Buffer *content(PdfCanvas *pdf) {
    return &pdf->pages.items[pdf->pages.count - 1].content;
}

static void forget_state(PdfCanvas *pdf) {
    pdf->line = pdf->fill_shade = pdf->fill_text = -1;
}

static void add_number(Buffer *out, double value) {
    number_text_add(out, value, 3);
    buffer_add_char(out, ' ');
}

static void add_point(Buffer *out, Point p) {
    add_number(out, p.x);
    add_number(out, p.y);
}

static void add_colour(Buffer *out, Colour colour, const char *operator) {
    add_number(out, colour.red);
    add_number(out, colour.green);
    add_number(out, colour.blue);
    buffer_add_text(out, operator);
}

static void add_pen(Buffer *out, const Pen *pen) {
    for (int i = 0; i < pen->count; i++) {
        const PenStep *step = &pen->items[i];
        switch (step->move) {
        case PEN_MOVE:
            add_point(out, step->to);
            buffer_add(out, "m\n", 2);
            break;
        case PEN_LINE:
            add_point(out, step->to);
            buffer_add(out, "l\n", 2);
            break;
        case PEN_CURVE:
            add_point(out, step->from_handle);
            add_point(out, step->to_handle);
            add_point(out, step->to);
            buffer_add(out, "c\n", 2);
            break;
        case PEN_CLOSE:
            buffer_add(out, "h\n", 2);
            break;
        }
    }
}

static void set_line(PdfCanvas *pdf, LineKind kind) {
    if (pdf->line == (int)kind)
        return;
    Buffer *out = content(pdf);
    const LineStyle *style = line_style(kind);
    add_colour(out, style->colour, "RG ");
    add_number(out, style->width);
    buffer_add_text(out, style->round ? "w 1 J 1 j [" : "w 0 J 0 j [");
    for (int i = 0; i < DASH_PARTS_MAX && style->dash[i] > 0; i++)
        add_number(out, style->dash[i]);
    buffer_add_text(out, "] 0 d\n");
    pdf->line = (int)kind;
}

static void pdf_stroke(Canvas *canvas, const Pen *pen, LineKind kind) {
    PdfCanvas *pdf = (PdfCanvas *)canvas;
    set_line(pdf, kind);
    add_pen(content(pdf), pen);
    buffer_add_text(content(pdf), "S\n");
}

static void pdf_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    PdfCanvas *pdf = (PdfCanvas *)canvas;
    Buffer *out = content(pdf);
    if (pdf->fill_shade != (int)shade)
        add_colour(out, shade_colour(shade), "rg\n");
    pdf->fill_shade = (int)shade;
    pdf->fill_text = -1;
    add_pen(out, pen);
    buffer_add_text(out, "f\n");
}

static void set_text_colour(PdfCanvas *pdf, TextKind kind) {
    if (pdf->fill_text != (int)kind)
        add_colour(content(pdf), text_style(kind)->colour, "rg\n");
    pdf->fill_text = (int)kind;
    pdf->fill_shade = -1;
}

// Glyphs as numbers of the subset, two bytes each in hexadecimal; where two are kerned the string is broken
// by the distance, in thousandths of the em, by which the second one moves to the left.
static void add_glyphs(PdfCanvas *pdf, bool bold, const char *text) {
    static const char hex[] = "0123456789abcdef";
    Buffer *out = content(pdf);
    buffer_add_text(out, "[<");
    uint32_t code = text_next(&text);
    while (code != 0) {
        uint32_t next = text_next(&text);
        unsigned glyph = subset_take(&pdf->fonts[bold], code);
        const char digits[4] = {hex[glyph >> 12], hex[glyph >> 8 & 15], hex[glyph >> 4 & 15],
                                hex[glyph & 15]};
        buffer_add(out, digits, 4);
        double kern = next != 0 ? font_kerning(bold, font_glyph(bold, code), font_glyph(bold, next)) : 0;
        if (kern != 0) {
            buffer_add_char(out, '>');
            number_text_add(out, -kern * 1000, 1);
            buffer_add_char(out, '<');
        }
        code = next;
    }
    buffer_add_text(out, ">] TJ ET\n");
}

// Outlines in place of letters the font lacks, with what they say beside them for whoever searches or
// listens.
static bool draw_outlines(PdfCanvas *pdf, const TextRun *run) {
    Pen pen = {.items = NULL};
    bool there = shaping_outline(run, &pen);
    if (there) {
        Buffer *out = content(pdf);
        set_text_colour(pdf, run->kind);
        buffer_add_text(out, "/Span << /ActualText ");
        pdf_add_text(out, run->text);
        buffer_add_text(out, " >> BDC\n");
        add_pen(out, &pen);
        buffer_add_text(out, "f\n");
        // Readers hang what is said on letters, not on outlines: one space, not painted (mode 3).
        unsigned space = subset_take(&pdf->fonts[0], ' ');
        buffer_add_text(out, "BT /R ");
        add_number(out, run->size);
        buffer_add_text(out, "Tf 3 Tr 1 0 0 -1 ");
        add_point(out, run->at);
        buffer_add_format(out, "Tm <%04x> Tj 0 Tr ET\nEMC\n", space);
    }
    mem_free(pen.items);
    return there;
}

static void pdf_text(Canvas *canvas, const TextRun *run) {
    PdfCanvas *pdf = (PdfCanvas *)canvas;
    bool bold = text_style(run->kind)->bold;
    if (!font_covers(run->text) && draw_outlines(pdf, run))
        return;
    set_text_colour(pdf, run->kind);
    Buffer *out = content(pdf);
    double back = run->align == ALIGN_LEFT ? 0 : run->align == ALIGN_MIDDLE ? run->width / 2 : run->width;
    double c = cos(RADIANS(run->degrees)), s = sin(RADIANS(run->degrees));
    buffer_add_text(out, bold ? "BT /B " : "BT /R ");
    add_number(out, run->size);
    buffer_add_text(out, "Tf ");
    // x along the text, y up from it; the page has y down.
    number_text_add(out, c, 6);
    buffer_add_char(out, ' ');
    number_text_add(out, -s, 6);
    buffer_add_char(out, ' ');
    number_text_add(out, -s, 6);
    buffer_add_char(out, ' ');
    number_text_add(out, -c, 6);
    buffer_add_char(out, ' ');
    add_point(out, point(run->at.x - back * c, run->at.y + back * s));
    buffer_add_text(out, "Tm ");
    add_glyphs(pdf, bold, run->text);
}

static void pdf_group(Canvas *canvas, const char *kind, const char *name) {
    (void)canvas; // a page has no named groups
    (void)kind;
    (void)name;
}

static void pdf_clip(Canvas *canvas, Box box) {
    PdfCanvas *pdf = (PdfCanvas *)canvas;
    Buffer *out = content(pdf);
    if (pdf->clipped)
        buffer_add_text(out, "Q\n");
    forget_state(pdf);
    pdf->clipped = !box_is_empty(box);
    if (!pdf->clipped)
        return;
    buffer_add_text(out, "q ");
    add_point(out, box.least);
    add_point(out, point_sub(box.most, box.least));
    buffer_add_text(out, "re W n\n");
}

static const CanvasBackend backend = {pdf_stroke, pdf_fill, pdf_text, pdf_group, pdf_clip};

void pdf_begin(PdfCanvas *pdf) {
    *pdf = (PdfCanvas){.clipped = false};
    canvas_init(&pdf->canvas, &backend, 0, 0);
    subset_init(&pdf->fonts[0], false);
    subset_init(&pdf->fonts[1], true);
}

void pdf_page(PdfCanvas *pdf, double width, double height, const char *label) {
    if (pdf->clipped)
        canvas_unclip(&pdf->canvas);
    PdfPage page = {.width = width, .height = height};
    snprintf(page.label, sizeof page.label, "%s", label != NULL ? label : "");
    buffer_init(&page.content);
    ARRAY_ADD(&pdf->pages, page);
    forget_state(pdf);
    Buffer *out = content(pdf);
    number_text_add(out, PDF_UNITS_PER_MM, 6);
    buffer_add_text(out, " 0 0 -");
    number_text_add(out, PDF_UNITS_PER_MM, 6);
    buffer_add_text(out, " 0 ");
    number_text_add(out, height * PDF_UNITS_PER_MM, 5);
    buffer_add_text(out, " cm\n");
    pdf->canvas.window = (Box){{0, 0}, {width, height}};
    canvas_paper(&pdf->canvas);
}

void pdf_end(PdfCanvas *pdf, const char *title, const char *subject, Buffer *out) {
    if (pdf->clipped)
        canvas_unclip(&pdf->canvas);
    pdf_write_file(pdf, title, subject, out);
    for (int i = 0; i < pdf->pages.count; i++)
        buffer_finish(&pdf->pages.items[i].content);
    mem_free(pdf->pages.items);
    canvas_finish(&pdf->canvas);
}
