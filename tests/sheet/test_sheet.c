#include <criterion/criterion.h>

#include <math.h>
#include <string.h>

#include "example.h"
#include "reader.h"
#include "sheet/style.h"

static Fault fault;

static void begin(void) {
    fault_init(&fault);
}

static void end(void) {
    fault_finish(&fault);
}

TestSuite(sheet, .init = begin, .fini = end, .timeout = 60);

Test(sheet, the_named_papers_have_their_standard_sizes) {
    // ISO 216 (A sizes); North American letter, 8 1/2 x 11 in.
    static const struct {
        const char *name;
        double width, height;
    } papers[] = {{"a4", 210, 297},
                  {"A3", 297, 420},
                  {"letter", 215.9, 279.4},
                  {"60cm x 90cm", 600, 900},
                  {"24inx36in", 609.6, 914.4},
                  {"200 mm × 300 mm", 200, 300},
                  {"60x90cm", 600, 900},
                  {"60 x 90 cm", 600, 900},
                  {"24x36in", 609.6, 914.4},
                  {"24 1/2 x 36\"", 622.3, 914.4},
                  {"600x900mm", 600, 900},
                  {"60cmx900mm", 600, 900}};
    for (size_t i = 0; i < sizeof papers / sizeof *papers; i++) {
        SheetOptions options = {.whole = true};
        cr_assert(sheet_paper(papers[i].name, &options, &fault), "%s: %s", papers[i].name, fault.message);
        cr_expect_not(options.whole);
        cr_expect_float_eq(options.width, papers[i].width, 1e-9);
        cr_expect_float_eq(options.height, papers[i].height, 1e-9);
    }
    SheetOptions options = {.whole = false};
    cr_expect(sheet_paper("whole", &options, &fault));
    cr_expect(options.whole);
}

Test(sheet, paper_that_cannot_be_is_refused_with_a_reason) {
    static const struct {
        const char *name, *reason;
    } papers[] = {{"foolscap", "not known"},
                  {"", "not known"},
                  {"20cm x 30", "unit"},
                  {"10cm x 30cm", "test squares"},
                  {"60cm x 9m", "5 m"},
                  {"x", ""},
                  {"600cm", "5 m"},
                  {"60cm", "two"},
                  {"60", "two"},
                  {"600x900cm", "5 m"},
                  {"60x90", "unit"},
                  {"60cm x 90", "unit"},
                  {"10x600cm", "5 m"},
                  {"20000cm x 1cm", "5 m"}};
    for (size_t i = 0; i < sizeof papers / sizeof *papers; i++) {
        SheetOptions options = {.width = 1, .height = 2};
        cr_expect_not(sheet_paper(papers[i].name, &options, &fault), "%s", papers[i].name);
        cr_expect_not_null(strstr(fault.message, papers[i].reason), "%s", fault.message);
        cr_expect_eq(options.width, 1);
    }
}

Test(sheet, the_same_pattern_is_the_same_bytes) {
    for (int format = SHEET_PDF; format <= SHEET_PNG; format++) {
        Pattern first, second;
        Buffer a, b;
        example_funnel(&first);
        example_funnel(&second);
        buffer_init(&a);
        buffer_init(&b);
        SheetOptions options = example_options((SheetFormat)format);
        cr_assert(sheet_draw(&first, &options, &a, NULL, &fault));
        cr_assert(sheet_draw(&second, &options, &b, NULL, &fault));
        cr_expect_eq(a.length, b.length);
        cr_expect_eq(memcmp(a.data, b.data, a.length), 0);
        buffer_finish(&a);
        buffer_finish(&b);
        pattern_finish(&first);
        pattern_finish(&second);
    }
}

static void expect_refused(const Pattern *pattern, const SheetOptions *options, const char *reason) {
    Buffer out;
    buffer_init(&out);
    int pages = 7;
    cr_expect_not(sheet_draw(pattern, options, &out, &pages, &fault));
    cr_expect_eq(out.length, 0);
    cr_expect_eq(pages, 7);
    cr_assert_not_null(fault.message);
    cr_expect_not_null(strstr(fault.message, reason), "%s", fault.message);
    buffer_finish(&out);
}

Test(sheet, a_piece_with_a_point_that_is_no_number_is_refused) {
    for (int format = SHEET_PDF; format <= SHEET_PNG; format++) {
        Pattern pattern;
        example_square(&pattern, 150, "Square");
        pattern.pieces.items[0].edges.items[1].path.items[0].p3.x = NAN;
        SheetOptions options = example_options((SheetFormat)format);
        expect_refused(&pattern, &options, "Square");
        pattern_finish(&pattern);
    }
}

