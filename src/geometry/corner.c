// The arc that rounds a corner touches both arms of it: its centre lies at the radius from each. An arm
// reaches from the corner to the next corner or the end of the path. For two lines the place is known: with
// the turn d of the tangent at the corner, the arc starts radius tan(d/2) before it and ends as far after it.
// Otherwise the centre is carried along the parallel of the first arm, away from the corner, until it is the
// radius away from the second.
#include "geometry/corner.h"

#include <assert.h>

#include "geometry/solve.h"

typedef struct Corner {
    Path first, second; // the arms, borrowed from the path
    Path second_longer; // the second one, led back straight behind the corner
    double before;      // by this much
    double length_first, length_second;
    double turn; // degrees
    double side; // 1 turning left, -1 turning right
} Corner;

typedef struct Fit {
    double radius;
    double back, ahead; // where the arc starts and ends, measured from the corner
    Point centre;
} Fit;

static double turn_at(const Path *path, int before, int after) {
    return point_turn(segment_direction(&path->items[before], 1), segment_direction(&path->items[after], 0));
}

// The corner lies before segment `joint` (0 or count: where a closed path closes).
static bool corner_at(const Path *path, int joint, Corner *out) {
    const bool closing = joint == 0 || joint == path->count;
    const int last = closing ? path->count - 1 : joint - 1, first = closing ? 0 : joint;
    int from = last, to = first;
    while (from > 0 && (closing ? from > first : true) &&
           fabs(turn_at(path, from - 1, from)) <= SMOOTH_DEGREES)
        from--;
    while (to < path->count - 1 && fabs(turn_at(path, to, to + 1)) <= SMOOTH_DEGREES)
        to++;
    if (closing && from <= to)
        return false; // a drop with no second corner: its two arms are one
    *out = (Corner){.first = {.items = path->items + from, .count = last - from + 1},
                    .second = {.items = path->items + first, .count = to - first + 1},
                    .turn = turn_at(path, last, first)};
    out->length_first = path_length(&out->first);
    out->length_second = path_length(&out->second);
    out->side = out->turn > 0 ? 1 : -1;
    return true;
}

static Point centre_at(const Corner *c, double back, double radius) {
    PathSpot spot = path_end_spot(&c->first, PATH_FIRST);
    if (back < c->length_first)
        path_spot_at(&c->first, c->length_first - back, &spot);
    const Point left = point_left(path_spot_direction(&c->first, spot));
    return point_add(path_spot_point(&c->first, spot), point_scale(left, c->side * radius));
}

// How much further than the radius the centre lies from the second arm, on the inner side.
typedef struct Reach {
    const Corner *corner;
    double radius;
} Reach;

static int reach(void *context, double back, double *out) {
    const Reach *r = context;
    const Point centre = centre_at(r->corner, back, r->radius);
    const PathSpot foot = path_nearest(&r->corner->second_longer, centre);
    const Point off = point_sub(centre, path_spot_point(&r->corner->second_longer, foot));
    const double left = point_cross(path_spot_direction(&r->corner->second_longer, foot), off);
    *out = (left * r->corner->side >= 0 ? point_size(off) : -point_size(off)) - r->radius;
    return 1;
}

static bool fit_lines(const Corner *c, double radius, Fit *out) {
    const double back = radius * tan(RADIANS(fabs(c->turn)) / 2);
    if (!(back <= fmin(c->length_first, c->length_second) + POINT_SAME_MM))
        return false;
    *out = (Fit){.radius = radius, .back = back, .ahead = back, .centre = centre_at(c, back, radius)};
    return true;
}

// Whether the circle leaves the arms beyond its two touching points alone.
static bool clear_of_arms(const Corner *c, const Fit *fit) {
    const double least = fit->radius - CURVE_FIT_MM;
    Path rest = {0};
    bool clear = true;
    if (fit->back < c->length_first - POINT_SAME_MM &&
        path_between(&c->first, 0, c->length_first - fit->back, &rest) == GEOM_OK)
        clear = path_distance(&rest, fit->centre) >= least;
    if (clear && fit->ahead < c->length_second - POINT_SAME_MM &&
        path_between(&c->second, fit->ahead, c->length_second, &rest) == GEOM_OK)
        clear = path_distance(&rest, fit->centre) >= least;
    path_finish(&rest);
    return clear;
}

static bool fit_curves(const Corner *c, double radius, Fit *out) {
    Reach context = {.corner = c, .radius = radius};
    double from = 0, to = fmin(radius * tan(RADIANS(fmin(fabs(c->turn), 179)) / 2) / 4, c->length_first),
           at_to;
    reach(&context, to, &at_to);
    while (at_to < 0 && to < c->length_first) {
        from = to;
        to = fmin(to * 1.25, c->length_first);
        reach(&context, to, &at_to);
    }
    if (at_to < -MEET_MM)
        return false;
    Fit fit = {.radius = radius};
    if (solve_between(reach, &context, from, to, MEET_MM, &fit.back, NULL) != GEOM_OK)
        return false;
    fit.centre = centre_at(c, fit.back, radius);
    const PathSpot foot = path_nearest(&c->second_longer, fit.centre);
    const Point off = point_sub(fit.centre, path_spot_point(&c->second_longer, foot));
    fit.ahead = path_spot_distance(&c->second_longer, foot) - c->before;
    const bool square = fabs(point_dot(off, path_spot_direction(&c->second_longer, foot))) <= POINT_SAME_MM;
    if (!square || fit.ahead < 0 || !clear_of_arms(c, &fit))
        return false;
    *out = fit;
    return true;
}

