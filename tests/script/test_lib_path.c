// What paths are asked, against values known by geometry.
#include <criterion/criterion.h>

#include "bench.h"

Test(lib_path, paths_measure_and_cut) {
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
