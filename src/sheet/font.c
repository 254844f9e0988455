#include "sheet/font.h"

#include <assert.h>
#include <string.h>

#include "base/text.h"

// The bytes of the two font files, taken in by the assembler from the paths meson found. Both are TrueType
// (ISO/IEC 14496-22): tables named by four letters, all numbers big-endian. The files come from the build, so
// they are trusted.
#define TAKE_IN(label, path)                          \
    __asm__(".section .rodata\n"                      \
            ".balign 16\n"                            \
            ".global " #label "\n"                    \
            ".hidden " #label "\n"                    \
            ".global " #label "_end\n"                \
            ".hidden " #label "_end\n" #label ":\n"   \
            ".incbin \"" path "\"\n" #label "_end:\n" \
            ".byte 0\n"                               \
            ".previous\n")
TAKE_IN(rebato_font_regular, FONT_REGULAR_PATH);
TAKE_IN(rebato_font_bold, FONT_BOLD_PATH);

extern const unsigned char rebato_font_regular[], rebato_font_regular_end[];
extern const unsigned char rebato_font_bold[], rebato_font_bold_end[];

// What is asked again and again is kept: glyphs of Latin letters, and pairs lately kerned.
#define KEPT_GLYPHS 512
#define KEPT_PAIRS 2048

typedef struct Face {
    bool ready;
    const unsigned char *map; // the cmap subtable of format 4
    const unsigned char *kern;
    unsigned kern_pairs;
    FontFile hmtx, loca, glyf;
    unsigned metrics, glyphs; // metrics: of hmtx, the last width serves all glyphs after it
    bool long_loca;
    double em;
    unsigned short kept_glyphs[KEPT_GLYPHS]; // glyph + 1
    struct {
        uint32_t pair;
        float kern;
    } kept_pairs[KEPT_PAIRS];
} Face;

static Face faces[2];

FontFile font_file(bool bold) {
    const unsigned char *from = bold ? rebato_font_bold : rebato_font_regular;
    const unsigned char *to = bold ? rebato_font_bold_end : rebato_font_regular_end;
    return (FontFile){from, (size_t)(to - from)};
}

FontFile font_table(bool bold, const char *tag) {
    FontFile file = font_file(bold);
    unsigned count = font_u16(file.bytes + 4);
    for (unsigned i = 0; i < count; i++) {
        const unsigned char *entry = file.bytes + 12 + 16 * i;
        if (memcmp(entry, tag, 4) == 0)
            return (FontFile){file.bytes + font_u32(entry + 8), font_u32(entry + 12)};
    }
    return (FontFile){NULL, 0};
}

static void face_open(Face *f, bool bold) {
    FontFile cmap = font_table(bold, "cmap"), kern = font_table(bold, "kern");
    for (unsigned i = 0; i < font_u16(cmap.bytes + 2); i++) {
        const unsigned char *entry = cmap.bytes + 4 + 8 * i, *map = cmap.bytes + font_u32(entry + 4);
        if (font_u16(entry) == 3 && font_u16(entry + 2) == 1 && font_u16(map) == 4)
            f->map = map;
    }
    if (kern.length > 18 && font_u16(kern.bytes) == 0 && (font_u16(kern.bytes + 8) >> 8) == 0) {
        f->kern = kern.bytes + 18;
        f->kern_pairs = font_u16(kern.bytes + 10);
    }
    f->hmtx = font_table(bold, "hmtx");
    f->loca = font_table(bold, "loca");
    f->glyf = font_table(bold, "glyf");
    f->metrics = font_u16(font_table(bold, "hhea").bytes + 34);
    f->glyphs = font_u16(font_table(bold, "maxp").bytes + 4);
    f->long_loca = font_u16(font_table(bold, "head").bytes + 50) == 1;
    f->em = font_u16(font_table(bold, "head").bytes + 18);
    f->ready = true;
    assert(f->map != NULL && f->glyf.length > 0);
}

static inline Face *face_ready(bool bold) {
    if (!faces[bold].ready)
        face_open(&faces[bold], bold);
    return &faces[bold];
}

