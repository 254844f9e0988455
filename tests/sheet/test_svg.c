// Source of what is expected: SVG 1.1, CSS units (1 mm = 96 / 25.4 px), and the outside readers named in each
// test.
#include <criterion/criterion.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "example.h"
#include "reader.h"
#include "sheet/svg.h"

static Pattern pattern;
static Drawing drawing;
static Buffer said;

static void begin(void) {
    buffer_init(&said);
}

static void end(void) {
    drawing_finish(&drawing);
    buffer_finish(&said);
    pattern_finish(&pattern);
}

TestSuite(svg, .init = begin, .fini = end, .timeout = 60);

static void draw(void) {
    SheetOptions options = example_options(SHEET_SVG);
    drawing_make(&drawing, &pattern, &options);
}

Test(svg, xmllint_finds_it_well_formed_whatever_the_names) {
    example_square(&pattern, 150, "<A & \"B\"> \x01 ü");
    draw();
    cr_expect_eq(reader_run(&drawing, "xmllint --noout %s", &said), 0, "%s", said.data);
    cr_expect_geq(text_count(drawing.bytes.data, "&lt;A &amp; &quot;B&quot;&gt;"), 2);
}

Test(svg, rsvg_draws_it_at_its_true_size) {
    example_funnel(&pattern);
    draw();
    const char *width = strstr(drawing.bytes.data, "width=\"");
    cr_assert_not_null(width);
    double mm = strtod(width + 7, NULL);
    cr_expect_eq(reader_run(&drawing, "rsvg-convert %s | file -", &said), 0);
    const char *data = strstr(said.data, "image data, ");
    cr_assert_not_null(data, "%s", said.data);
    double dots = strtod(data + 12, NULL);
    cr_expect_float_eq(dots, mm * 96 / 25.4, 1.0);
}

Test(svg, the_view_box_is_the_size_in_millimetres) {
    example_funnel(&pattern);
    draw();
    const char *root = strstr(drawing.bytes.data, "<svg ");
    double w, h, vw, vh;
    const char *size = strstr(root, "width=\""), *tall = strstr(root, "height=\""),
               *box = strstr(root, "viewBox=\"0 0 ");
    cr_assert(size && tall && box);
    cr_expect_eq(sscanf(size, "width=\"%lfmm\"", &w), 1);
    cr_expect_eq(sscanf(tall, "height=\"%lfmm\"", &h), 1);
    cr_expect_eq(sscanf(box, "viewBox=\"0 0 %lf %lf\"", &vw, &vh), 2);
    cr_expect_eq(w, vw);
    cr_expect_eq(h, vh);
}

Test(svg, every_piece_and_every_kind_of_line_has_a_group_with_its_name) {
    example_funnel(&pattern);
    draw();
    static const char *const ids[] = {
        "piece-front-funnel",       "piece-front-funnel-cut",  "piece-front-funnel-stitch",
        "piece-front-funnel-grain", "piece-front-funnel-fold", "piece-facing-roll",
        "piece-stand-fold-edge",    "piece-back-funnel-notch", "draft-front"};
    for (size_t i = 0; i < sizeof ids / sizeof *ids; i++) {
        char id[64];
        snprintf(id, sizeof id, "id=\"%s\"", ids[i]);
        cr_expect_eq(text_count(drawing.bytes.data, id), 1, "%s", ids[i]);
    }
}

Test(svg, no_id_is_given_twice_even_to_pieces_of_one_name) {
    example_square(&pattern, 100, "Stand");
    Piece twin = pattern.pieces.items[0];
    pattern_add_piece(&pattern, &twin);
    draw();
    cr_expect_eq(text_count(drawing.bytes.data, "id=\"piece-stand\""), 1);
    cr_expect_eq(text_count(drawing.bytes.data, "id=\"piece-stand-2\""), 1);
    // XML: ids must differ; xmllint says so only with a type, so they are counted here.
    for (const char *at = strstr(drawing.bytes.data, " id=\""); at != NULL; at = strstr(at + 1, " id=\"")) {
        char id[96];
        snprintf(id, sizeof id, "%.*s\"", (int)strcspn(at + 5, "\"") + 5, at);
        cr_expect_eq(text_count(drawing.bytes.data, id), 1, "%s", id);
    }
}

Test(svg, it_holds_plain_attributes_and_real_text_only) {
    example_funnel(&pattern);
    draw();
    static const char *const none[] = {"<style", "style=", "var(", "marker", "vector-effect",
                                       "e-0",    "e+0",    "nan",  "inf"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        cr_expect_eq(text_count(drawing.bytes.data, none[i]), 0, "%s", none[i]);
    cr_expect_geq(text_count(drawing.bytes.data, ">Front funnel, piece 1 of 4</text>"), 1);
    cr_expect_eq(text_count(drawing.bytes.data, "role=\"img\""), 1);
    cr_expect_geq(text_count(drawing.bytes.data, "<title"), 1 + pattern.pieces.count);
}

Test(svg, a_square_of_150_mm_is_written_as_150_units) {
    example_square(&pattern, 150, "Square");
    draw();
    double x0, y0, x1, y1;
    const char *cut = strstr(drawing.bytes.data, "id=\"piece-square-cut\"");
    cr_assert_not_null(cut);
    cr_assert_eq(sscanf(strstr(cut, " d=\"M"), " d=\"M%lf %lfL%lf %lf", &x0, &y0, &x1, &y1), 4);
    cr_expect_float_eq(fabs(x1 - x0) + fabs(y1 - y0), 150, 0.001);
}

Test(svg, in_a_draft_old_work_is_construction_and_new_work_is_not) {
    example_funnel(&pattern); // the block is chapter 0, the funnel chapter 1
    SheetOptions options = example_options(SHEET_SVG);
    options.show = SHOW_DRAFT;
    drawing_make(&drawing, &pattern, &options);
    cr_expect_eq(text_count(drawing.bytes.data, "id=\"draft-front-construction\""), 1);
    cr_expect_eq(text_count(drawing.bytes.data, "id=\"draft-front-draft\""), 1);
    cr_expect_eq(text_count(drawing.bytes.data, "class=\"old-mark\""),
                 2 + 4);                                               // N, SP and four paths of the block
    cr_expect_eq(text_count(drawing.bytes.data, "class=\"mark\""), 5); // S, U, T, G, V
    cr_expect_eq(text_count(drawing.bytes.data, ">height 9.6 cm</text>"), 1); // 96.25 mm to 1 mm
    cr_expect_eq(text_count(drawing.bytes.data, "id=\"piece"), 0);
}
