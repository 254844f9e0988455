// The one font of the program, built into it: measured and opened without asking the machine which fonts it
// has. Open Sans (Apache License 2.0), regular and semibold, from the distribution's font package at build
// time.
#ifndef REBATO_SHEET_FONT_H
#define REBATO_SHEET_FONT_H

#include <ft2build.h>
#include FT_FREETYPE_H
#include <stdbool.h>
#include <stdint.h>

// A FreeType face, opened at first use and kept until font_close. Never NULL: the font is part of the
// program.
FT_Face font_face(bool bold);

// Closes what font_face opened. Whatever draws with the faces must be gone by then.
void font_close(void);

// True when every character of text has a shape in the font and none needs joining or reordering to be read.
bool font_covers(const char *text);

// The glyph of a code point, or 0.
uint32_t font_glyph(bool bold, uint32_t code);

// How far the pen moves after code when next follows (0 for none), as a part of the em; kerning included.
double font_advance(bool bold, uint32_t code, uint32_t next);

// Width of a text at an em of size, in the unit of size. Characters without a shape count as one en.
double font_width(bool bold, double size, const char *text);

#define FONT_CAP 0.714 // height of a capital, as a part of the em
#define FONT_FAMILY "'Open Sans', 'DejaVu Sans', sans-serif"

#endif
