// The one font of the program, built into it: opened by FreeType and measured without asking the machine
// which fonts it has. Open Sans, regular and semibold, from the distribution's font package at build time;
// the font's licence is the Apache License 2.0.
#ifndef REBATO_SHEET_FONT_H
#define REBATO_SHEET_FONT_H

#include <ft2build.h>
#include FT_FREETYPE_H
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

// Opened at first use and kept until the program ends. Never NULL: the font is part of the program.
FT_Face font_face(bool bold);

// True when every character of text has a shape in the font and none needs joining or reordering to be read.
bool font_covers(const char *text);

// The glyph of a code point, or 0.
unsigned font_glyph(bool bold, uint32_t code);

// How far the pen moves after code when next follows (0 for none), kerning included, as a part of the em.
double font_advance(bool bold, uint32_t code, uint32_t next);

// Width of a text at an em of size, in the unit of size. Characters without a shape count as one en.
double font_width(bool bold, double size, const char *text);

// The bytes of the font's files: regular, semibold, and italic, which only running text uses. NULL past the
// last.
const unsigned char *font_file(int index, size_t *length);

#define FONT_CAP 0.714      // height of a capital, as a part of the em
#define FONT_MISSING_EM 0.5 // width given to a character without a shape
#define FONT_FAMILY "'Open Sans', 'DejaVu Sans', sans-serif"

#endif
