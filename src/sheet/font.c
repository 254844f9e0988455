#include "sheet/font.h"

#include <assert.h>
#include <stddef.h>

#include "base/text.h"

// The bytes of the two font files, taken in by the assembler from the paths meson found.
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

// Latin text is measured again and again: its glyphs and advances are kept.
#define KEPT 384
typedef struct Face {
    FT_Face face;
    struct {
        bool known;
        uint32_t glyph;
        double advance;
    } kept[KEPT];
} Face;

static FT_Library library;
static Face faces[2];

FT_Face font_face(bool bold) {
    Face *f = &faces[bold];
    if (f->face != NULL)
        return f->face;
    FT_Error error = library == NULL ? FT_Init_FreeType(&library) : 0;
    assert(error == 0);
    const unsigned char *from = bold ? rebato_font_bold : rebato_font_regular;
    const unsigned char *to = bold ? rebato_font_bold_end : rebato_font_regular_end;
    error = FT_New_Memory_Face(library, from, (FT_Long)(to - from), 0, &f->face);
    assert(error == 0);
    (void)error;
    return f->face;
}

void font_close(void) {
    for (int i = 0; i < 2; i++) {
        if (faces[i].face != NULL)
            FT_Done_Face(faces[i].face);
        faces[i] = (Face){.face = NULL};
    }
    if (library != NULL)
        FT_Done_FreeType(library);
    library = NULL;
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
        if (code < 0x20 || (code >= 0x20 && code < 0x7f))
            continue;
        if (needs_shaping(code) || font_glyph(false, code) == 0)
            return false;
    }
    return true;
}

static void keep(Face *f, FT_Face face, uint32_t code) {
    FT_Fixed advance = 0;
    uint32_t glyph = FT_Get_Char_Index(face, code);
    if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) == 0)
        advance = face->glyph->metrics.horiAdvance;
    f->kept[code].known = true;
    f->kept[code].glyph = glyph;
    f->kept[code].advance = (double)advance / face->units_per_EM;
}

uint32_t font_glyph(bool bold, uint32_t code) {
    Face *f = &faces[bold];
    FT_Face face = font_face(bold);
    if (code >= KEPT)
        return FT_Get_Char_Index(face, code);
    if (!f->kept[code].known)
        keep(f, face, code);
    return f->kept[code].glyph;
}

double font_advance(bool bold, uint32_t code, uint32_t next) {
    Face *f = &faces[bold];
    FT_Face face = font_face(bold);
    uint32_t glyph = font_glyph(bold, code);
    double advance = 0;
    if (code < KEPT)
        advance = f->kept[code].advance;
    else if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) == 0)
        advance = (double)face->glyph->metrics.horiAdvance / face->units_per_EM;
    FT_Vector kern = {0, 0};
    if (next != 0 && FT_Get_Kerning(face, glyph, font_glyph(bold, next), FT_KERNING_UNSCALED, &kern) == 0)
        advance += (double)kern.x / face->units_per_EM;
    return advance;
}

double font_width(bool bold, double size, const char *text) {
    double width = 0;
    for (const char *at = text; *at != '\0';) {
        uint32_t code = text_next(&at);
        const char *ahead = at;
        uint32_t next = *ahead != '\0' ? text_next(&ahead) : 0;
        width += font_glyph(bold, code) != 0 ? font_advance(bold, code, next) : 0.5;
    }
    return width * size;
}
