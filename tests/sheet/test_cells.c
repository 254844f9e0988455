#include "sheet/cells.h"

#include <criterion/criterion.h>
#include <string.h>

#include "sheet/labels.h"

#define THINGS 400

// Of the numbers of a linear congruential generator (constants of Numerical Recipes, from memory) the upper
// half, so that every run has the same.
static unsigned state = 1;

static double any(double most) {
    state = state * 1664525u + 1013904223u;
    return most * (state >> 16) / 65536.0;
}

static Line any_line(double side) {
    const Point from = point(any(side), any(side));
    switch (state >> 16 & 3) {
    case 0:
        return (Line){from, point(any(side), from.y)};
    case 1:
        return (Line){from, point(from.x, any(side))};
    default:
        return (Line){from, point(any(side), any(side))};
    }
}

// The ends of each lie on different sides of the other (plane geometry).
static bool lines_cross(Line a, Line b) {
    const Point along = point_sub(a.to, a.from), other = point_sub(b.to, b.from);
    return point_cross(along, point_sub(b.from, a.from)) * point_cross(along, point_sub(b.to, a.from)) < 0 &&
           point_cross(other, point_sub(a.from, b.from)) * point_cross(other, point_sub(a.to, b.from)) < 0;
}

static bool mark_found(void *context, int index) {
    ((bool *)context)[index] = true;
    return true;
}

static void finds_all(Box frame, double side) {
    Cells cells = {.cells = NULL};
    cells_begin(&cells, frame);
    Line lines[THINGS];
    for (int i = 0; i < THINGS; i++) {
        lines[i] = any_line(side);
        cells_add_line(&cells, lines[i]);
    }
    for (int k = 0; k < THINGS; k++) {
        bool in_box[THINGS] = {false}, on_line[THINGS] = {false};
        const Point corner = point(any(side), any(side));
        const Box box = {corner, point_add(corner, point(30, 5))};
        cells_visit(&cells, box, mark_found, in_box);
        cells_visit_line(&cells, lines[k], mark_found, on_line);
        for (int i = 0; i < THINGS; i++) {
            cr_expect(in_box[i] || !line_touches_box(lines[i], box), "side %g: line %d, box %d", side, i, k);
            cr_expect(on_line[i] || !lines_cross(lines[i], lines[k]), "side %g: lines %d and %d", side, i, k);
        }
        cr_expect(on_line[k]);
    }
    cells_finish(&cells);
}

Test(cells, what_lies_near_a_box_is_found_in_drawings_of_every_size) {
    finds_all((Box){{0, 0}, {100, 100}}, 100);
    finds_all((Box){{0, 0}, {4000, 4000}}, 4000);
    finds_all((Box){{200, 200}, {300, 300}}, 1000); // most of it lies beside the cells
}

Test(cells, a_long_line_meets_few_of_many_things) {
    Cells cells = {.cells = NULL};
    cells_begin(&cells, (Box){{0, 0}, {4000, 4000}});
    for (int i = 0; i < 10000; i++) {
        const Point at = point(any(4000), any(4000));
        cells_add_box(&cells, (Box){at, at});
    }
    static bool found[10000];
    cells_visit_line(&cells, (Line){{0, 0}, {4000, 4000}}, mark_found, found);
    int count = 0;
    for (int i = 0; i < 10000; i++)
        count += found[i];
    cr_expect(count > 0 && count < 10000 / 20, "%d", count);
    cells_finish(&cells);
}

// With all in one cell everything is looked at for each name, as it would be without cells.
Test(cells, names_find_the_same_places_as_without_cells) {
    const double sides[] = {120, 700, 3000};
    for (int s = 0; s < 3; s++) {
        const Box frame = {{0, 0}, {sides[s], sides[s]}};
        Labels with, without;
        labels_begin(&with, frame);
        labels_begin(&without, (Box){{-1e6, -1e6}, {1e6, 1e6}});
        without.frame = frame;
        int placed = 0;
        for (int i = 0; i < 150; i++) {
            const Line line = any_line(sides[s]);
            cr_expect_eq(labels_line_cost(&with, line), labels_line_cost(&without, line));
            labels_add_line(&with, line);
            labels_add_line(&without, line);
            labels_add_point(&with, line.from);
            labels_add_point(&without, line.from);
        }
        for (int i = 0; i < 150; i++) {
            const Point at = with.points.items[i];
            const LabelAsk ask = {
                .gap = 1.5 + any(3), .width = 4 + any(20), .height = 2, .rings = 2, .worst = LABELS_CROWDED};
            Point here[2] = {{0, 0}, {0, 0}};
            Line leader[2] = {{{0, 0}, {0, 0}}, {{0, 0}, {0, 0}}};
            const bool led = i % 3 == 2;
            const bool a = led ? labels_place_led(&with, at, &ask, &here[0], &leader[0])
                               : labels_place(&with, at, &ask, &here[0]);
            const bool b = led ? labels_place_led(&without, at, &ask, &here[1], &leader[1])
                               : labels_place(&without, at, &ask, &here[1]);
            placed += a;
            cr_expect_eq(a, b, "side %g, name %d", sides[s], i);
            cr_expect(point_distance(here[0], here[1]) == 0, "side %g, name %d", sides[s], i);
            cr_expect(point_distance(leader[0].to, leader[1].to) == 0, "side %g, name %d", sides[s], i);
        }
        cr_expect_gt(placed, 20, "side %g: %d names", sides[s], placed);
        labels_finish(&with);
        labels_finish(&without);
    }
}
