// New paths from old: cut, extended, turned round, offset, rounded.
#include <math.h>
#include <string.h>

#include "geometry/corner.h"
#include "geometry/offset.h"
#include "script/check.h"
#include "script/lib_path.h"
#include "script/library.h"

static int push_derived(lua_State *L, const Path *path, const PathBox *from, const char *made) {
    PathBox *box = value_push_path(L, path, from->sort);
    value_derive(&box->value, &from->value, made);
    return 1;
}

static int push_part(lua_State *L, const PathBox *self, double from, double to) {
    const Path view = box_path(self);
    Path *out = &run_of(L)->scratch[0];
    if (fabs(from - to) <= POINT_SAME_MM)
        fail(L, "%s: nothing is left of %s", word_name(L), value_describe(L, 1));
    const GeomError error = path_between(&view, from, to, out);
    if (error)
        fail_geometry(L, error);
    return push_derived(L, out, self, "part of");
}

static int path_part(lua_State *L) {
    const PathBox *self = check_path(L, 1);
    const Path view = box_path(self);
    const double from = check_place(L, 2, &view), to = check_place(L, 3, &view);
    check_last(L, 3);
    return push_part(L, self, from, to);
}

static int path_part_before(lua_State *L) {
    const PathBox *self = check_path(L, 1);
    const Path view = box_path(self);
    const double place = check_place(L, 2, &view);
    check_last(L, 2);
    return push_part(L, self, 0, place);
}

static int path_part_after(lua_State *L) {
    const PathBox *self = check_path(L, 1);
    const Path view = box_path(self);
    const double place = check_place(L, 2, &view);
    check_last(L, 2);
    return push_part(L, self, place, path_length(&view));
}

static int path_longer(lua_State *L) {
    const PathBox *self = check_path(L, 1);
    const PathEnd end = check_end(L, 2);
    const double distance = check_positive_mm(L, 3);
    check_last(L, 3);
    const Path view = box_path(self);
    Path *out = &run_of(L)->scratch[0];
    const GeomError error = path_extend(&view, end, distance, out);
    if (error)
        fail_geometry(L, error);
    return push_derived(L, out, self, "the extended");
}

// An edge stays an edge of its piece and is walked the other way.
static int path_turned(lua_State *L) {
    const PathBox *self = check_path(L, 1);
    check_last(L, 1);
    const Path view = box_path(self);
    Path *out = &run_of(L)->scratch[0];
    path_reverse(&view, out);
    PathBox *box = value_push_path(L, out, self->sort);
    box->value.label = self->value.label;
    box->offset = -self->offset;
    box->piece = self->piece;
    box->edge = self->edge;
    box->backward = !self->backward;
    return 1;
}

// Below this part of a full step sideways a path runs along the direction rather than beside it: about 6
// degrees.
#define BESIDE_LEAST 0.1

static const char *const compass_words[] = {"left", "right", "up", "down", NULL};

// The side of the path that lies in a direction of the page, where it passes the spot.
static Side side_toward(lua_State *L, const Path *path, PathSpot spot, int compass) {
    static const Point ways[] = {{-1, 0}, {1, 0}, {0, 1}, {0, -1}};
    const double left = point_dot(point_left(path_spot_direction(path, spot)), ways[compass]);
    if (fabs(left) < BESIDE_LEAST) {
        run_hint(run_of(L), compass < 2 ? "its sides are \"up\" and \"down\" there"
                                        : "its sides are \"left\" and \"right\" there");
        fail(L, "%s: %s runs %s, so \"%s\" is neither of its sides", word_name(L), value_describe(L, 1),
             compass < 2 ? "level" : "upright", compass_words[compass]);
    }
    return left > 0 ? SIDE_LEFT : SIDE_RIGHT;
}

// Rough cost of an offset: each segment is fitted, then loops are sought among all.
static void charge_offset(lua_State *L, const Path *path) {
    ledger_charge(L, 3000.0 * path->count + (double)path->count * path->count);
}

static int outline_parallel(lua_State *L, const PathBox *self, double distance, bool outward) {
    const Path view = box_path(self);
    Path *out = &run_of(L)->scratch[0];
    if (!path_is_closed(&view)) {
        run_hint(run_of(L), "say \"left\", \"right\", \"up\" or \"down\"");
        fail(L, "offset: %s is not closed, so it has no %s", value_describe(L, 1),
             outward ? "outside" : "inside");
    }
    charge_offset(L, &view);
    int parts = 1;
    const GeomError error =
        outline_offset(&view, outward ? distance : -distance, (OffsetOptions){0}, out, &parts);
    if (error == GEOM_VANISHES)
        fail(L, "offset: nothing is left of %s %s inside", value_describe(L, 1), push_mm(L, distance));
    if (error)
        fail_geometry(L, error);
    return push_derived(L, out, self, "the offset of");
}

