#include <criterion/criterion.h>

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "example.h"
#include "pattern/grain.h"
#include "sheet/lettering.h"
#include "sheet/plain_name.h"
#include "sheet/plate.h"

static Pattern pattern;
static Fault fault;

static void begin(void) {
    fault_init(&fault);
    example_funnel(&pattern);
}

static void end(void) {
    fault_finish(&fault);
    pattern_finish(&pattern);
}

TestSuite(plate, .init = begin, .fini = end, .timeout = 60);

Test(plate, a_notch_runs_square_from_the_seam_line_to_the_cut_line) {
    Plate plate;
    cr_assert(plate_init(&plate, &pattern, 0, 1, &fault));
    cr_assert_geq(plate.notches.count, 1);
    const NotchMark *mark = &plate.notches.items[0];
    const Edge *edge = &plate.piece->edges.items[plate.piece->notches.items[0].edge];
    cr_expect_float_eq(point_distance(mark->seam, mark->cut), edge->allowance, 0.001);
    cr_expect_leq(path_distance(&plate.cut, mark->cut), 0.02);
    Point along = point_sub(path_last(&edge->path), path_first(&edge->path));
    cr_expect_float_eq(point_dot(point_unit(along), point_unit(point_sub(mark->cut, mark->seam))), 0, 1e-6);
    plate_finish(&plate);
}

Test(plate, a_double_notch_has_two_marks) {
    Plate plate;
    cr_assert(plate_init(&plate, &pattern, 1, 1, &fault));
    int marks = 0;
    for (int i = 0; i < plate.piece->notches.count; i++)
        marks += plate.piece->notches.items[i].count;
    cr_expect_eq(plate.notches.count, marks);
    cr_expect_geq(marks, 2);
    plate_finish(&plate);
}

static Box label_box(const Plate *plate) {
    Point half =
        point_scale(point(plate->label_width, plate->label_height), 0.5 * plate->label_size / plate->scale);
    if (plate->label_turn == 90)
        half = point(half.y, half.x);
    return (Box){point_sub(plate->label_at, half), point_add(plate->label_at, half)};
}

Test(plate, the_label_lies_inside_the_seam_line_and_names_the_piece) {
    static const double scales[] = {1, 0.5, 0.25};
    LineList none = {.items = NULL};
    for (int s = 0; s < 3; s++)
        for (int i = 0; i < pattern.pieces.count; i++) {
            Plate plate;
            cr_assert(plate_init(&plate, &pattern, i, scales[s], &fault));
            plate_place_label(&plate, &none);
            Box box = label_box(&plate);
            const Point corners[4] = {
                box.least, {box.most.x, box.least.y}, box.most, {box.least.x, box.most.y}};
            for (int k = 0; k < 4; k++)
                cr_expect(polygon_contains(&plate.inside, corners[k]), "%s at %g", plate.piece->name,
                          scales[s]);
            int named = 0;
            for (int k = 0; k < plate.label.count; k++)
                named += strstr(plate.label.lines[k], plate.piece->name) != NULL;
            cr_expect_geq(named, 1, "%s at %g", plate.piece->name, scales[s]);
            plate_finish(&plate);
        }
}

Test(plate, the_label_has_the_lines_and_never_more_than_the_size_that_were_proven) {
    LineList none = {.items = NULL};
    for (int i = 0; i < pattern.pieces.count; i++) {
        Plate plate;
        Label label;
        LabelPlace place;
        cr_assert(plate_init(&plate, &pattern, i, 1, &fault));
        plate_place_label(&plate, &none);
        pattern_label_lines(&pattern, i, &label);
        cr_assert(pattern_label_place(&pattern, i, &label, &place));
        cr_assert_eq(plate.label.count, label.count);
        for (int k = 0; k < label.count; k++)
            cr_expect_str_eq(plate.label.lines[k], label.lines[k]);
        cr_expect(plate.label_size <= place.scale && plate.label_size >= LABEL_SMALLEST - 1e-9);
        plate_finish(&plate);
    }
}

Test(plate, the_label_keeps_clear_of_grain_line_and_dots_and_lines_inside) {
    LineList none = {.items = NULL};
    for (int i = 0; i < pattern.pieces.count; i++) {
        Plate plate;
        cr_assert(plate_init(&plate, &pattern, i, 1, &fault));
        plate_place_label(&plate, &none);
        Box box = label_box(&plate);
        cr_expect_not(plate.has_grain && line_touches_box(plate.grain, box), "%s", plate.piece->name);
        for (int k = 0; k < plate.inner.count; k++)
            cr_expect_not(line_touches_box(plate.inner.items[k], box), "%s", plate.piece->name);
        for (int k = 0; k < plate.piece->dots.count; k++)
            cr_expect_gt(box_distance(box, plate.piece->dots.items[k].at), 2, "%s", plate.piece->name);
        plate_finish(&plate);
    }
}

