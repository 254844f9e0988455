// What can be wrong with a geometric question. Each has one sentence.
#ifndef REBATO_GEOMETRY_ERROR_H
#define REBATO_GEOMETRY_ERROR_H

typedef enum GeomError {
    GEOM_OK,
    GEOM_NO_DIRECTION, // two points that should differ are one
    GEOM_PARALLEL,
    GEOM_NO_MEET,
    GEOM_BEYOND_END, // a distance longer than the path
    GEOM_NOT_ON_PATH,
    GEOM_NO_FOOT,    // no perpendicular lands on the path
    GEOM_NOT_JOINED, // ends of paths apart
    GEOM_NOT_CLOSED,
    GEOM_CROSSES_ITSELF,
    GEOM_VANISHES,      // an inward offset leaves nothing
    GEOM_TOO_TIGHT,     // a radius that does not fit a corner
    GEOM_NOT_BRACKETED, // the wanted value is not between the two ends
    GEOM_NO_CONVERGENCE,
    GEOM_NOT_FINITE, // a NaN, an infinity, or past the limit
    GEOM_TOO_MANY,   // more segments than PATH_SEGMENTS_MAX
    GEOM_ERROR_COUNT
} GeomError;

const char *geom_error_text(GeomError error); // one sentence, no full stop

#endif
