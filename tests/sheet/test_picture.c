#include <criterion/criterion.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "example.h"
#include "recorder.h"
#include "reader.h"
#include "sheet/picture.h"

static Pattern pattern;
static Pictures *pictures;
static Recorder recorder;

static void begin(void) {
    pattern_init(&pattern);
}

static void end(void) {
    recorder_finish(&recorder);
    pictures_free(pictures);
    pattern_finish(&pattern);
}

TestSuite(picture, .init = begin, .fini = end, .timeout = 60);

static int add_step(const char *title) {
    ARRAY_ADD(&pattern.steps, ((Step){.title = title}));
    return pattern.steps.count - 1;
}

static void add_line(int draft, int step, const char *name, Point from, Point to) {
    Path path = {.items = NULL};
    path_line(from, to, &path);
    Mark mark = {.name = name, .step = step, .kind = MARK_PATH};
    pattern_own_path(&pattern, &path, &mark.path);
    ARRAY_ADD(&pattern.drafts.items[draft].marks, mark);
    path_finish(&path);
}

static void add_point(int draft, int step, const char *name, double x, double y) {
    ARRAY_ADD(&pattern.drafts.items[draft].marks,
              ((Mark){.name = name, .step = step, .kind = MARK_POINT, .point = point(x, y)}));
}

// A frame of 400 by 300 mm, then a neck of 60 by 70 mm in a corner of it.
static void draft_neck(void) {
    ARRAY_ADD(&pattern.chapters, ((Chapter){.recipe = "trial", .title = "Trial", .used_in = -1}));
    const int frame = add_step("Frame"), neck = add_step("Neck"), talk = add_step("Talk");
    (void)talk;
    const int draft = pattern_add_draft(&pattern, "Front", frame);
    add_line(draft, frame, "top", point(0, 300), point(400, 300));
    add_line(draft, frame, "centre", point(0, 0), point(0, 300));
    add_line(draft, frame, "hem", point(0, 0), point(400, 0));
    add_line(draft, frame, "side", point(400, 0), point(400, 300));
    add_point(draft, neck, "neck_point", 60, 300);
    add_point(draft, neck, "pit", 0, 230);
    add_line(draft, neck, "slope", point(0, 230), point(60, 300));
    ARRAY_ADD(&pattern.notes, ((Note){.name = "depth", .step = neck, .value = hypot(60, 70)}));
}

// Of the pattern as it is by now.
static Pictures *drawn(void) {
    pictures_free(pictures);
    pictures = pictures_new(&pattern);
    return pictures;
}

static PictureSize draw(const PictureAsk *ask) {
    PictureSize size = {0};
    cr_assert(picture_measure(drawn(), ask, &size));
    recorder_init(&recorder, size.width, size.height);
    picture_draw(pictures, ask, &recorder.canvas, point(0, 0));
    return size;
}

Test(picture, a_step_that_draws_nothing_has_none) {
    draft_neck();
    cr_expect(picture_has_step(drawn(), 0, 0));
    cr_expect(picture_has_step(drawn(), 1, 0));
    cr_expect_not(picture_has_step(drawn(), 2, 0));
    PictureSize size;
    cr_expect_not(picture_measure(
        drawn(), &(PictureAsk){.kind = PICTURE_STEP, .step = 2, .width = 100, .height = 100}, &size));
}

Test(picture, a_step_shows_what_is_there_by_then) {
    draft_neck();
    draw(&(PictureAsk){.kind = PICTURE_STEP, .step = 0, .width = 100, .height = 100});
    cr_expect(recorder_has(&recorder, "top 40.0 cm"));
    cr_expect_not(recorder_has(&recorder, "neck point"));
    cr_expect_eq(recorder.strokes[LINE_CONSTRUCTION], 0);
    cr_expect_eq(recorder.strokes[LINE_DRAFT], 4);
}

Test(picture, earlier_work_is_grey_and_new_work_dark_with_its_measures) {
    draft_neck();
    draw(&(PictureAsk){.kind = PICTURE_STEP, .step = 1, .width = 100, .height = 100});
    cr_expect(recorder_has(&recorder, "neck point"));
    cr_expect(recorder_has(&recorder, "pit"));
    cr_expect(recorder_has(&recorder, "slope 9.2 cm")); // hypot(6, 7) cm
    cr_expect_geq(recorder.strokes[LINE_CONSTRUCTION], 2);
    cr_expect_eq(recorder.strokes[LINE_DRAFT], 1);
}

Test(picture, small_work_is_shown_larger_and_without_what_is_far_off) {
    draft_neck();
    const PictureSize frame =
        draw(&(PictureAsk){.kind = PICTURE_STEP, .step = 0, .width = 100, .height = 100});
    recorder_finish(&recorder);
    const PictureSize neck =
        draw(&(PictureAsk){.kind = PICTURE_STEP, .step = 1, .width = 100, .height = 100});
    cr_expect_gt(neck.scale, frame.scale);
    cr_expect_not(recorder_has(&recorder, "hem"));
    cr_expect_leq(recorder.drawn.most.x, neck.width + 0.01);
    cr_expect_geq(recorder.drawn.least.y, 0);
}

