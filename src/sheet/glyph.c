#include "sheet/glyph.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "sheet/font.h"

// A TrueType outline (ISO/IEC 14496-22, glyf): closed contours of points, some on the curve, some handles of
// quadratic curves; between two handles lies a point on the curve, halfway. A composite glyph is made of
// others, moved.

#define ON_CURVE 0x01u
#define X_BYTE 0x02u
#define Y_BYTE 0x04u
#define REPEAT 0x08u
#define X_SAME 0x10u
#define Y_SAME 0x20u

#define COMPOSITE_WORDS 0x0001u
#define COMPOSITE_XY 0x0002u
#define COMPOSITE_SCALE 0x0008u
#define COMPOSITE_MORE 0x0020u
#define COMPOSITE_XY_SCALE 0x0040u
#define COMPOSITE_2X2 0x0080u

#define POINTS_MAX 512
#define DEPTH_MAX 4

typedef struct Dots {
    int count;
    bool on[POINTS_MAX];
    Point at[POINTS_MAX];
} Dots;

// A quadratic with the handle h is the cubic with handles 2/3 of the way from each end to h.
static void add_curve(Pen *pen, Point from, Point handle, Point to) {
    ARRAY_ADD(pen, ((PenStep){.move = PEN_CURVE,
                              .from_handle = point_mix(from, handle, 2 / 3.0),
                              .to_handle = point_mix(to, handle, 2 / 3.0),
                              .to = to}));
}

static void add_contour(Pen *pen, const Dots *dots, int first, int last) {
    int count = last - first + 1;
    if (count < 2)
        return;
    int start = 0;
    while (start < count && !dots->on[first + start])
        start++;
    Point at = start < count ? dots->at[first + start] : point_mix(dots->at[first], dots->at[last], 0.5);
    if (start == count)
        start = count - 1;
    Point begin = at, handle = at;
    bool waiting = false;
    ARRAY_ADD(pen, ((PenStep){.move = PEN_MOVE, .to = at}));
    for (int i = 1; i <= count; i++) {
        int k = first + (start + i) % count;
        Point p = dots->at[k];
        if (dots->on[k] && !waiting)
            ARRAY_ADD(pen, ((PenStep){.move = PEN_LINE, .to = p}));
        else if (dots->on[k])
            add_curve(pen, at, handle, p);
        else if (waiting) {
            Point middle = point_mix(handle, p, 0.5);
            add_curve(pen, at, handle, middle);
            at = middle;
        }
        waiting = !dots->on[k];
        if (waiting)
            handle = p;
        else
            at = p;
    }
    if (waiting)
        add_curve(pen, at, handle, begin);
    ARRAY_ADD(pen, ((PenStep){.move = PEN_CLOSE}));
}

static const unsigned char *read_coordinates(const unsigned char *at, const unsigned char *flags, int count,
                                             unsigned byte, unsigned same, double *out) {
    int value = 0;
    for (int i = 0; i < count; i++) {
        if (flags[i] & byte)
            value += flags[i] & same ? *at++ : -*at++;
        else if (!(flags[i] & same)) {
            value += font_i16(at);
            at += 2;
        }
        out[i] = value;
    }
    return at;
}

static void add_simple(FontFile outline, int contours, Affine place, Pen *pen) {
    static unsigned char flags[POINTS_MAX];
    static double x[POINTS_MAX], y[POINTS_MAX];
    static Dots dots;
    const unsigned char *ends = outline.bytes + 10, *at = ends + 2 * contours;
    at += 2 + font_u16(at);
    dots.count = (int)font_u16(ends + 2 * (contours - 1)) + 1;
    if (dots.count > POINTS_MAX)
        return;
    for (int i = 0; i < dots.count;) {
        unsigned char flag = *at++;
        int times = flag & REPEAT ? 1 + *at++ : 1;
        while (times-- > 0 && i < dots.count)
            flags[i++] = flag;
    }
    at = read_coordinates(at, flags, dots.count, X_BYTE, X_SAME, x);
    read_coordinates(at, flags, dots.count, Y_BYTE, Y_SAME, y);
    for (int i = 0; i < dots.count; i++) {
        dots.on[i] = flags[i] & ON_CURVE;
        dots.at[i] = affine_point(place, point(x[i], y[i]));
    }
    for (int c = 0, first = 0; c < contours; c++) {
        int last = (int)font_u16(ends + 2 * c);
        add_contour(pen, &dots, first, last);
        first = last + 1;
    }
}

static double f2dot14(const unsigned char *at) {
    return font_i16(at) / 16384.0;
}

static void add_glyph(bool bold, unsigned glyph, Affine place, int depth, Pen *pen) {
    FontFile outline = font_outline(bold, glyph);
    if (outline.length < 10 || depth > DEPTH_MAX)
        return;
    int contours = font_i16(outline.bytes);
    if (contours > 0)
        add_simple(outline, contours, place, pen);
    if (contours >= 0)
        return;
    const unsigned char *at = outline.bytes + 10;
    unsigned flags;
    do {
        flags = font_u16(at);
        unsigned part = font_u16(at + 2);
        at += 4;
        Affine move = affine_identity();
        bool words = flags & COMPOSITE_WORDS;
        if (flags & COMPOSITE_XY) {
            move.e = words ? font_i16(at) : (signed char)at[0];
            move.f = words ? font_i16(at + 2) : (signed char)at[1];
        }
        at += words ? 4 : 2;
        if (flags & COMPOSITE_SCALE) {
            move.a = move.d = f2dot14(at);
            at += 2;
        } else if (flags & COMPOSITE_XY_SCALE) {
            move.a = f2dot14(at);
            move.d = f2dot14(at + 2);
            at += 4;
        } else if (flags & COMPOSITE_2X2) {
            move.a = f2dot14(at);
            move.b = f2dot14(at + 2);
            move.c = f2dot14(at + 4);
            move.d = f2dot14(at + 6);
            at += 8;
        }
        add_glyph(bold, part, affine_then(move, place), depth + 1, pen);
    } while (flags & COMPOSITE_MORE);
}

void glyph_add_text(const TextRun *run, Pen *pen) {
    bool bold = text_style(run->kind)->bold;
    double em = font_u16(font_table(bold, "head").bytes + 18);
    double back = run->align == ALIGN_LEFT ? 0 : run->align == ALIGN_MIDDLE ? run->width / 2 : run->width;
    double c = cos(RADIANS(run->degrees)), s = sin(RADIANS(run->degrees)), k = run->size / em;
    double along = -back;
    const char *text = run->text;
    uint32_t code = text_next(&text);
    while (code != 0) {
        uint32_t next = text_next(&text);
        Affine place = {.a = c * k,
                        .b = -s * k,
                        .c = -s * k,
                        .d = -c * k,
                        .e = run->at.x + along * c,
                        .f = run->at.y - along * s};
        add_glyph(bold, font_glyph(bold, code), place, 0, pen);
        along += font_advance(bold, code, next) * run->size;
        code = next;
    }
}
