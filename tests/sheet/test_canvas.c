#include <criterion/criterion.h>

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "sheet/canvas.h"
#include "sheet/labels.h"
#include "sheet/number_text.h"
#include "sheet/paragraph.h"
#include "sheet/polygon.h"

Test(canvas, a_view_lays_a_drawing_with_y_up_on_paper_with_y_down) {
    Affine view = canvas_place(2, 0, point(10, 20), point(100, 100));
    Point p = affine_point(view, point(11, 22));
    cr_expect_float_eq(p.x, 102, 1e-9);
    cr_expect_float_eq(p.y, 96, 1e-9);
    view = canvas_place(1, 90, point(0, 0), point(0, 0)); // x now runs up the paper
    p = affine_point(view, point(5, 0));
    cr_expect_float_eq(p.x, 0, 1e-9);
    cr_expect_float_eq(p.y, -5, 1e-9);
}

Test(canvas, numbers_are_plain_decimals) {
    static const struct {
        double value;
        int places;
        const char *text;
    } numbers[] = {
        {0, 3, "0"},        {-0.0001, 3, "0"},     {1.5, 3, "1.5"},       {-2.25, 3, "-2.25"},
        {100, 3, "100"},    {0.001, 3, "0.001"},   {1e8, 3, "100000000"}, {2.834645669, 6, "2.834646"},
        {12.3456, 0, "12"}, {-0.0625, 3, "-0.063"}};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        Buffer out;
        buffer_init(&out);
        number_text_add(&out, numbers[i].value, numbers[i].places);
        cr_expect_str_eq(out.data, numbers[i].text);
        buffer_finish(&out);
    }
}

Test(canvas, a_paragraph_keeps_every_word_and_no_line_is_too_long) {
    const char *text = "Cut a page along the line that says cut here, and lay it over its neighbour.";
    Buffer line, all;
    buffer_init(&line);
    buffer_init(&all);
    const char *at = text;
    while (paragraph_next(&at, TEXT_BODY, 40, &line)) {
        cr_expect_leq(canvas_text_width(TEXT_BODY, line.data), 40);
        if (all.length > 0)
            buffer_add_char(&all, ' ');
        buffer_add_text(&all, line.data);
    }
    cr_expect_str_eq(all.data, text);
    at = "Donaudampfschifffahrtsgesellschaft";
    int lines = 0;
    while (paragraph_next(&at, TEXT_BODY, 20, &line)) {
        cr_expect_leq(canvas_text_width(TEXT_BODY, line.data), 20);
        lines++;
    }
    cr_expect_geq(lines, 2);
    buffer_finish(&line);
    buffer_finish(&all);
}

static void make_polygon(Polygon *polygon, const Point *points, int count) {
    *polygon = (Polygon){.items = NULL};
    for (int i = 0; i < count; i++)
        ARRAY_ADD(polygon, points[i]);
}

Test(canvas, room_for_a_box_is_found_inside_and_clear_of_lines) {
    const Point corners[] = {{0, 0}, {100, 0}, {100, 40}, {0, 40}};
    Polygon polygon;
    make_polygon(&polygon, corners, 4);
    LineList lines = {.items = NULL};
    ARRAY_ADD(&lines, ((Line){{50, -10}, {50, 50}}));
    Point centre;
    cr_assert(polygon_find_room(&polygon, &lines, 30, 20, polygon_centre(&polygon), &centre));
    cr_expect_geq(fabs(centre.x - 50), 15);
    cr_expect(centre.y > 10 && centre.y < 30);
    cr_expect_not(polygon_find_room(&polygon, &lines, 60, 20, polygon_centre(&polygon), &centre));
    mem_free(lines.items);
    polygon_finish(&polygon);
}

Test(canvas, the_centre_of_an_outline_is_that_of_its_area) {
    // An L of three unit squares: ((0.5 + 1.5 + 0.5) / 3, the same), plane geometry.
    const Point corners[] = {{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}};
    Polygon polygon;
    make_polygon(&polygon, corners, 6);
    Point centre = polygon_centre(&polygon);
    cr_expect_float_eq(centre.x, 2.5 / 3, 1e-9);
    cr_expect_float_eq(centre.y, 2.5 / 3, 1e-9);
    cr_expect(polygon_contains(&polygon, point(0.5, 1.5)));
    cr_expect_not(polygon_contains(&polygon, point(1.5, 1.5)));
    cr_expect(polygon_touches_box(&polygon, (Box){{1.9, 0.5}, {3, 3}}));
    cr_expect_not(polygon_touches_box(&polygon, (Box){{1.1, 1.1}, {3, 3}}));
    polygon_finish(&polygon);
}

Test(canvas, names_round_one_point_do_not_cover_each_other) {
    Labels labels = {.frame = {{0, 0}, {100, 100}}};
    Box boxes[6];
    for (int i = 0; i < 6; i++) {
        Point place;
        cr_assert(
            labels_place(&labels, point(50, 50), &(LabelAsk){1.2, 10, 2, LABEL_RINGS, INFINITY}, &place));
        boxes[i] = (Box){{place.x, place.y - 2}, {place.x + 10, place.y}};
        for (int k = 0; k < i; k++)
            cr_expect_not(box_touch(boxes[i], boxes[k], -0.01));
    }
    labels_finish(&labels);
}