Test(plate, the_label_keeps_clear_of_a_join_where_there_is_room) {
    Plate plate;
    cr_assert(plate_init(&plate, &pattern, 0, 1, &fault));
    LineList joins = {.items = NULL};
    plate_place_label(&plate, &joins);
    ARRAY_ADD(&joins, ((Line){{plate.label_at.x, -1000}, {plate.label_at.x, 1000}}));
    cr_expect(line_touches_box(joins.items[0], label_box(&plate)));
    plate_place_label(&plate, &joins);
    cr_expect_not(line_touches_box(joins.items[0], label_box(&plate)));
    mem_free(joins.items);
    plate_finish(&plate);
}

Test(plate, a_shortened_grain_line_is_never_under_100_mm) {
    LineList none = {.items = NULL};
    for (int i = 0; i < pattern.pieces.count; i++) {
        Plate plate;
        cr_assert(plate_init(&plate, &pattern, i, 1, &fault));
        double before = point_distance(plate.grain.from, plate.grain.to);
        plate_place_label(&plate, &none);
        double after = point_distance(plate.grain.from, plate.grain.to);
        cr_expect(fabs(after - before) < 1e-9 || after >= 100);
        plate_finish(&plate);
    }
}

// Everything the label says is still said when its lines are joined into rows.
Test(plate, a_narrow_piece_keeps_all_its_words_clear_of_the_grain_line) {
    Pattern narrow;
    Plate plate;
    Label label;
    LineList none = {.items = NULL};
    example_band(&narrow, 160, 32, "Collar band");
    cr_assert(plate_init(&plate, &narrow, 0, 1, &fault));
    plate_place_label(&plate, &none);
    pattern_label_lines(&narrow, 0, &label);
    cr_expect_lt(plate.label.count, label.count);
    for (int i = 0; i < label.count; i++) {
        int found = 0;
        for (int k = 0; k < plate.label.count; k++)
            found += strstr(plate.label.lines[k], label.lines[i]) != NULL;
        cr_expect_geq(found, 1, "%s", label.lines[i]);
    }
    cr_expect_not(line_touches_box(plate.grain, label_box(&plate)));
    plate_finish(&plate);
    pattern_finish(&narrow);
}

static Point lettering_corner(const Words *words, int corner) {
    Point up = point_scale(point_left(words->along), corner < 2 ? words->half_height : -words->half_height);
    return point_add(
        words->centre,
        point_add(up, point_scale(words->along, corner % 2 == 0 ? words->half_width : -words->half_width)));
}

Test(plate, small_words_stand_inside_the_cut_line_and_off_each_other) {
    Plate plate;
    Lettering lettering;
    LineList joins = {.items = NULL};
    cr_assert(plate_init(&plate, &pattern, 0, 1, &fault));
    plate_place_label(&plate, &joins);
    lettering_init(&lettering, &plate, 0);
    int first = lettering.taken.count, chosen = 0;
    for (int i = 0; i < plate.piece->edges.count; i++) {
        // On the edge itself half of the words would be outside; 40 mm inside of it is room.
        Point middle = path_spot_point(&plate.piece->edges.items[i].path, (PathSpot){.index = 0, .t = 0.5});
        Point centre = polygon_centre(&plate.inside);
        Words places[2];
        for (int k = 0; k < 2; k++)
            places[k] = lettering_words(&lettering, TEXT_SMALL, "end of opening",
                                        k == 0 ? middle : point_mix(middle, centre, 0.3), point(-1, 0));
        cr_expect_eq(places[0].along.x, 1, "words are read from left to right");
        chosen += lettering_choose(&lettering, places, 2) >= 0;
        chosen += lettering_choose(&lettering, places, 2) >= 0; // the same room again
    }
    cr_expect_geq(chosen, 2);
    cr_expect_eq(lettering.taken.count, first + chosen);
    for (int i = first; i < lettering.taken.count; i++) {
        const Words *words = &lettering.taken.items[i];
        for (int corner = 0; corner < 4; corner++)
            cr_expect(polygon_contains(&plate.outside, lettering_corner(words, corner)));
        for (int k = first; k < i; k++) {
            const Words *other = &lettering.taken.items[k];
            cr_expect(fabs(words->centre.x - other->centre.x) >= words->half_width + other->half_width ||
                      fabs(words->centre.y - other->centre.y) >= words->half_height + other->half_height);
        }
    }
    lettering_finish(&lettering);
    plate_finish(&plate);
}