// The name and the scale in figures alone, which are all that stands there, and no room for words that do
// not.
Test(picture, a_step_narrower_than_its_title_is_as_wide_as_that) {
    ARRAY_ADD(&pattern.chapters, ((Chapter){.recipe = "trial", .title = "Trial", .used_in = -1}));
    const int step = add_step("Strip");
    const int draft = pattern_add_draft(&pattern, "Strip along the front neckline of the bodice", step);
    add_line(draft, step, "edge", point(0, 0), point(0, 100));
    const PictureSize size =
        draw(&(PictureAsk){.kind = PICTURE_STEP, .step = step, .width = 150, .height = 100});
    double right = 0;
    for (int i = 0; i < recorder.words.count; i++)
        for (int k = 0; k < 4; k++)
            right = fmax(right, recorder.words.items[i].corners[k].x);
    cr_expect_float_eq(size.width, right, 0.1, "%g mm for words that end at %g mm", size.width, right);
}

// The first two pieces of the example, sewn along two edges of each.
static void sew_funnel(void) {
    example_funnel(&pattern);
    Seam seam = {.name = "side"};
    for (int edge = 0; edge < 2; edge++) {
        ARRAY_ADD(&seam.a, ((SeamEdge){.piece = 0, .edge = edge}));
        ARRAY_ADD(&seam.b, ((SeamEdge){.piece = 1, .edge = edge}));
    }
    ARRAY_ADD(&pattern.seams, seam);
}

// Lengths from example.c, walked by seam_walk, which has tests of its own.
Test(picture, a_seam_shows_both_sides_with_their_lengths) {
    sew_funnel();
    const PictureSize size = draw(&(PictureAsk){.kind = PICTURE_SEAM, .width = 170, .height = 90});
    cr_expect_leq(size.width, 170.01);
    cr_expect_geq(recorder.words.count, 4);
    for (int a = 0; a < recorder.words.count; a++)
        for (int b = 0; b < a; b++)
            cr_expect_not(words_overlap(&recorder.words.items[a], &recorder.words.items[b]), "%s, %s",
                          recorder.words.items[a].text, recorder.words.items[b].text);
}

Test(picture, the_names_in_a_seam_have_the_colon_of_the_language) {
    sew_funnel();
    draw(&(PictureAsk){.kind = PICTURE_SEAM, .width = 170, .height = 90, .colon = "\u00A0:"});
    int french = 0;
    for (int i = 0; i < recorder.words.count; i++) {
        french += strstr(recorder.words.items[i].text, "\u00A0: ") != NULL;
        const char *colon = strchr(recorder.words.items[i].text, ':');
        cr_expect(colon == NULL || strncmp(colon - 2, "\u00A0", 2) == 0, "%s", recorder.words.items[i].text);
    }
    cr_expect_eq(french, 4);
}

Test(picture, all_pieces_stand_apart_under_their_names) {
    example_large(&pattern);
    const PictureSize size = draw(&(PictureAsk){.kind = PICTURE_ALL, .width = 170, .height = 100});
    cr_expect(size.width <= 170.01 && size.height <= 100.01);
    for (int i = 0; i < pattern.pieces.count; i++)
        cr_expect(recorder_has(&recorder, pattern.pieces.items[i].name), "%s", pattern.pieces.items[i].name);
}

Test(picture, one_that_stands_in_html_brings_its_own_ids_and_no_colour_of_its_own) {
    example_funnel(&pattern);
    Buffer svg;
    buffer_init(&svg);
    const PictureAsk ask = {.kind = PICTURE_PIECE, .piece = 0, .width = 40, .height = 40};
    cr_assert(picture_svg(drawn(), &ask, "p7", "A <piece>", &svg));
    cr_expect_eq(strncmp(svg.data, "<svg xmlns=", 11), 0);
    cr_expect_not_null(strstr(svg.data, "<title id=\"p7-title\">A &lt;piece&gt;</title>"));
    cr_expect_eq(text_count(svg.data, " id=\""), text_count(svg.data, " id=\"p7-"));
    cr_expect_null(strstr(svg.data, "=\"#0") ? strstr(svg.data, "=\"#0") : strstr(svg.data, "=\"#1"));
    cr_expect_not_null(strstr(svg.data, "currentColor"));
    buffer_finish(&svg);
}

// A thousand marks all round one new one: the earlier ones nearest to it are drawn, and no more.
Test(picture, of_many_earlier_marks_the_nearest_are_shown) {
    static char names[1000][8];
    draft_neck();
    const int many = add_step("Many"), one = add_step("One");
    for (int i = 0; i < 1000; i++) {
        snprintf(names[i], sizeof names[i], "p%d", i);
        add_point(0, many, names[i], 20 + i * 0.35, 150);
    }
    add_point(0, one, "new", 20, 151);
    draw(&(PictureAsk){.kind = PICTURE_STEP, .step = one, .draft = 0, .width = 100, .height = 100});
    cr_expect(recorder_has(&recorder, "new"));
    cr_expect_not(recorder_has(&recorder, "p900"));
    cr_expect_leq(recorder.words.count, 410);
}