// path:offset(d, side)
static int path_parallel(lua_State *L) {
    static const char *const words[] = {"left", "right", "up", "down", "outward", "inward", NULL};
    const PathBox *self = check_path(L, 1);
    const double distance = check_mm(L, 2);
    const int way = check_word(L, 3, words);
    check_last(L, 3);
    if (distance < 0) {
        run_hint(run_of(L), "say the other side instead");
        fail(L, "offset: a distance is not negative, got %s", push_mm(L, distance));
    }
    const Path view = box_path(self);
    if (distance <= POINT_SAME_MM)
        return push_derived(L, &view, self, "the offset of");
    if (way >= 4)
        return outline_parallel(L, self, distance, way == 4);
    charge_offset(L, &view);
    PathSpot middle;
    if (path_spot_at(&view, path_length(&view) / 2, &middle))
        middle = path_end_spot(&view, PATH_FIRST);
    const Side side = side_toward(L, &view, middle, way);
    Path *out = &run_of(L)->scratch[0];
    const GeomError error = path_offset(&view, distance, side, (OffsetOptions){0}, out);
    if (error == GEOM_VANISHES)
        fail(L, "offset: nothing is left of %s at %s to that side", value_describe(L, 1),
             push_mm(L, distance));
    if (error)
        fail_geometry(L, error);
    push_derived(L, out, self, "the offset of");
    if (path_is_straight(&view))
        value_path(L, -1)->offset = side == SIDE_LEFT ? distance : -distance;
    return 1;
}

// path:square(place, d, side)
static int path_square(lua_State *L) {
    const PathBox *self = check_path(L, 1);
    const Path view = box_path(self);
    const double place = check_place(L, 2, &view);
    const double distance = check_positive_mm(L, 3);
    const int way = check_word(L, 4, compass_words);
    check_last(L, 4);
    PathSpot spot;
    if (path_spot_at(&view, place, &spot))
        fail_geometry(L, GEOM_BEYOND_END);
    const Side side = side_toward(L, &view, spot, way);
    const Point along = path_spot_direction(&view, spot), from = path_spot_point(&view, spot);
    const Point out_of = side == SIDE_LEFT ? point_left(along) : point_right(along);
    Path *out = &run_of(L)->scratch[0];
    path_line(from, point_add(from, point_scale(out_of, distance)), out);
    PathBox *box = value_push_path(L, out, "line");
    value_derive(&box->value, &self->value, "the square of");
    return 1;
}

// path:round(corner, radius)
static int path_rounded(lua_State *L) {
    const PathBox *self = check_path(L, 1);
    const Path view = box_path(self);
    const double place = check_place(L, 2, &view);
    const double radius = check_positive_mm(L, 3);
    check_last(L, 3);
    ledger_charge(L, 2000.0 * view.count);
    Path *out = &run_of(L)->scratch[0];
    double fits = 0;
    const GeomError error = path_round_corner(&view, place, radius, out, &fits);
    if (error == GEOM_TOO_TIGHT) {
        run_hint(run_of(L), "the largest that fits is %s", push_mm(L, fits));
        fail(L, "round: a radius of %s does not fit the corner of %s", push_mm(L, radius),
             value_describe(L, 1));
    }
    if (error)
        fail(L, "round: %s has no corner at %s", value_describe(L, 1), push_mm(L, place));
    PathBox *box = value_push_path(L, out, "path");
    value_derive(&box->value, &self->value, "the rounded");
    return 1;
}

const Binding lib_cut_rows[] = {
    {{"path:between", "paths", "path:between(a, b)  ->  path",
      "The part of the path between two places: points on it, or distances in mm, negative ones from the far "
      "end.",
      "bodice.front.free = bodice.front.neckline:between(2*cm, -2*cm)"},
     path_part},
    {{"path:before", "paths", "path:before(place)  ->  path",
      "What lies before a point on the path or a distance along it, mm.",
      "bodice.front.near = bodice.front.shoulder:before(4*cm)"},
     path_part_before},
    {{"path:after", "paths", "path:after(place)  ->  path",
      "What lies after a point on the path or a distance along it, mm.",
      "bodice.front.far = bodice.front.shoulder:after(4*cm)"},
     path_part_after},
    {{"path:extend", "paths", "path:extend(\"first\" | \"last\", d)  ->  path",
      "The path made d mm longer, straight on at one end.",
      "bodice.front.axis = bodice.front.centre:extend(\"first\", 20*cm)"},
     path_longer},
    {{"path:reverse", "paths", "path:reverse()  ->  path", "The same path run through the other way.",
      "bodice.front.P = bodice.front.neckline:reverse():at(2*cm)"},
     path_turned},
    {{"path:offset", "paths",
      "path:offset(d, \"left\" | \"right\" | \"up\" | \"down\" | \"outward\" | \"inward\")  ->  path",
      "The parallel at d mm. The sides are those of the page, as they lie at the middle of the path; outward "
      "and inward "
      "are for closed paths.",
      "bodice.front.facing = bodice.front.neckline:offset(4*cm, \"right\")"},
     path_parallel},
    {{"path:square", "paths", "path:square(place, d, \"up\" | \"down\" | \"left\" | \"right\")  ->  path",
      "A line of d mm square to the path, from a point on it or a distance along it, to that side of the "
      "page.",
      "bodice.front.arm = bodice.front.shoulder:square(2*cm, 8*cm, \"up\")"},
     path_square},
    {{"path:round", "paths", "path:round(corner, radius)  ->  path",
      "The path with one of its corners rounded by an arc of the radius, mm. An error says the largest that "
      "fits.",
      "local d = draft \"Corner\"\n"
      "local corner = point(10*cm, 0)\n"
      "d.edge = line(point(0, 0), corner, point(10*cm, 10*cm)):round(corner, 4*cm)"},
     path_rounded},
    {{NULL}, NULL},
};