Test(plate, names_are_shown_without_underscores_and_twins_by_their_first_name) {
    char out[PLAIN_NAME_MAX];
    plain_name("neck_point", out);
    cr_expect_str_eq(out, "neck point");
    plain_name("S over top over centre", out);
    cr_expect_str_eq(out, "S");
    plain_name(NULL, out);
    cr_expect_str_eq(out, "");
    char text[200];
    memset(text, 'a', sizeof text - 1);
    memcpy(text + PLAIN_NAME_MAX - 2, "é", 2); // two bytes, of which only one would fit
    text[sizeof text - 1] = '\0';
    plain_name(text, out);
    cr_expect_eq(strlen(out), PLAIN_NAME_MAX - 2);
}

// A back end that only looks at how the words stand.
static int words_drawn, words_beyond;

static void no_pen(Canvas *canvas, const Pen *pen, LineKind kind) {
    (void)canvas, (void)pen, (void)kind;
}

static void no_fill(Canvas *canvas, const Pen *pen, Shade shade) {
    (void)canvas, (void)pen, (void)shade;
}

static void no_group(Canvas *canvas, const char *kind, const char *name) {
    (void)canvas, (void)kind, (void)name;
}

static void look_at_words(Canvas *canvas, const TextRun *run) {
    (void)canvas;
    words_drawn++;
    words_beyond += fabs(remainder(run->degrees, 360)) > 90.001;
}

Test(plate, no_word_on_the_paper_is_upside_down_however_the_piece_lies) {
    static const CanvasBackend looking = {
        .stroke = no_pen, .fill = no_fill, .text = look_at_words, .group = no_group};
    LineList none = {.items = NULL};
    for (int turn = 0; turn < 360; turn += 90)
        for (int i = 0; i < pattern.pieces.count; i++) {
            Plate plate;
            Canvas canvas;
            cr_assert(plate_init(&plate, &pattern, i, 0.25, &fault));
            plate_place_label(&plate, &none);
            for (int label = 0; label <= 90; label += 90) {
                plate.label_turn = label;
                canvas_init(&canvas, &looking, 2000, 2000);
                canvas_view(&canvas, canvas_place(0.25, turn, plate.label_at, point(1000, 1000)));
                words_drawn = words_beyond = 0;
                plate_draw(&plate, &canvas);
                cr_expect_geq(words_drawn, plate.label.count);
                cr_expect_eq(words_beyond, 0, "%s turned by %d", plate.piece->name, turn);
                canvas_finish(&canvas);
            }
            plate_finish(&plate);
        }
}

// A stand 7 cm high at 1:4: the arrow runs across it, beside the words, over at least half of it (trade
// custom, from memory).
Test(plate, a_small_drawing_keeps_its_grain_line_long_and_says_how_many_to_cut) {
    static const double lengths[] = {70, 110, 150, 230};
    LineList none = {.items = NULL};
    for (int i = 0; i < 4; i++) {
        Pattern band;
        Plate plate;
        example_band(&band, lengths[i], 70, "Stand interfacing");
        band.pieces.items[0].grain_angle = 90;
        cr_assert(plate_init(&plate, &band, 0, 0.25, &fault));
        plate_place_label(&plate, &none);
        cr_expect_geq(point_distance(plate.grain.from, plate.grain.to), 34.9, "%g long", lengths[i]);
        cr_expect_not(line_touches_box(plate.grain, label_box(&plate)), "%g long", lengths[i]);
        cr_expect_eq(strncmp(plate.label.lines[plate.label.count - 1], "cut 1", 5), 0, "%g long: %s",
                     lengths[i], plate.label.lines[plate.label.count - 1]);
        plate_finish(&plate);
        pattern_finish(&band);
    }
}

Test(plate, a_grain_given_along_an_edge_is_not_called_bias) {
    static const GrainKind grains[] = {GRAIN_ALONG, GRAIN_ACROSS, GRAIN_BIAS};
    Piece *piece = &pattern.pieces.items[0];
    piece->grain_edge = "neckline";
    for (int i = 0; i < 3; i++) {
        piece->grain = grains[i];
        cr_expect_eq(piece_is_called_bias(piece), grains[i] == GRAIN_BIAS && piece_is_true_bias(piece));
    }
}
