// The words that make paths of paths, against values known by geometry.
#include <criterion/criterion.h>

#include "bench.h"

Test(lib_cut, offsets_go_to_the_side_of_the_page_whatever_the_travel) {
    gives("r = line(point(0, 0), point(0, -100)):offset(7, \"right\").first.x", 7);
    gives("r = line(point(0, -100), point(0, 0)):offset(7, \"right\").first.x", 7);
    gives("r = line(point(0, 0), point(100, 0)):offset(7, \"down\").first.y", -7);
    gives("r = line(point(100, 0), point(0, 0)):offset(7, \"up\").first.y", 7);
    gives("r = arc({ centre = point(0, 0), radius = 50, from = 0, sweep = 360 }):offset(10, "
          "\"outward\"):at(0).x",
          60);
}
