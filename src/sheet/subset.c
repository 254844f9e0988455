#include "sheet/subset.h"

#include <string.h>

// TrueType tables that a PDF needs (ISO 32000-1, 9.9): glyf, head, hhea, hmtx, loca, maxp. Glyphs are copied
// without their instructions, and the numbers inside composite glyphs are changed to those of the subset.

#define COMPOSITE_WORDS 0x0001u
#define COMPOSITE_SCALE 0x0008u
#define COMPOSITE_MORE 0x0020u
#define COMPOSITE_XY_SCALE 0x0040u
#define COMPOSITE_2X2 0x0080u
#define COMPOSITE_INSTRUCTIONS 0x0100u

void subset_init(Subset *subset, bool bold) {
    memset(subset, 0, sizeof *subset);
    subset->bold = bold;
    subset->count = 1;
}

static unsigned take_glyph(Subset *subset, unsigned glyph, uint32_t code) {
    if (glyph == 0 || glyph >= SUBSET_GLYPHS_MAX)
        return 0;
    if (subset->number[glyph] == 0 && subset->count < SUBSET_GLYPHS_MAX) {
        subset->number[glyph] = (unsigned short)subset->count;
        subset->glyphs[subset->count++] = (unsigned short)glyph;
    }
    unsigned number = subset->number[glyph];
    if (subset->codes[number] == 0)
        subset->codes[number] = code;
    return number;
}

unsigned subset_take(Subset *subset, uint32_t code) {
    return take_glyph(subset, font_glyph(subset->bold, code), code);
}

static void add_u16(Buffer *out, unsigned value) {
    unsigned char bytes[2] = {(unsigned char)(value >> 8), (unsigned char)value};
    buffer_add(out, bytes, 2);
}

static void add_u32(Buffer *out, uint32_t value) {
    add_u16(out, value >> 16);
    add_u16(out, value & 0xffff);
}

static void put_u16(char *at, unsigned value) {
    at[0] = (char)(value >> 8);
    at[1] = (char)value;
}

static void put_u32(char *at, uint32_t value) {
    put_u16(at, value >> 16);
    put_u16(at + 2, value & 0xffff);
}

static size_t component_length(unsigned flags) {
    size_t length = 4 + (flags & COMPOSITE_WORDS ? 4 : 2);
    if (flags & COMPOSITE_SCALE)
        length += 2;
    else if (flags & COMPOSITE_XY_SCALE)
        length += 4;
    else if (flags & COMPOSITE_2X2)
        length += 8;
    return length;
}

static void add_composite(Subset *subset, FontFile outline, Buffer *glyf) {
    const unsigned char *at = outline.bytes + 10;
    buffer_add(glyf, outline.bytes, 10);
    unsigned flags;
    do {
        flags = font_u16(at);
        size_t length = component_length(flags);
        add_u16(glyf, flags & ~COMPOSITE_INSTRUCTIONS);
        add_u16(glyf, take_glyph(subset, font_u16(at + 2), 0));
        buffer_add(glyf, at + 4, length - 4);
        at += length;
    } while (flags & COMPOSITE_MORE);
}

static void add_outline(Subset *subset, unsigned glyph, Buffer *glyf) {
    FontFile outline = font_outline(subset->bold, glyph);
    if (outline.length < 10)
        return;
    int contours = font_i16(outline.bytes);
    if (contours < 0) {
        add_composite(subset, outline, glyf);
    } else {
        // Header, ends of contours, then a count of instructions: the count becomes 0.
        size_t head = 10 + 2 * (size_t)contours, skip = head + 2 + font_u16(outline.bytes + head);
        buffer_add(glyf, outline.bytes, head);
        add_u16(glyf, 0);
        buffer_add(glyf, outline.bytes + skip, outline.length - skip);
    }
    while (glyf->length % 4 != 0)
        buffer_add_char(glyf, '\0');
}

static uint32_t checksum(const char *bytes, size_t length) {
    uint32_t sum = 0;
    for (size_t i = 0; i < length; i++)
        sum += (uint32_t)(unsigned char)bytes[i] << (24 - 8 * (i % 4));
    return sum;
}

enum { GLYF, HEAD, HHEA, HMTX, LOCA, MAXP, TABLES };

void subset_write(Subset *subset, Buffer *out) {
    static const char *const tags[TABLES] = {"glyf", "head", "hhea", "hmtx", "loca", "maxp"};
    Buffer tables[TABLES];
    for (int i = 0; i < TABLES; i++)
        buffer_init(&tables[i]);
    // The list grows while composites are copied.
    for (int i = 0; i < subset->count; i++) {
        add_u32(&tables[LOCA], (uint32_t)tables[GLYF].length);
        add_outline(subset, subset->glyphs[i], &tables[GLYF]);
    }
    add_u32(&tables[LOCA], (uint32_t)tables[GLYF].length);
    FontFile hmtx = font_table(subset->bold, "hmtx"), hhea = font_table(subset->bold, "hhea");
    unsigned metrics = font_u16(hhea.bytes + 34);
    for (int i = 0; i < subset->count; i++) {
        unsigned glyph = subset->glyphs[i];
        unsigned bearing = glyph < metrics ? font_u16(hmtx.bytes + 4 * glyph + 2)
                                           : font_u16(hmtx.bytes + 4 * metrics + 2 * (glyph - metrics));
        add_u16(&tables[HMTX], font_u16(hmtx.bytes + 4 * (glyph < metrics ? glyph : metrics - 1)));
        add_u16(&tables[HMTX], bearing);
    }
    FontFile head = font_table(subset->bold, "head"), maxp = font_table(subset->bold, "maxp");
    buffer_add(&tables[HEAD], head.bytes, head.length);
    buffer_add(&tables[HHEA], hhea.bytes, hhea.length);
    buffer_add(&tables[MAXP], maxp.bytes, maxp.length);
    put_u32(tables[HEAD].data + 8, 0);  // sum of the file, filled in below
    put_u16(tables[HEAD].data + 50, 1); // long offsets
    put_u16(tables[HHEA].data + 34, (unsigned)subset->count);
    put_u16(tables[MAXP].data + 4, (unsigned)subset->count);
    put_u16(tables[MAXP].data + 26, 0); // no instructions

    size_t start = out->length, head_at = 0;
    add_u32(out, 0x00010000);
    add_u16(out, TABLES);
    add_u16(out, 64); // 16 times the largest power of 2 in TABLES, its exponent, and the rest
    add_u16(out, 2);
    add_u16(out, TABLES * 16 - 64);
    size_t offset = 12 + 16 * TABLES;
    for (int i = 0; i < TABLES; i++) {
        buffer_add(out, tags[i], 4);
        add_u32(out, checksum(tables[i].data, tables[i].length));
        add_u32(out, (uint32_t)offset);
        add_u32(out, (uint32_t)tables[i].length);
        if (i == HEAD)
            head_at = start + offset;
        offset += (tables[i].length + 3) / 4 * 4;
    }
    for (int i = 0; i < TABLES; i++) {
        buffer_add(out, tables[i].data, tables[i].length);
        while ((out->length - start) % 4 != 0)
            buffer_add_char(out, '\0');
        buffer_finish(&tables[i]);
    }
    put_u32(out->data + head_at + 8, 0xb1b0afba - checksum(out->data + start, out->length - start));
}
