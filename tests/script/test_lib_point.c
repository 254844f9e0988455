// The words of points, and lay, against values known by geometry.
#include <math.h>
#include <stdio.h>

#include <criterion/criterion.h>

#include "bench.h"

Test(lib_point, points_go_in_the_directions_they_say) {
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

// Two shoulders of 100 mm, both bodies below: laid together the second body lies above, and an overlap of 20
// mm at the tips swings it by 2 asin(20 / 200) about the neck point (plane geometry).
Test(lib_point, lay_turns_over_and_overlaps) {
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
