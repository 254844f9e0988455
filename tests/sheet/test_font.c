#include <criterion/criterion.h>

#include <ft2build.h>
#include FT_FREETYPE_H
#include <string.h>

#include "base/text.h"
#include "sheet/font.h"

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

// Asked twice, so that what is kept is compared too.
Test(font, glyphs_widths_and_kerning_are_those_that_freetype_reads) {
    static const char text[] = "AVToya 0123 &%½ßéΩЖ–AVToya";
    for (int bold = 0; bold < 2; bold++) {
        FT_Face face = font_face(bold == 1);
        uint32_t last = 0;
        const char *at = text;
        for (uint32_t code = text_next(&at); code != 0; code = text_next(&at)) {
            unsigned glyph = FT_Get_Char_Index(face, code);
            cr_expect_eq(font_glyph(bold == 1, code), glyph, "U+%04X", (unsigned)code);
            cr_assert_eq(FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE), 0);
            double width = (double)face->glyph->metrics.horiAdvance / face->units_per_EM;
            cr_expect_float_eq(font_advance(bold == 1, code, 0), width, 1e-9);
            if (last != 0) {
                FT_Vector kern = {0, 0};
                cr_assert_eq(
                    FT_Get_Kerning(face, FT_Get_Char_Index(face, last), glyph, FT_KERNING_UNSCALED, &kern),
                    0);
                double alone = font_advance(bold == 1, last, 0);
                cr_expect_float_eq(font_advance(bold == 1, last, code) - alone,
                                   (double)kern.x / face->units_per_EM, 1e-9);
            }
            last = code;
        }
    }
}

Test(font, letters_that_leave_a_gap_are_kerned_together) {
    double apart = font_advance(false, 'A', 0) + font_advance(false, 'V', 0);
    cr_expect_lt(font_width(false, 1, "AV"), apart);
}
