#include "pattern/label.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "pattern/grain.h"
#include "pattern/own.h"
#include "sample.h"

Test(label, the_lines_say_what_a_cutter_needs) {
    Pattern pattern;
    Label label;
    sample_pattern(&pattern);
    Piece *front = &pattern.pieces.items[0];
    pattern_label_lines(&pattern, 0, &label);
    static const char *const wanted[] = {
        "Sample funnel",  "Front funnel, piece 1 of 2",    "cut 1 in self, single layer",
        "for Ada",        "seam allowance 10 mm included", "grain along neckline",
        "mind the corner"};
    cr_assert_eq(label.count, 7);
    for (int i = 0; i < 7; i++)
        cr_assert_str_eq(label.lines[i], wanted[i]);
    front->grain_angle = 90;
    pattern_label_lines(&pattern, 0, &label);
    cr_assert_str_eq(label.lines[2], "cut 1 in self");
    front->grain_angle = 45;
    front->cut = 4;
    front->pair = true;
    pattern_label_lines(&pattern, 0, &label);
    cr_assert_str_eq(label.lines[2], "cut 4 (2 pairs) in self");
    front->edges.items[0].allowance = 6;
    front->edges.items[1].fold = true;
    front->edges.items[1].allowance = 0;
    pattern_label_lines(&pattern, 0, &label);
    cr_assert_str_eq(label.lines[2], "cut 4 (2 pairs) on the fold in self");
    cr_assert_str_eq(label.lines[4], "seam allowance 6 mm to 10 mm included");
    front->cut = 2;
    pattern.units = UNITS_INCH;
    for (int i = 0; i < front->edges.count; i++)
        front->edges.items[i].allowance = 15.875;
    pattern_label_lines(&pattern, 0, &label);
    cr_assert_str_eq(label.lines[2], "cut 2 (1 pair) on the fold in self");
    cr_assert_str_eq(label.lines[4], "seam allowance 5/8 in included");
    front->cloth = "paper";
    for (int i = 0; i < front->edges.count; i++)
        front->edges.items[i].allowance = 0;
    pattern_label_lines(&pattern, 0, &label);
    cr_assert_str_eq(label.lines[2], "paper only: a template to trace");
    cr_assert_str_eq(label.lines[4], "no seam allowance");
    pattern_finish(&pattern);
}

static void check_inside(const Piece *piece, const LabelPlace *place) {
    Path outline = {0};
    piece_outline(piece, &outline);
    const double w = (place->turned ? place->height : place->width) * place->scale / 2;
    const double h = (place->turned ? place->width : place->height) * place->scale / 2;
    for (int i = 0; i <= 10; i++)
        for (int k = 0; k <= 10; k++)
            cr_assert(path_contains(&outline, point(place->centre.x + w * 0.98 * (i / 5.0 - 1),
                                                    place->centre.y + h * 0.98 * (k / 5.0 - 1))));
    path_finish(&outline);
}

Test(label, it_stands_inside_the_piece_and_off_the_grain_line) {
    Pattern pattern;
    Label label;
    LabelPlace place;
    sample_pattern(&pattern);
    pattern_label_lines(&pattern, 0, &label);
    cr_assert(pattern_label_place(&pattern, 0, &label, &place));
    cr_assert_float_eq(place.scale, 1, 1e-9);
    cr_assert(!place.turned);
    check_inside(&pattern.pieces.items[0], &place);
    Point from, to;
    cr_assert(piece_grain_line(&pattern.pieces.items[0], &from, &to));
    for (int i = 0; i <= 100; i++) {
        const Point at = point_mix(from, to, i / 100.0);
        cr_assert(fabs(at.x - place.centre.x) > place.width / 2 ||
                  fabs(at.y - place.centre.y) > place.height / 2);
    }
    pattern_finish(&pattern);
}

Test(label, a_narrow_piece_gets_fewer_longer_lines_a_small_one_its_name_and_a_tiny_one_none) {
    Pattern pattern;
    Label label;
    LabelPlace place;
    sample_pattern(&pattern);
    const Piece strip =
        sample_polygon(&pattern.arena, "Strip", (Point[]){{0, 0}, {18, 0}, {18, 500}, {0, 500}}, 4);
    const Piece tab = sample_polygon(&pattern.arena, "Tab", (Point[]){{0, 0}, {25, 0}, {25, 30}, {0, 30}}, 4);
    const Piece dot = sample_polygon(&pattern.arena, "Dot", (Point[]){{0, 0}, {8, 0}, {8, 8}, {0, 8}}, 4);
    const int narrow = pattern_add_piece(&pattern, &strip), small = pattern_add_piece(&pattern, &tab);
    const int tiny = pattern_add_piece(&pattern, &dot);
    pattern_label_lines(&pattern, narrow, &label);
    cr_assert_eq(label.count, 6);
    cr_assert(pattern_label_place(&pattern, narrow, &label, &place));
    cr_assert_lt(label.count, 6);
    cr_assert(place.turned);
    cr_assert_geq(place.scale, LABEL_SMALLEST - 1e-9);
    cr_assert_not_null(strstr(label.lines[0], "Sample funnel; Strip, piece 3 of 5"));
    check_inside(&pattern.pieces.items[narrow], &place);
    pattern_label_lines(&pattern, small, &label);
    cr_assert(pattern_label_place(&pattern, small, &label, &place));
    cr_assert_eq(label.count, 2);
    cr_assert_str_eq(label.lines[0], "Tab");
    check_inside(&pattern.pieces.items[small], &place);
    pattern_label_lines(&pattern, tiny, &label);
    cr_assert(!pattern_label_place(&pattern, tiny, &label, &place));
    pattern_finish(&pattern);
}