FontFile font_outline(bool bold, unsigned glyph) {
    const Face *f = face_ready(bold);
    if (glyph >= f->glyphs)
        return (FontFile){NULL, 0};
    size_t from, to;
    if (f->long_loca) {
        from = font_u32(f->loca.bytes + 4 * glyph);
        to = font_u32(f->loca.bytes + 4 * glyph + 4);
    } else {
        from = 2 * (size_t)font_u16(f->loca.bytes + 2 * glyph);
        to = 2 * (size_t)font_u16(f->loca.bytes + 2 * glyph + 2);
    }
    return (FontFile){f->glyf.bytes + from, to - from};
}

// Format 4: code points in runs (start, end, delta, offset), sorted by their ends.
static unsigned find_glyph(const unsigned char *map, uint32_t code) {
    if (code > 0xffff)
        return 0;
    unsigned runs = font_u16(map + 6) / 2, low = 0, high = runs;
    const unsigned char *ends = map + 14, *starts = ends + 2 * runs + 2, *deltas = starts + 2 * runs;
    const unsigned char *offsets = deltas + 2 * runs;
    while (low < high) {
        unsigned middle = (low + high) / 2;
        if (font_u16(ends + 2 * middle) < code)
            low = middle + 1;
        else
            high = middle;
    }
    if (low == runs || font_u16(starts + 2 * low) > code)
        return 0;
    unsigned offset = font_u16(offsets + 2 * low), delta = font_u16(deltas + 2 * low);
    if (offset == 0)
        return (code + delta) & 0xffff;
    unsigned glyph = font_u16(offsets + 2 * low + offset + 2 * (code - font_u16(starts + 2 * low)));
    return glyph == 0 ? 0 : (glyph + delta) & 0xffff;
}

unsigned font_glyph(bool bold, uint32_t code) {
    Face *f = face_ready(bold);
    if (code >= KEPT_GLYPHS)
        return find_glyph(f->map, code);
    if (f->kept_glyphs[code] == 0)
        f->kept_glyphs[code] = (unsigned short)(find_glyph(f->map, code) + 1);
    return f->kept_glyphs[code] - 1u;
}

double font_glyph_width(bool bold, unsigned glyph) {
    const Face *f = face_ready(bold);
    unsigned at = glyph < f->metrics ? glyph : f->metrics - 1;
    return font_u16(f->hmtx.bytes + 4 * at) / f->em;
}

// Format 0: pairs (left, right, value), sorted.
static double find_kerning(const Face *f, uint32_t wanted) {
    unsigned low = 0, high = f->kern_pairs;
    while (low < high) {
        unsigned middle = (low + high) / 2;
        uint32_t pair = font_u32(f->kern + 6 * middle);
        if (pair == wanted)
            return font_i16(f->kern + 6 * middle + 4) / f->em;
        if (pair < wanted)
            low = middle + 1;
        else
            high = middle;
    }
    return 0;
}

double font_kerning(bool bold, unsigned left, unsigned right) {
    Face *f = face_ready(bold);
    uint32_t pair = (uint32_t)left << 16 | right;
    unsigned at = (left * 31 + right) % KEPT_PAIRS;
    if (f->kept_pairs[at].pair != pair) {
        f->kept_pairs[at].pair = pair;
        f->kept_pairs[at].kern = (float)find_kerning(f, pair);
    }
    return f->kept_pairs[at].kern;
}

static bool needs_shaping(uint32_t code) {
    return (code >= 0x0300 && code <= 0x036f)    // marks that sit on the letter before
           || (code >= 0x0590 && code <= 0x10ff) // right to left, and scripts of South and South-East Asia
           || (code >= 0x1780 && code <= 0x18af) || (code >= 0xfb1d && code <= 0xfdff) ||
           (code >= 0xfe70 && code <= 0xfefc);
}

bool font_covers(const char *text) {
    for (const char *at = text; *at != '\0';) {
        uint32_t code = text_next(&at);
        if (code >= 0x7f && (needs_shaping(code) || font_glyph(false, code) == 0))
            return false;
    }
    return true;
}

double font_advance(bool bold, uint32_t code, uint32_t next) {
    unsigned glyph = font_glyph(bold, code);
    if (glyph == 0)
        return FONT_MISSING_EM;
    double kern = next != 0 ? font_kerning(bold, glyph, font_glyph(bold, next)) : 0;
    return font_glyph_width(bold, glyph) + kern;
}

double font_width(bool bold, double size, const char *text) {
    double width = 0;
    uint32_t code = text_next(&text);
    while (code != 0) {
        uint32_t next = text_next(&text);
        width += font_advance(bold, code, next);
        code = next;
    }
    return width * size;
}