Test(canvas, the_name_of_a_dot_stands_nearer_to_it_than_to_another_dot) {
    Labels labels = {.frame = {{0, 0}, {100, 100}}};
    const Point dots[] = {{50, 50}, {53, 51}, {50, 54}};
    for (int i = 0; i < 3; i++)
        labels_add_point(&labels, dots[i]);
    for (int i = 0; i < 3; i++) {
        Point place;
        cr_assert(labels_place(&labels, dots[i], &(LabelAsk){1.2, 10, 2, LABEL_RINGS, INFINITY}, &place));
        const Box name = {{place.x, place.y - 2}, {place.x + 10, place.y + 2 * 0.34}};
        for (int k = 0; k < 3; k++)
            if (k != i)
                cr_expect_gt(box_distance(name, dots[k]), box_distance(name, dots[i]), "%d by %d", i, k);
    }
    labels_finish(&labels);
}

Test(canvas, a_name_without_room_can_be_left_out) {
    Labels labels = {.frame = {{0, 0}, {100, 100}}};
    labels_take(&labels, (Box){{0, 0}, {100, 100}});
    Point place;
    cr_expect_not(
        labels_place(&labels, point(50, 50), &(LabelAsk){1.2, 10, 2, LABEL_RINGS, LABELS_CROWDED}, &place));
    cr_expect(labels_place(&labels, point(50, 50), &(LabelAsk){1.2, 10, 2, LABEL_RINGS, INFINITY}, &place));
    labels_finish(&labels);
}

// The free places beside a cross of lines are its four corners; a name with room on the lines alone breaks
// them there.
Test(canvas, a_name_lies_beside_the_lines_or_they_have_a_gap_for_it) {
    Labels labels = {.frame = {{0, 0}, {100, 100}}};
    const Line upright = {{50, 0}, {50, 100}};
    labels_add_line(&labels, upright);
    Point place;
    cr_assert(labels_place(&labels, point(50, 50), &(LabelAsk){1.2, 10, 2, 1, LABELS_CLEAR}, &place));
    cr_expect(place.x > 50 || place.x + 10 < 50);
    cr_expect_eq(labels.gaps.count, 0);
    for (int x = 0; x < 40; x += 2) // more lines than names can stand between
        labels_add_line(&labels, (Line){{30.0 + x, 0}, {30.0 + x, 100}});
    const LabelAsk wide = {1.2, 20, 2, LABEL_RINGS, LABELS_CLEAR};
    cr_expect_not(labels_place(&labels, point(50, 80), &wide, &place));
    const LabelAsk any = {1.2, 20, 2, LABEL_RINGS, INFINITY};
    cr_assert(labels_place(&labels, point(50, 80), &any, &place));
    cr_assert_eq(labels.gaps.count, 1);
    LineList parts = {.items = NULL};
    labels_outside_gaps(&labels, (Line){{place.x + 5, 0}, {place.x + 5, 100}}, &parts);
    cr_assert_eq(parts.count, 2);
    cr_expect_lt(parts.items[0].to.y, place.y - 2); // above a capital, below the base line
    cr_expect_gt(parts.items[1].from.y, place.y);
    mem_free(parts.items);
    labels_finish(&labels);
}

Test(canvas, a_line_that_leads_to_a_name_crosses_no_other_name) {
    Labels labels = {.frame = {{0, 0}, {100, 100}}};
    labels_take(&labels, (Box){{52, 30}, {70, 70}}); // all that is to the right
    Point place;
    Line leader;
    cr_assert(labels_place_led(&labels, point(50, 50), &(LabelAsk){6.6, 10, 2, 1, LABELS_CROWDED}, &place,
                               &leader));
    cr_expect(leader.to.x <= 52 || leader.to.y < 30 || leader.to.y > 70);
    cr_expect_eq(labels.lines.count, 1);
    labels_finish(&labels);
}

static int strokes, steps;

static void count_stroke(Canvas *canvas, const Pen *pen, LineKind kind) {
    (void)canvas, (void)kind;
    strokes++;
    steps += pen->count;
}

static const CanvasBackend counting = {.stroke = count_stroke};

Test(canvas, what_lies_outside_the_page_is_left_out_but_a_dashed_line_stays_whole) {
    Canvas canvas;
    canvas_init(&canvas, &counting, 100, 100);
    canvas_box(&canvas, (Box){{200, 200}, {300, 300}});
    canvas_stroke(&canvas, LINE_CUT);
    cr_expect_eq(strokes, 0);
    // The left side and the two that run through it; the right side is left out.
    canvas_box(&canvas, (Box){{50, 20}, {300, 80}});
    canvas_stroke(&canvas, LINE_CUT);
    cr_expect_eq(strokes, 1);
    cr_expect_eq(steps, 5, "%d", steps); // move, line, move, line, line
    steps = 0;
    canvas_box(&canvas, (Box){{50, 20}, {300, 80}});
    canvas_stroke(&canvas, LINE_STITCH);
    cr_expect_eq(steps, 5); // move, three lines, close
    steps = 0;
    canvas_box(&canvas, (Box){{50, 20}, {60, 80}});
    canvas_stroke(&canvas, LINE_CUT);
    cr_expect_eq(steps, 5);
    canvas_finish(&canvas);
}