Test(label, long_names_are_cut_between_characters) {
    Pattern pattern;
    Label label;
    sample_pattern(&pattern);
    char title[1200] = "";
    for (int i = 0; i < 400; i++)
        strcat(title, "\xC3\xA9");
    pattern.title = title;
    pattern_label_lines(&pattern, 0, &label);
    cr_assert_lt(strlen(label.lines[0]), (size_t)LABEL_TEXT_MAX);
    cr_assert_eq(strlen(label.lines[0]) % 2, 0u);
    pattern_finish(&pattern);
}

static Box box_of(const LabelPlace *place) {
    const double w = (place->turned ? place->height : place->width) * place->scale / 2;
    const double h = (place->turned ? place->width : place->height) * place->scale / 2;
    return (Box){point_sub(place->centre, point(w, h)), point_add(place->centre, point(w, h))};
}

static double distance_off(Box box, Point p) {
    return hypot(fmax(fmax(box.least.x - p.x, p.x - box.most.x), 0),
                 fmax(fmax(box.least.y - p.y, p.y - box.most.y), 0));
}

// Where the arrow runs down the middle of a strip, its writing stands beside it, in one row if need be.
Test(label, it_stands_off_the_grain_line_wherever_any_size_or_joining_does) {
    for (double width = 20; width <= 120; width += 10) {
        Pattern pattern;
        Label label;
        LabelPlace place;
        sample_pattern(&pattern);
        Piece strip =
            sample_polygon(&pattern.arena, "Strip", (Point[]){{0, 0}, {width, 0}, {width, 400}, {0, 400}}, 4);
        strip.grain = GRAIN_ALONG;
        strip.grain_angle = 90;
        const int index = pattern_add_piece(&pattern, &strip);
        pattern_label_lines(&pattern, index, &label);
        cr_assert(pattern_label_place(&pattern, index, &label, &place));
        Point from, to;
        cr_assert(piece_grain_line(&strip, &from, &to));
        const Box box = box_of(&place);
        for (int i = 0; i <= 400; i++)
            cr_assert_geq(distance_off(box, point_mix(from, to, i / 400.0)), 3 - 1e-6, "%g mm wide", width);
        cr_assert_geq(box.least.x, 1.5 - 1e-6);
        cr_assert_leq(box.most.x, width - 1.5 + 1e-6);
        pattern_finish(&pattern);
    }
}

Test(label, it_keeps_clear_of_dots_inner_lines_and_the_bracket_of_a_fold) {
    Pattern pattern;
    Label label;
    LabelPlace place;
    sample_pattern(&pattern);
    const Piece plain =
        sample_polygon(&pattern.arena, "Yoke", (Point[]){{0, 0}, {160, 0}, {160, 120}, {0, 120}}, 4);
    Piece yoke;
    cr_assert_eq(piece_place_on_fold(&pattern.arena, &plain, "d", &yoke), PIECE_OK); // on x = 0
    OWN_ADD(&pattern.arena, &yoke.dots, ((Dot){.kind = DOT_DRILL, .at = {110, 60}}));
    Path across = {0};
    path_line(point(0, 70), point(160, 70), &across);
    InnerLine line = {.kind = INNER_LINE, .name = "yoke", .root = "yoke"};
    own_path(&pattern.arena, &across, &line.path);
    path_finish(&across);
    OWN_ADD(&pattern.arena, &yoke.lines, line);
    const int index = pattern_add_piece(&pattern, &yoke);
    pattern_label_lines(&pattern, index, &label);
    cr_assert(pattern_label_place(&pattern, index, &label, &place));
    const Box box = box_of(&place);
    cr_assert_geq(distance_off(box, point(110, 60)), 1.5);
    for (int i = 0; i <= 160; i++)
        cr_assert_geq(distance_off(box, point(i, 70)), 1.5 - 1e-6);
    for (int i = 30; i <= 90; i++)
        cr_assert_gt(distance_off(box, point(12, i)), 0);
    pattern_finish(&pattern);
}
