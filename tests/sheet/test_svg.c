// Source of what is expected: SVG 1.1, CSS units (1 mm = 96 / 25.4 px), and the outside readers named in each
// test.
#include <criterion/criterion.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "example.h"
#include "reader.h"
#include "sheet/canvas.h"
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

Test(svg, a_piece_has_one_group_for_a_kind_of_line_with_its_arrow_heads_in_it) {
    example_funnel(&pattern);
    draw();
    static const char *const kinds[] = {"cut", "stitch", "grain", "notch", "dot", "inner", "fold-bracket"};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        char second[64];
        snprintf(second, sizeof second, "-%s-2\"", kinds[i]);
        cr_expect_eq(text_count(drawing.bytes.data, second), 0, "%s", kinds[i]);
    }
    const char *grain = strstr(drawing.bytes.data, "id=\"piece-front-funnel-grain\"");
    cr_assert_not_null(grain);
    char group[2000];
    snprintf(group, sizeof group, "%.*s", (int)(strstr(grain, "</g>") - grain), grain);
    cr_expect_eq(text_count(group, "<path d="), 1, "%s", group);
    cr_expect_eq(text_count(group, "class=\"ink\""), 2, "%s", group);
}

Test(svg, flags_of_what_is_not_proven_do_not_lie_on_each_other) {
    example_unproven(&pattern);
    Proof again = pattern.proofs.items[pattern.proofs.count - 2]; // points at an edge of the first piece
    for (int i = 0; i < 3; i++)
        ARRAY_ADD(&pattern.proofs, again);
    draw();
    Box boxes[8];
    int count = 0;
    static const char start[] = "<path class=\"flag\" stroke=\"none\"";
    for (const char *at = strstr(drawing.bytes.data, start); at != NULL; at = strstr(at + 1, start)) {
        double x[4], y[4];
        cr_assert_lt(count, 8);
        cr_assert_eq(sscanf(strstr(at, " d=\"M"), " d=\"M%lf %lfL%lf %lfL%lf %lfL%lf %lf", &x[0], &y[0],
                            &x[1], &y[1], &x[2], &y[2], &x[3], &y[3]),
                     8);
        Box box = box_empty();
        for (int i = 0; i < 4; i++)
            box = box_add(box, point(x[i], y[i]));
        boxes[count++] = box;
    }
    cr_expect_eq(count, 4, "%d", count);
    for (int i = 0; i < count; i++)
        for (int k = 0; k < i; k++)
            cr_expect_not(box_touch(boxes[i], boxes[k], -0.01), "%d and %d", i, k);
    cr_expect_eq(text_count(drawing.bytes.data, ">NOT PROVEN: neck seam</text>"), 4);
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

Test(svg, each_draft_has_its_name_above_it) {
    example_funnel(&pattern);
    for (int show = SHOW_DRAFT; show <= SHOW_BOTH; show++) {
        SheetOptions options = example_options(SHEET_SVG);
        options.show = (SheetShow)show;
        drawing_make(&drawing, &pattern, &options);
        const char *draft = strstr(drawing.bytes.data, "id=\"draft-front\""), *name;
        cr_assert_not_null(draft);
        cr_assert_not_null(name = strstr(draft, ">front</text>"));
        double title = 0, top = INFINITY;
        while (name > draft && *name != '<')
            name--;
        cr_assert_eq(sscanf(strstr(name, " y=\""), " y=\"%lf", &title), 1);
        for (const char *at = strstr(draft, " d=\"M"); at != NULL; at = strstr(at + 1, " d=\"M")) {
            double x, y;
            cr_assert_eq(sscanf(at, " d=\"M%lf %lf", &x, &y), 2);
            top = fmin(top, y);
            if (strstr(draft, "id=\"piece") != NULL && at > strstr(draft, "id=\"piece"))
                break;
        }
        cr_expect_lt(title, top);
        if (show == SHOW_DRAFT)
            drawing_finish(&drawing);
    }
}

// The boxes of the letters, from the base line up to the height of a capital.
static int read_names(const char *svg, const char *class, TextKind kind, Box *out, int count) {
    char start[40];
    snprintf(start, sizeof start, "<text class=\"%s\"", class);
    for (const char *at = strstr(svg, start); at != NULL; at = strstr(at + 1, start)) {
        char name[40];
        double x, y;
        cr_assert_eq(sscanf(strstr(at, " x=\""), " x=\"%lf\" y=\"%lf", &x, &y), 2);
        cr_assert_eq(sscanf(strchr(at, '>'), ">%39[^<]", name), 1);
        out[count++] = (Box){{x, y - 1.9}, {x + canvas_text_width(kind, name), y}};
        cr_assert_lt(count, 32);
    }
    return count;
}

Test(svg, names_on_a_small_draft_do_not_cover_each_other_and_points_come_first) {
    example_crowded(&pattern);
    SheetOptions options = example_options(SHEET_SVG);
    options.show = SHOW_DRAFT;
    drawing_make(&drawing, &pattern, &options);
    Box boxes[32];
    int points = read_names(drawing.bytes.data, "mark", TEXT_MARK, boxes, 0);
    int all = read_names(drawing.bytes.data, "line-name", TEXT_LINE_NAME, boxes, points);
    cr_expect_eq(points, 8, "%d", points);
    cr_expect_lt(all, 16);
    for (int i = 0; i < all; i++)
        for (int k = 0; k < i; k++)
            cr_expect_not(box_touch(boxes[i], boxes[k], -0.02), "%d and %d", i, k);
}
