#include <criterion/criterion.h>

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "example.h"
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
    // Nothing of the words is further from their middle than half of the longest line, set at 5.5 mm.
    double half = 0;
    for (int i = 0; i < plate->label.count; i++)
        half = fmax(half, canvas_text_width(i == 0 ? TEXT_PIECE : TEXT_BODY, plate->label.items[i]) / 2);
    half *= plate->label_size / plate->scale;
    Point reach = point_polar(point(0, 0), plate->label_turn, half);
    return box_add((Box){point_sub(plate->label_at, reach), point_sub(plate->label_at, reach)},
                   point_add(plate->label_at, reach));
}

Test(plate, the_label_lies_inside_the_seam_line_and_names_the_piece) {
    LineList none = {.items = NULL};
    for (int i = 0; i < pattern.pieces.count; i++) {
        Plate plate;
        cr_assert(plate_init(&plate, &pattern, i, 1, &fault));
        plate_place_label(&plate, &none);
        Box box = label_box(&plate);
        cr_expect(polygon_contains(&plate.inside, plate.label_at), "%s", plate.piece->name);
        cr_expect(polygon_contains(&plate.inside, point_mix(box.least, box.most, 0.02)), "%s",
                  plate.piece->name);
        cr_expect(polygon_contains(&plate.inside, point_mix(box.least, box.most, 0.98)), "%s",
                  plate.piece->name);
        cr_expect_str_eq(plate.label.items[0], plate.piece->name);
        plate_finish(&plate);
    }
}

Test(plate, the_label_keeps_clear_of_a_join_where_there_is_room) {
    Plate plate;
    cr_assert(plate_init(&plate, &pattern, 0, 1, &fault));
    LineList joins = {.items = NULL};
    double across = plate.label_at.x;
    ARRAY_ADD(&joins, ((Line){{across - 20, -1000}, {across - 20, 1000}}));
    plate_place_label(&plate, &joins);
    Box box = label_box(&plate);
    cr_expect_not(lines_cross((Line){box.least, box.most}, joins.items[0]));
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