static bool corner_is_of_lines(const Corner *c) {
    return path_is_straight(&c->first) && path_is_straight(&c->second);
}

static bool fit_radius(const Corner *c, double radius, Fit *out) {
    return corner_is_of_lines(c) ? fit_lines(c, radius, out) : fit_curves(c, radius, out);
}

// For curves the largest radius is closed in on to 1 part in 10^4, always from the side that fits.
static double largest_that_fits(const Corner *c, double radius) {
    if (corner_is_of_lines(c))
        return fmin(c->length_first, c->length_second) / tan(RADIANS(fabs(c->turn)) / 2);
    Fit fit;
    double low = 0, high = radius;
    for (int i = 0; i < 60 && high - low > 1e-4 * high && high > POINT_SAME_MM; i++) {
        const double middle = (low + high) / 2;
        if (fit_radius(c, middle, &fit))
            low = middle;
        else
            high = middle;
    }
    return low;
}

static void add_piece(const Path *path, double from, double to, Path *out) {
    Path piece = {0};
    if (to - from > POINT_SAME_MM && path_between(path, from, to, &piece) == GEOM_OK)
        path_add_path(out, &piece);
    path_finish(&piece);
}

static GeomError round_joint(const Path *path, int joint, double radius, Path *out, double *fits) {
    if (!(fabs(radius) <= COORDINATE_LIMIT_MM))
        return GEOM_NOT_FINITE;
    if (radius <= 0)
        return GEOM_NO_DIRECTION;
    Corner c;
    if (!corner_at(path, joint, &c)) {
        if (fits)
            *fits = 0;
        return GEOM_TOO_TIGHT;
    }
    if (fabs(c.turn) <= SMOOTH_DEGREES) { // nothing to round
        path_copy(path, out);
        return GEOM_OK;
    }
    c.before = 4 * (c.length_first + radius);
    Fit fit;
    bool found = path_extend(&c.second, PATH_FIRST, c.before, &c.second_longer) == GEOM_OK &&
                 fabs(c.turn) < 180 - SMOOTH_DEGREES && fit_radius(&c, radius, &fit);
    if (!found) {
        if (fits)
            *fits = c.second_longer.count > 0 ? largest_that_fits(&c, radius) : 0;
        path_finish(&c.second_longer);
        return GEOM_TOO_TIGHT;
    }
    path_finish(&c.second_longer);

    PathSpot start = path_end_spot(&c.first, PATH_FIRST), end = path_end_spot(&c.second, PATH_LAST);
    if (fit.back < c.length_first)
        path_spot_at(&c.first, c.length_first - fit.back, &start);
    if (fit.ahead < c.length_second)
        path_spot_at(&c.second, fit.ahead, &end);
    const Point touch_first = path_spot_point(&c.first, start),
                touch_second = path_spot_point(&c.second, end);
    const Point from = point_sub(touch_first, fit.centre), to = point_sub(touch_second, fit.centre);
    double sweep = point_turn(from, to);
    if (sweep * c.side < 0)
        sweep += 360 * c.side;

    Path arc = {0};
    const GeomError error = path_arc(fit.centre, radius, point_angle(from), sweep, &arc);
    const bool closing = joint == 0 || joint == path->count;
    const double length = path_length(path);
    if (!error) {
        path_clear(out);
        if (closing) {
            add_piece(path, fit.ahead, length - fit.back, out);
            path_add_path(out, &arc);
            Segment *last = &out->items[out->count - 1];
            last->p3 = path_first(out);
        } else {
            const double at = path_spot_distance(path, (PathSpot){joint, 0});
            add_piece(path, 0, at - fit.back, out);
            path_add_path(out, &arc);
            add_piece(path, at + fit.ahead, length, out);
        }
    }
    path_finish(&arc);
    return error;
}

GeomError path_round_corner(const Path *path, double at, double radius, Path *out, double *fits) {
    assert(out != path && path->count > 0);
    PathSpot spot;
    const GeomError error = path_spot_at(path, at, &spot);
    if (error)
        return error;
    const double distance = path_spot_distance(path, spot);
    double along = 0;
    for (int joint = 0; joint <= path->count; joint++) {
        const bool inner = joint > 0 && joint < path->count;
        if (fabs(along - distance) <= POINT_ON_MM && (inner || path_is_closed(path)))
            return round_joint(path, joint, radius, out, fits);
        along += inner || joint == 0 ? segment_length(&path->items[joint]) : 0;
    }
    return GEOM_NOT_ON_PATH;
}
