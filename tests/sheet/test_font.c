#include <criterion/criterion.h>

#include <ft2build.h>
#include FT_FREETYPE_H
#include <string.h>

#include "base/text.h"
#include "sheet/font.h"
#include "sheet/subset.h"

Test(font, it_has_the_letters_a_pattern_needs) {
    cr_expect(font_covers("Größe 38 ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ × 45° – “x” ′ ″ éèçñåøœ ĂŁŻ Привет Ωμέγα"));
    cr_expect_not(font_covers("衿"));
    cr_expect_not(font_covers("ياقة"));
    cr_expect_not(font_covers("e\u0301"), "an accent set on the letter before it needs shaping");
    cr_expect(font_covers(""));
}

Test(font, both_weights_answer_and_the_bold_one_is_wider) {
    cr_expect_gt(font_width(true, 10, "seam allowance"), font_width(false, 10, "seam allowance"));
    cr_expect_eq(font_width(false, 10, ""), 0);
    cr_expect_float_eq(font_width(false, 20, "abc"), 2 * font_width(false, 10, "abc"), 1e-9);
}

// FreeType reads the same file by its own code.
Test(font, glyphs_widths_and_kerning_are_those_that_freetype_reads) {
    static const char text[] = "AVToya 0123 &%½ßéΩЖ–";
    FT_Library library;
    cr_assert_eq(FT_Init_FreeType(&library), 0);
    for (int bold = 0; bold < 2; bold++) {
        FontFile file = font_file(bold == 1);
        FT_Face face;
        cr_assert_eq(FT_New_Memory_Face(library, file.bytes, (FT_Long)file.length, 0, &face), 0);
        unsigned last = 0;
        const char *at = text;
        for (uint32_t code = text_next(&at); code != 0; code = text_next(&at)) {
            unsigned glyph = font_glyph(bold == 1, code);
            cr_expect_eq(glyph, FT_Get_Char_Index(face, code), "U+%04X", (unsigned)code);
            cr_assert_eq(FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE), 0);
            double width = (double)face->glyph->metrics.horiAdvance / face->units_per_EM;
            cr_expect_float_eq(font_glyph_width(bold == 1, glyph), width, 1e-9);
            FT_Vector kern = {0, 0};
            if (last != 0)
                cr_assert_eq(FT_Get_Kerning(face, last, glyph, FT_KERNING_UNSCALED, &kern), 0);
            if (last != 0)
                cr_expect_float_eq(font_kerning(bold == 1, last, glyph), (double)kern.x / face->units_per_EM,
                                   1e-6);
            last = glyph;
        }
        FT_Done_Face(face);
    }
    FT_Done_FreeType(library);
}

Test(font, a_subset_opens_in_freetype_and_its_letters_have_the_same_outlines) {
    static Subset subset;
    static const uint32_t codes[] = {'a', 0xe9, 0xc5, 'W', ' ', 0xbd};
    Buffer out;
    buffer_init(&out);
    subset_init(&subset, false);
    for (int i = 0; i < 6; i++)
        subset_take(&subset, codes[i]);
    subset_write(&subset, &out);
    FT_Library library;
    FT_Face whole, part;
    FontFile file = font_file(false);
    cr_assert_eq(FT_Init_FreeType(&library), 0);
    cr_assert_eq(FT_New_Memory_Face(library, file.bytes, (FT_Long)file.length, 0, &whole), 0);
    cr_assert_eq(FT_New_Memory_Face(library, (const FT_Byte *)out.data, (FT_Long)out.length, 0, &part), 0);
    for (int i = 0; i < 6; i++) {
        cr_assert_eq(FT_Load_Glyph(whole, FT_Get_Char_Index(whole, codes[i]), FT_LOAD_NO_SCALE), 0);
        cr_assert_eq(FT_Load_Glyph(part, subset_take(&subset, codes[i]), FT_LOAD_NO_SCALE), 0);
        const FT_Outline *a = &whole->glyph->outline, *b = &part->glyph->outline;
        cr_assert_eq(a->n_points, b->n_points);
        for (int k = 0; k < a->n_points; k++)
            cr_expect(a->points[k].x == b->points[k].x && a->points[k].y == b->points[k].y);
        cr_expect_eq(whole->glyph->metrics.horiAdvance, part->glyph->metrics.horiAdvance);
    }
    FT_Done_Face(whole);
    FT_Done_Face(part);
    FT_Done_FreeType(library);
    buffer_finish(&out);
}

Test(font, letters_that_leave_a_gap_are_kerned_together) {
    double apart = font_advance(false, 'A', 0) + font_advance(false, 'V', 0);
    cr_expect_lt(font_width(false, 1, "AV"), apart);
}

Test(font, a_subset_numbers_glyphs_in_order_of_use_and_keeps_their_meaning) {
    static Subset subset;
    subset_init(&subset, false);
    cr_expect_eq(subset_take(&subset, 'b'), 1);
    cr_expect_eq(subset_take(&subset, 'a'), 2);
    cr_expect_eq(subset_take(&subset, 'b'), 1);
    cr_expect_eq(subset_take(&subset, 0x887f), 0);
    cr_expect_eq(subset.codes[2], 'a');
}

Test(font, the_file_of_a_subset_is_right_by_its_own_checksums) {
    // ISO/IEC 14496-22: each table's sum, and 0xB1B0AFBA for the whole file.
    static Subset subset;
    Buffer out;
    buffer_init(&out);
    subset_init(&subset, true);
    subset_take(&subset, 'a');
    subset_take(&subset, 0xe9); // a composite: its parts come too
    subset_take(&subset, 0xc5);
    subset_write(&subset, &out);
    cr_expect_gt(subset.count, 4);
    cr_expect_eq(out.length % 4, 0);
    const unsigned char *bytes = (const unsigned char *)out.data;
    uint32_t whole = 0;
    for (size_t i = 0; i < out.length; i += 4)
        whole += font_u32(bytes + i);
    cr_expect_eq(whole, 0xb1b0afba);
    for (unsigned t = 0; t < font_u16(bytes + 4); t++) {
        const unsigned char *entry = bytes + 12 + 16 * t;
        uint32_t sum = 0, from = font_u32(entry + 8), length = font_u32(entry + 12);
        if (memcmp(entry, "head", 4) == 0)
            continue; // holds the sum of the file, so its own was taken before
        for (uint32_t i = 0; i < (length + 3) / 4; i++)
            sum += font_u32(bytes + from + 4 * i);
        cr_expect_eq(sum, font_u32(entry + 4), "%.4s", (const char *)entry);
    }
    buffer_finish(&out);
}
