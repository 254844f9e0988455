// The one font of the program, built into it: read and measured without asking the machine which fonts it
// has. Open Sans (Apache License 2.0), regular and semibold, from the distribution's font package at build
// time.
#ifndef REBATO_SHEET_FONT_H
#define REBATO_SHEET_FONT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct FontFile {
    const unsigned char *bytes;
    size_t length;
} FontFile;

FontFile font_file(bool bold);

// A table of the file ("glyf"); length 0 where there is none. Borrowed.
FontFile font_table(bool bold, const char *tag);

// Big-endian numbers, as TrueType keeps them.
static inline unsigned font_u16(const unsigned char *at) {
    return (unsigned)at[0] << 8 | at[1];
}
static inline int font_i16(const unsigned char *at) {
    return (int16_t)font_u16(at);
}
static inline uint32_t font_u32(const unsigned char *at) {
    return (uint32_t)font_u16(at) << 16 | font_u16(at + 2);
}

// The outline of a glyph as it stands in the file; length 0 for one without (a space).
FontFile font_outline(bool bold, unsigned glyph);

// True when every character of text has a shape in the font and none needs joining or reordering to be read.
bool font_covers(const char *text);

// The glyph of a code point, or 0.
unsigned font_glyph(bool bold, uint32_t code);

// Width of a glyph alone, and how much nearer or further the next one comes; parts of the em.
double font_glyph_width(bool bold, unsigned glyph);
double font_kerning(bool bold, unsigned left, unsigned right);

// How far the pen moves after code when next follows (0 for none), as a part of the em.
double font_advance(bool bold, uint32_t code, uint32_t next);

// Width of a text at an em of size, in the unit of size. Characters without a shape count as one en.
double font_width(bool bold, double size, const char *text);

#define FONT_CAP 0.714      // height of a capital, as a part of the em
#define FONT_MISSING_EM 0.5 // width given to a character without a shape
#define FONT_FAMILY "'Open Sans', 'DejaVu Sans', sans-serif"

#endif
