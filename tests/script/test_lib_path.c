// The words of points and paths against values known by geometry.
#include <stdio.h>
#include <math.h>

#include <criterion/criterion.h>

#include "bench.h"

// The note r of one code block is the value.
static void gives(const char *code, double value) {
    Pattern pattern = {0};
    pattern_of(code, &pattern);
    cr_expect_float_eq(note_of(&pattern, "r"), value, 1e-6, "%s: %.9f, not %.9f", code,
                       note_of(&pattern, "r"), value);
    pattern_finish(&pattern);
}

Test(words_of_points, go_in_the_directions_they_say) {
    gives("r = point(1, 2):up(3).y", 5);
    gives("r = point(1, 2):down(3).y", -1);
    gives("r = point(1, 2):left(3).x", -2);
    gives("r = point(1, 2):right(3).x", 4);
    gives("r = point(0, 0):toward(point(3, 4), 10).y", 8);
    gives("r = point(0, 0):polar(30, 10).y", 5);
    gives("r = point(0, 0):polar(\"left\", 10).x", -10);
    gives("r = point(0, 0):angle(point(-1, 1))", 135);
    gives("r = point(0, 0):distance(point(3, 4))", 5);
    gives("r = point(0, 0):distance(line(point(-9, 2), point(9, 2)))", 2);
    gives("r = point(0, 0):between(point(10, 0), 0.25).x", 2.5);
    gives("r = point(10, 0):swing(point(0, 0), 90).y", 10);
    gives("r = point(10, 3):mirror(point(0, 0), point(0, 1)).x", -10);
    gives("r = point(10, 3):mirror(line(point(0, 0), point(5, 5))).x", 3);
    gives("r = point(100, 50):bias(\"down\", \"left\"):meet(line(point(0, -500), point(0, 500))).y", -50);
}

Test(words_of_paths, measure_and_cut) {
    gives("r = line(point(0, 0), point(3, 4), point(3, 10)).length", 11);
    gives("r = line(point(0, 0), point(10, 0)):at(-3).x", 7);
    gives("r = line(point(0, 0), point(10, 0)):extend(\"first\", 5).length", 15);
    gives("r = line(point(0, 0), point(10, 0)):between(2, -3).length", 5);
    gives("r = line(point(0, 0), point(10, 0)):before(point(4, 0)).length", 4);
    gives("r = line(point(0, 0), point(10, 0)):after(4).first.x", 4);
    gives("r = line(point(0, 0), point(10, 0)):reverse().first.x", 10);
    gives("r = line(point(0, 0), point(10, 0)):foot(point(4, 7)).x", 4);
    gives("note(\"r\", line(point(0, 0), point(0, -10)):direction(\"first\"), \"degrees\")", -90);
    gives("r = line(point(0, 0), point(10, 0)):square(3, 5, \"up\").last.y", 5);
    gives("r = join(line(point(10, 0), point(0, 0)), line(point(10, 0), point(10, 5))).length", 15);
}

Test(words_of_paths, offsets_go_to_the_side_of_the_page_whatever_the_travel) {
    gives("r = line(point(0, 0), point(0, -100)):offset(7, \"right\").first.x", 7);
    gives("r = line(point(0, -100), point(0, 0)):offset(7, \"right\").first.x", 7);
    gives("r = line(point(0, 0), point(100, 0)):offset(7, \"down\").first.y", -7);
    gives("r = line(point(100, 0), point(0, 0)):offset(7, \"up\").first.y", 7);
    gives("r = arc({ centre = point(0, 0), radius = 50, from = 0, sweep = 360 }):offset(10, "
          "\"outward\"):at(0).x",
          60);
}

// Plane geometry: a circle of radius 50 mm has the circumference 100 pi and the area 2500 pi; the program's
// arcs are right to 1 part in 10^7.
Test(words_of_paths, arcs_are_round) {
    Pattern pattern = {0};
    pattern_of("local c = arc { centre = point(0, 0), radius = 50, from = 0, sweep = 360 }\n"
               "around, inside, turned = c.length, c.area, c.turning\n"
               "local a = arc { start = point(0, 0), heading = \"right\", length = 100, sweep = 90 }\n"
               "across = a.last.x",
               &pattern);
    cr_expect_float_eq(note_of(&pattern, "around"), 100 * M_PI, 1e-4);
    cr_expect_float_eq(note_of(&pattern, "inside"), 2500 * M_PI, 1e-2);
    cr_expect_float_eq(note_of(&pattern, "turned"), 360, 1e-6);
    cr_expect_float_eq(note_of(&pattern, "across"), 100 / (M_PI / 2), 1e-4); // the radius
    pattern_finish(&pattern);
}

// The box handles: leaving right and arriving up with fullness k, the handles are k times the width and the
// height. At the middle of the cubic x = (a + 3 (a + k w) + 3 b + b) / 8.
Test(words_of_paths, fullness_is_the_part_of_the_box) {
    gives("local c = curve(point(0, 0), point(60, 80), { leave = \"right\", arrive = \"up\", fullness = "
          "0.5523 })\n"
          "r = c:meet(line(point(0, 40 - 3 / 8 * 0.5523 * 80 - 1e-9), point(99, 40 - 3 / 8 * 0.5523 * 80)), "
          "1).x",
          (0 + 3 * 0.5523 * 60 + 3 * 60 + 60) / 8);
    gives("note(\"r\", curve(point(0, -70), point(67, 0), { leave_square = bodice.front.centre, "
          "arrive_square = "
          "bodice.front.shoulder, fullness = 0.55 }):direction(\"first\"), \"degrees\")",
          0);
}

// Two shoulders of 100 mm, both bodies below: laid together the second body lies above, and an overlap of 20
// mm at the tips swings it by 2 asin(20 / 200) about the neck point (plane geometry).
Test(words_of_paths, lay_turns_over_and_overlaps) {
    const char *shoulders =
        "local a, b = line(point(5, 5), point(105, 5)), line(point(0, 0), point(100, 0))\n";
    char code[400];
    snprintf(code, sizeof code, "%sr = lay(a, b)(point(5, -95)).y", shoulders);
    gives(code, 100);
    snprintf(code, sizeof code, "%sr = lay(a, b, { overlap = 20 })(point(105, 5)):distance(point(100, 0))",
             shoulders);
    gives(code, 20);
    snprintf(code, sizeof code, "%sr = lay(a, b, { overlap = 20 })(point(105, 5)).y", shoulders);
    gives(code, -100 * sin(2 * asin(0.1)));
}

Test(words_of_paths, solve_finds_what_is_wanted) {
    gives("r = solve { from = 1, to = 200, wanted = 100, function(d) return line(point(0, 0), point(60, "
          "-d)).length end, "
          "tolerance = 1e-8 }",
          80);
}
