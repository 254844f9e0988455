#include "sheet/font.h"

#include FT_ADVANCES_H
#include <assert.h>
#include <stddef.h>

#include "base/text.h"

// The bytes of the font files, taken in by the assembler from the paths meson found.
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
TAKE_IN(rebato_font_italic, FONT_ITALIC_PATH);

extern const unsigned char rebato_font_regular[], rebato_font_regular_end[];
extern const unsigned char rebato_font_bold[], rebato_font_bold_end[];
extern const unsigned char rebato_font_italic[], rebato_font_italic_end[];

// What is asked again and again is kept: letters of Latin scripts, and pairs lately kerned.
#define KEPT_LETTERS 512
#define KEPT_PAIRS 2048

typedef struct Letter {
    bool known;
    unsigned glyph;
    double width; // as a part of the em
} Letter;

typedef struct Face {
    FT_Face face;
    Letter letters[KEPT_LETTERS];
    struct {
        unsigned left, right; // glyphs
        double kern;
    } pairs[KEPT_PAIRS];
} Face;

static FT_Library library;
static Face faces[2];

static Face *face_ready(bool bold) {
    Face *f = &faces[bold];
    if (f->face != NULL)
        return f;
    FT_Error error = library == NULL ? FT_Init_FreeType(&library) : 0;
    assert(error == 0);
    const unsigned char *from = bold ? rebato_font_bold : rebato_font_regular;
    const unsigned char *to = bold ? rebato_font_bold_end : rebato_font_regular_end;
    error = FT_New_Memory_Face(library, from, (FT_Long)(to - from), 0, &f->face);
    assert(error == 0);
    (void)error;
    return f;
}

FT_Face font_face(bool bold) {
    return face_ready(bold)->face;
}

static Letter letter_read(FT_Face face, uint32_t code) {
    Letter letter = {.known = true, .glyph = FT_Get_Char_Index(face, code)};
    FT_Fixed advance = 0;
    if (letter.glyph != 0 && FT_Get_Advance(face, letter.glyph, FT_LOAD_NO_SCALE, &advance) == 0)
        letter.width = (double)advance / face->units_per_EM;
    else
        letter.width = FONT_MISSING_EM;
    return letter;
}

static Letter find_letter(Face *f, uint32_t code) {
    if (code >= KEPT_LETTERS)
        return letter_read(f->face, code);
    if (!f->letters[code].known)
        f->letters[code] = letter_read(f->face, code);
    return f->letters[code];
}

// Glyph 0 is kerned with nothing, so that an empty place of the table says the right thing.
static double find_kern(Face *f, unsigned left, unsigned right) {
    unsigned at = (left * 31 + right) % KEPT_PAIRS;
    if (f->pairs[at].left == left && f->pairs[at].right == right)
        return f->pairs[at].kern;
    FT_Vector kern = {0, 0};
    if (FT_Get_Kerning(f->face, left, right, FT_KERNING_UNSCALED, &kern) != 0)
        kern.x = 0;
    f->pairs[at].left = left;
    f->pairs[at].right = right;
    f->pairs[at].kern = (double)kern.x / f->face->units_per_EM;
    return f->pairs[at].kern;
}

unsigned font_glyph(bool bold, uint32_t code) {
    return find_letter(face_ready(bold), code).glyph;
}

double font_advance(bool bold, uint32_t code, uint32_t next) {
    Face *f = face_ready(bold);
    Letter letter = find_letter(f, code);
    if (letter.glyph == 0 || next == 0)
        return letter.width;
    return letter.width + find_kern(f, letter.glyph, find_letter(f, next).glyph);
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

const unsigned char *font_file(int index, size_t *length) {
    static const unsigned char *const files[][2] = {{rebato_font_regular, rebato_font_regular_end},
                                                    {rebato_font_bold, rebato_font_bold_end},
                                                    {rebato_font_italic, rebato_font_italic_end}};
    if (index < 0 || index >= (int)(sizeof files / sizeof *files))
        return NULL;
    *length = (size_t)(files[index][1] - files[index][0]);
    return files[index][0];
}
