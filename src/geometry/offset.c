// Life of a call: raw_parallel joins the parallels of the pieces at the corners; unloop removes the loops
// that makes.
#include "geometry/offset.h"

#include <assert.h>

#include "base/memory.h"
#include "geometry/raw.h"
#include "geometry/unloop.h"

#define MITRE_LIMIT 10.0
// Open parallels are made better than the tolerance by this share: what is too near the source is told by the
// rest.
#define OPEN_SHARE 0.7
// Points of an inward raw parallel nearer to the source than the distance by more than these tolerances
// belong to a part turned inside out.
#define NEAR_SHARE 3.0

static OffsetOptions filled(OffsetOptions options) {
    if (!(options.mitre_limit > 0.0))
        options.mitre_limit = MITRE_LIMIT;
    if (!(options.tolerance > 0.0))
        options.tolerance = CURVE_FIT_MM;
    return options;
}

// Of the border of an inward offset, every point is the distance away from the source.
typedef struct Inside {
    const Chords *source;
    double least;
} Inside;

static bool is_far_enough(const void *context, Point p) {
    const Inside *inside = context;
    return !chords_within(inside->source, p, inside->least);
}

// The offset of a simple outline that winds counter-clockwise.
static GeomError offset_simple(const Path *outline, double distance, const OffsetOptions *options, Path *out,
                               int *parts) {
    Path raw = {0};
    GeomError error = raw_parallel(outline, true, -distance, options, &raw);
    if (error == GEOM_OK && distance > 0.0) {
        error = unloop(&raw, options->tolerance, NULL, NULL, parts);
    } else if (error == GEOM_OK) {
        Chords source;
        chords_init(&source, outline, true, false);
        const Inside inside = {.source = &source, .least = -distance - NEAR_SHARE * options->tolerance};
        error = unloop(&raw, options->tolerance, is_far_enough, &inside, parts);
        chords_finish(&source);
    }
    if (error == GEOM_OK && raw.count > PATH_SEGMENTS_MAX)
        error = GEOM_TOO_MANY;
    if (error != GEOM_OK) {
        path_finish(&raw);
        return error;
    }
    path_finish(out);
    *out = raw;
    return GEOM_OK;
}

GeomError outline_offset(const Path *outline, double distance, OffsetOptions options, Path *out, int *parts) {
    assert(out != outline);
    if (outline->count == 0 || !path_is_closed(outline))
        return GEOM_NOT_CLOSED;
    if (!path_finite(outline) || !(fabs(distance) <= COORDINATE_LIMIT_MM))
        return GEOM_NOT_FINITE;
    if (outline->count > PATH_SEGMENTS_MAX)
        return GEOM_TOO_MANY;
    options = filled(options);
    Chords chords;
    chords_init(&chords, outline, true, false);
    const bool clockwise = chords_area(&chords) < 0.0;
    const bool apart = chords_apart(&chords);
    chords_finish(&chords);
    if (!apart && outline_crosses_itself(outline, options.tolerance))
        return GEOM_CROSSES_ITSELF;
    if (distance == 0.0) {
        path_copy(outline, out);
        if (parts)
            *parts = 1;
        return GEOM_OK;
    }
    if (!clockwise)
        return offset_simple(outline, distance, &options, out, parts);
    Path turned = {0}, result = {0};
    path_reverse(outline, &turned);
    const GeomError error = offset_simple(&turned, distance, &options, &result, parts);
    if (error == GEOM_OK)
        path_reverse(&result, out);
    path_finish(&turned);
    path_finish(&result);
    return error;
}

GeomError outline_unloop(const Path *raw, bool inner, double tolerance, Path *out, int *parts) {
    assert(out != raw);
    if (raw->count == 0 || !path_is_closed(raw))
        return GEOM_NOT_CLOSED;
    if (!path_finite(raw))
        return GEOM_NOT_FINITE;
    Path work = {0};
    path_copy(raw, &work);
    int found = 0;
    const GeomError error = unloop(&work, tolerance > 0.0 ? tolerance : CURVE_FIT_MM, NULL, NULL, &found);
    if (error != GEOM_OK) {
        path_finish(&work);
        return error;
    }
    if (parts)
        *parts = inner ? found : 1;
    path_finish(out);
    *out = work;
    return GEOM_OK;
}

static GeomError check_open(const Path *path, double distance) {
    if (path->count == 0)
        return GEOM_NO_DIRECTION;
    if (!path_finite(path) || !(distance <= COORDINATE_LIMIT_MM))
        return GEOM_NOT_FINITE;
    return path->count > PATH_SEGMENTS_MAX ? GEOM_TOO_MANY : GEOM_OK;
}

GeomError path_offset(const Path *path, double distance, Side side, OffsetOptions options, Path *out) {
    assert(out != path && distance >= 0.0);
    GeomError error = check_open(path, distance);
    if (error != GEOM_OK)
        return error;
    if (path_is_closed(path) && path->count > 1) {
        const bool left_is_inside = path_area(path) > 0.0;
        return outline_offset(path, left_is_inside == (side == SIDE_LEFT) ? -distance : distance, options,
                              out, NULL);
    }
    if (distance == 0.0) {
        path_copy(path, out);
        return GEOM_OK;
    }
    options = filled(options);
    const double tolerance = options.tolerance;
    options.tolerance *= OPEN_SHARE;
    Path raw = {0};
    error = raw_parallel(path, false, side == SIDE_LEFT ? distance : -distance, &options, &raw);
    if (error == GEOM_OK)
        error = unloop_open(&raw, path, distance, tolerance);
    if (error == GEOM_OK && raw.count > PATH_SEGMENTS_MAX)
        error = GEOM_TOO_MANY;
    if (error != GEOM_OK) {
        path_finish(&raw);
        return error;
    }
    path_finish(out);
    *out = raw;
    return GEOM_OK;
}

GeomError path_offset_raw(const Path *path, double distance, Side side, double tolerance, Path *out) {
    assert(out != path && distance >= 0.0);
    const GeomError error = check_open(path, distance);
    if (error != GEOM_OK)
        return error;
    if (distance == 0.0) {
        path_copy(path, out);
        return GEOM_OK;
    }
    const OffsetOptions options = filled((OffsetOptions){.join = JOIN_MITRE, .tolerance = tolerance});
    return raw_parallel(path, false, side == SIDE_LEFT ? distance : -distance, &options, out);
}
