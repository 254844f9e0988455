// Curves and arcs against values known by geometry.
#include <math.h>

#include <criterion/criterion.h>

#include "bench.h"

// Plane geometry: a circle of radius 50 mm has the circumference 100 pi; the program's
// arcs are right to 1 part in 10^7.
Test(lib_make, arcs_are_round) {
    Pattern pattern = {0};
    pattern_of("local c = arc { centre = point(0, 0), radius = 50, from = 0, sweep = 360 }\n"
               "around, turned = c.length, c.turning\n"
               "local a = arc { start = point(0, 0), heading = \"right\", length = 100, sweep = 90 }\n"
               "across = a.last.x",
               &pattern);
    cr_expect_float_eq(note_of(&pattern, "around"), 100 * M_PI, 1e-4);
    cr_expect_float_eq(note_of(&pattern, "turned"), 360, 1e-6);
    cr_expect_float_eq(note_of(&pattern, "across"), 100 / (M_PI / 2), 1e-4); // the radius
    pattern_finish(&pattern);
}

// The box handles: leaving right and arriving up with fullness k, the handles are k times the width and the
// height. At the middle of the cubic x = (a + 3 (a + k w) + 3 b + b) / 8.
Test(lib_make, fullness_is_the_part_of_the_box) {
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
