// A part of the font for a PDF: only the glyphs that were used, numbered anew in the order of their first
// use, without the instructions for screens.
#ifndef REBATO_SHEET_SUBSET_H
#define REBATO_SHEET_SUBSET_H

#include "base/buffer.h"
#include "sheet/font.h"

#define SUBSET_GLYPHS_MAX 2048

typedef struct Subset {
    bool bold;
    int count;                                // glyph 0, the box for missing ones, is always there once used
    unsigned short number[SUBSET_GLYPHS_MAX]; // of a glyph of the font, in the subset; 0 for none yet
    unsigned short glyphs[SUBSET_GLYPHS_MAX]; // of the subset, in the font
    uint32_t codes[SUBSET_GLYPHS_MAX];        // what each stands for; 0 for parts of others
} Subset;

void subset_init(Subset *subset, bool bold);

// The number in the subset of a code point's glyph; 0 when the font has none.
unsigned subset_take(Subset *subset, uint32_t code);

// A complete TrueType file. Takes in the parts of composite glyphs too.
void subset_write(Subset *subset, Buffer *out);

#endif
