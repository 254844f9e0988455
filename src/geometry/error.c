#include "geometry/error.h"

#include <assert.h>

const char *geom_error_text(GeomError error) {
    static const char *const TEXT[GEOM_ERROR_COUNT] = {
        [GEOM_OK] = "nothing is wrong",
        [GEOM_NO_DIRECTION] = "two points that should differ are the same point, so there is no direction",
        [GEOM_PARALLEL] = "the lines are parallel, so they never meet",
        [GEOM_NO_MEET] = "the paths do not meet",
        [GEOM_BEYOND_END] = "the distance is longer than the path",
        [GEOM_NOT_ON_PATH] = "the point does not lie on the path",
        [GEOM_NO_FOOT] = "no perpendicular from the point lands on the path",
        [GEOM_NOT_JOINED] = "the ends of the paths do not touch",
        [GEOM_NOT_CLOSED] = "the path is not closed: its last point is not its first",
        [GEOM_CROSSES_ITSELF] = "the path crosses itself",
        [GEOM_VANISHES] = "the offset is so far inward that nothing is left",
        [GEOM_TOO_TIGHT] = "the radius does not fit the corner",
        [GEOM_NOT_BRACKETED] = "the wanted value does not lie between what the two ends give",
        [GEOM_NO_CONVERGENCE] = "no number was found that gives the wanted value",
        [GEOM_NOT_FINITE] = "a coordinate is not a number, or lies more than 100 m away",
        [GEOM_TOO_MANY] = "the path has more than 20000 segments",
    };
    assert(error >= 0 && error < GEOM_ERROR_COUNT);
    return TEXT[error];
}
