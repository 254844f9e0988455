#include <criterion/criterion.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "example.h"
#include "reader.h"
#include "sheet/figure.h"

static Pattern pattern;
static Drawing drawing;

static void begin(void) {
    pattern_init(&pattern);
    pattern.title = "Figures";
}

static void end(void) {
    drawing_finish(&drawing);
    pattern_finish(&pattern);
}

TestSuite(figure, .init = begin, .fini = end, .timeout = 60);

static void add_line(int draft, const char *name, Point from, Point to) {
    Path path = {.items = NULL};
    path_line(from, to, &path);
    Mark mark = {.name = name, .step = -1, .kind = MARK_PATH};
    pattern_own_path(&pattern, &path, &mark.path);
    ARRAY_ADD(&pattern.drafts.items[draft].marks, mark);
    path_finish(&path);
}

static void add_point(int draft, const char *name, double x, double y) {
    ARRAY_ADD(&pattern.drafts.items[draft].marks,
              ((Mark){.name = name, .step = -1, .kind = MARK_POINT, .point = point(x, y)}));
}

// Two points 100 mm apart.
static int small_draft(const char *name) {
    const int draft = pattern_add_draft(&pattern, name, -1);
    add_point(draft, "neck_point", 0, 0);
    add_point(draft, "B", 100, 0);
    return draft;
}

static void draw(SheetShow show, double scale) {
    SheetOptions options = example_options(SHEET_SVG);
    options.show = show;
    options.scale = scale;
    drawing_make(&drawing, &pattern, &options);
}

Test(figure, a_line_that_runs_on_is_cut_150_mm_beyond_the_rest) {
    const int draft = small_draft("axis alone");
    add_line(draft, "axis", point(50, 0), point(50, 400));
    Box box = figure_box(&pattern, draft);
    cr_expect_float_eq(box.most.y, FIGURE_FAR_MM, 1e-9);
    Point from, to;
    bool cut[2];
    const Path *axis = &pattern.drafts.items[draft].marks.items[2].path;
    cr_assert(figure_cut_short(figure_limits(&pattern, draft), axis, &from, &to, cut));
    cr_expect_not(cut[0]);
    cr_expect(cut[1]);
    cr_expect_float_eq(point_distance(from, point(50, 0)), 0, 1e-9);
    cr_expect_float_eq(point_distance(to, point(50, FIGURE_FAR_MM)), 0, 1e-9);
}

Test(figure, a_long_line_that_meets_something_at_its_end_is_drawn_whole) {
    const int draft = small_draft("centre to waist");
    add_line(draft, "centre", point(0, 0), point(0, -400));
    add_line(draft, "waist", point(0, -400), point(250, -400));
    Box box = figure_box(&pattern, draft);
    cr_expect_float_eq(box.least.y, -400, 1e-9);
    cr_expect_float_eq(box.most.x, 250, 1e-9);
    Point from, to;
    bool cut[2];
    cr_expect_not(figure_cut_short(figure_limits(&pattern, draft),
                                   &pattern.drafts.items[draft].marks.items[2].path, &from, &to, cut));
}

Test(figure, a_line_is_drawn_whole_where_nothing_else_is_marked) {
    const int draft = pattern_add_draft(&pattern, "one line", -1);
    add_line(draft, "axis", point(0, 0), point(0, 900));
    Box box = figure_box(&pattern, draft);
    cr_expect_float_eq(box.most.y - box.least.y, 900, 1e-9);
}

// Where the words of a heading start, and how far down.
static Point heading(const char *name) {
    char words[80];
    snprintf(words, sizeof words, ">%s</text>", name);
    const char *at = strstr(drawing.bytes.data, words);
    cr_assert_not_null(at, "%s", name);
    while (*at != '<' || strncmp(at, "<text", 5) != 0)
        at--;
    Point place;
    cr_assert_eq(sscanf(strstr(at, " x=\""), " x=\"%lf\" y=\"%lf", &place.x, &place.y), 2);
    return place;
}

Test(figure, headings_keep_their_order_and_do_not_run_into_each_other) {
    static const char *const names[] = {"The front with a long name of its own, to the waist and back",
                                        "Back", "Sleeve"};
    for (int i = 0; i < 3; i++)
        add_point(small_draft(names[i]), "C", 50, 40.0 * (i + 1)); // each taller than the one before
    draw(SHOW_DRAFT, 0.5);
    for (int i = 0; i + 1 < 3; i++) {
        const Point here = heading(names[i]), next = heading(names[i + 1]);
        cr_expect(next.y > here.y + 3 || next.x > here.x + figure_title_width(&pattern, i, 0.5), "%s and %s",
                  names[i], names[i + 1]);
        cr_expect(next.y > here.y + 3 || (fabs(next.y - here.y) < 0.01 && next.x > here.x), "%s comes first",
                  names[i]);
    }
}

Test(figure, drafts_come_in_the_order_of_the_pieces_traced_from_them) {
    pattern_finish(&pattern);
    example_square(&pattern, 100, "Front");
    const int back = small_draft("Back"), front = small_draft("Front draft");
    pattern.pieces.items[0].draft = front;
    Piece second = pattern.pieces.items[0];
    second.name = "Second";
    second.draft = back;
    pattern_add_piece(&pattern, &second);
    draw(SHOW_DRAFT, 1);
    cr_expect_lt(strstr(drawing.bytes.data, "id=\"draft-front-draft\"") - drawing.bytes.data,
                 strstr(drawing.bytes.data, "id=\"draft-back\"") - drawing.bytes.data);
}

Test(figure, names_are_shown_with_blanks) {
    small_draft("Names");
    draw(SHOW_DRAFT, 1);
    cr_expect_eq(text_count(drawing.bytes.data, ">neck point</text>"), 1);
    cr_expect_eq(text_count(drawing.bytes.data, "neck_point"), 0);
}

Test(figure, below_pieces_of_full_size_drafts_are_small_and_under_a_heading) {
    pattern_finish(&pattern);
    example_square(&pattern, 100, "Square");
    small_draft("Names");
    draw(SHOW_BOTH, 1);
    cr_expect_eq(text_count(drawing.bytes.data, "draft, full size"), 0);
    cr_expect_eq(text_count(drawing.bytes.data, ">draft, drawn at 1:2</text>"), 1);
    const Point head = heading("Drafts, drawn small: not to be cut"), piece = heading("Square");
    cr_expect_gt(head.y, piece.y);
    cr_expect_gt(heading("Names").y, head.y);
    drawing_finish(&drawing);
    draw(SHOW_BOTH, 0.25);
    cr_expect_eq(text_count(drawing.bytes.data, ">draft, drawn at 1:4</text>"), 1);
    cr_expect_eq(text_count(drawing.bytes.data, "Drafts, drawn small"), 0);
}
