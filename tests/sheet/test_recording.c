#include "sheet/recording.h"

#include <criterion/criterion.h>
#include <string.h>

#include "base/memory.h"
#include "recorder.h"
#include "sheet/figure.h"
#include "example.h"

static void draw_figure(const Pattern *pattern, Canvas *canvas) {
    const FigureOptions options = {.scale = 1, .units = UNITS_CM};
    figure_draw(pattern, 0, &options, canvas, figure_box(pattern, 0).least, point(0, 0));
}

// Moved by so much.
static void same_drawing(const Recorder *a, const Recorder *b, Point by) {
    cr_assert_eq(a->words.count, b->words.count);
    cr_assert_eq(a->lines.count, b->lines.count);
    for (int i = 0; i < LINE_KIND_COUNT; i++)
        cr_expect_eq(a->strokes[i], b->strokes[i]);
    for (int i = 0; i < a->words.count; i++) {
        cr_expect_str_eq(a->words.items[i].text, b->words.items[i].text);
        for (int k = 0; k < 4; k++)
            cr_expect_lt(
                point_distance(point_add(a->words.items[i].corners[k], by), b->words.items[i].corners[k]),
                1e-9);
    }
    for (int i = 0; i < a->lines.count; i++) {
        cr_expect_lt(point_distance(point_add(a->lines.items[i].from, by), b->lines.items[i].from), 1e-9);
        cr_expect_lt(point_distance(point_add(a->lines.items[i].to, by), b->lines.items[i].to), 1e-9);
    }
}

Test(recording, a_drawing_is_the_same_again_at_another_place) {
    Pattern pattern;
    example_funnel(&pattern);
    Recording recording;
    recording_init(&recording);
    draw_figure(&pattern, &recording.canvas);
    const Point places[] = {{0, 0}, {31, 250}, {-40, 100}};
    for (int i = 0; i < 3; i++) {
        Recorder drawn, again;
        recorder_init(&drawn, 300, 300);
        recorder_init(&again, 300, 300);
        draw_figure(&pattern, &drawn.canvas);
        recording_draw(&recording, &again.canvas, places[i]);
        cr_expect_gt(drawn.words.count, 0);
        same_drawing(&drawn, &again, places[i]);
        recorder_finish(&drawn);
        recorder_finish(&again);
    }
    recording_finish(&recording);
    pattern_finish(&pattern);
}

Test(recording, what_a_page_does_not_show_is_left_out_of_it) {
    Recording recording;
    recording_init(&recording);
    canvas_draw_line(&recording.canvas, LINE_CUT, point(0, 0), point(10, 0));
    canvas_draw_line(&recording.canvas, LINE_CUT, point(1000, 0), point(1010, 0));
    canvas_text(&recording.canvas, TEXT_BODY, ALIGN_LEFT, point(2000, 0), 0, "far");
    Recorder page;
    recorder_init(&page, 100, 100);
    page.canvas.window = (Box){{0, 0}, {100, 100}};
    recording_draw(&recording, &page.canvas, point(5, 5));
    cr_expect_eq(page.lines.count, 1);
    cr_expect_eq(page.words.count, 0);
    page.canvas.window = (Box){{0, 0}, {100, 100}};
    recording_draw(&recording, &page.canvas, point(-1995, 5));
    cr_expect_eq(page.lines.count, 1);
    cr_expect_eq(page.words.count, 1);
    recorder_finish(&page);
    recording_finish(&recording);
}