Test(sheet, a_dot_that_is_nowhere_is_refused) {
    Pattern pattern;
    example_square(&pattern, 150, "Square");
    Dot dot = {DOT_PIVOT, "K", {10, INFINITY}};
    pattern.pieces.items[0].dots.items = &dot;
    pattern.pieces.items[0].dots.count = 1;
    SheetOptions options = example_options(SHEET_PDF);
    expect_refused(&pattern, &options, "Square");
    pattern_finish(&pattern);
}

Test(sheet, a_mark_beyond_all_sense_is_refused) {
    Pattern pattern;
    example_funnel(&pattern);
    pattern.drafts.items[0].marks.items[4].point.x = 1e12;
    SheetOptions options = example_options(SHEET_PDF);
    expect_refused(&pattern, &options, "front");
    pattern_finish(&pattern);
}

Test(sheet, a_sheet_longer_than_5_metres_is_refused) {
    Pattern pattern;
    example_square(&pattern, 5200, "Long");
    SheetOptions options = example_options(SHEET_PDF);
    options.whole = true;
    expect_refused(&pattern, &options, "5.0 m");
    cr_expect_not_null(fault.hint);
    pattern_finish(&pattern);
}

Test(sheet, a_scale_outside_1_to_100_and_1_to_1_is_refused) {
    static const double scales[] = {0, -1, 1.5, 0.001, NAN, INFINITY};
    Pattern pattern;
    example_square(&pattern, 150, "Square");
    for (size_t i = 0; i < sizeof scales / sizeof *scales; i++) {
        SheetOptions options = example_options(SHEET_PDF);
        options.scale = scales[i];
        expect_refused(&pattern, &options, "scale");
    }
    pattern_finish(&pattern);
}

Test(sheet, a_picture_of_more_than_64_million_dots_is_refused) {
    Pattern pattern;
    example_square(&pattern, 1500, "Square");
    SheetOptions options = example_options(SHEET_PNG);
    options.dots_per_mm = 12;
    expect_refused(&pattern, &options, "too large");
    pattern_finish(&pattern);
}

Test(sheet, more_than_400_pages_are_refused) {
    Pattern pattern;
    example_square(&pattern, 4900, "Square");
    SheetOptions options = example_options(SHEET_PDF);
    expect_refused(&pattern, &options, "400 pages");
    pattern_finish(&pattern);
}

Test(sheet, a_picture_has_the_dots_that_were_asked_for) {
    Pattern pattern;
    Drawing drawing;
    Buffer said;
    buffer_init(&said);
    example_square(&pattern, 150, "Square");
    SheetOptions options = example_options(SHEET_PNG);
    options.show = SHOW_PIECES;
    options.dots_per_mm = 2;
    drawing_make(&drawing, &pattern, &options);
    // 150 mm, 3 mm clear and 8 mm of margin on both sides: 172 mm across.
    cr_expect_eq(reader_run(&drawing, "file %s", &said), 0);
    cr_expect_not_null(strstr(said.data, "PNG image data, 344 x "), "%s", said.data);
    drawing_finish(&drawing);
    buffer_finish(&said);
    pattern_finish(&pattern);
}

Test(sheet, a_pattern_without_pieces_still_gives_its_plan_and_drafts) {
    Pattern pattern;
    example_funnel(&pattern);
    pattern.pieces.count = 0;
    for (int format = SHEET_PDF; format <= SHEET_PNG; format++)
        for (int show = SHOW_PIECES; show <= SHOW_BOTH; show++) {
            SheetOptions options = example_options((SheetFormat)format);
            options.show = (SheetShow)show;
            Buffer out;
            buffer_init(&out);
            int pages = 0;
            cr_expect(sheet_draw(&pattern, &options, &out, &pages, &fault), "%s", fault.message);
            cr_expect_geq(pages, 1);
            cr_expect_gt(out.length, 100);
            buffer_finish(&out);
        }
    pattern_finish(&pattern);
}

Test(sheet, every_line_that_is_cut_or_sewn_by_is_from_3_to_6_tenths_of_a_millimetre_wide) {
    // Common practice, no source.
    for (int kind = LINE_CUT; kind <= LINE_DOT; kind++) {
        const LineStyle *style = line_style((LineKind)kind);
        cr_expect_geq(style->width, 0.3, "%s", style->name);
        cr_expect_leq(style->width, 0.6, "%s", style->name);
        cr_expect_not_null(style->words, "%s", style->name);
    }
}

Test(sheet, no_two_kinds_of_line_look_the_same_in_black_and_white) {
    for (int a = LINE_CUT; a <= LINE_INNER; a++)
        for (int b = a + 1; b <= LINE_INNER; b++) {
            const LineStyle *first = line_style((LineKind)a), *second = line_style((LineKind)b);
            bool same = memcmp(first->dash, second->dash, sizeof first->dash) == 0 &&
                        fabs(first->width - second->width) < 0.15;
            cr_expect_not(same, "%s and %s", first->name, second->name);
        }
}
