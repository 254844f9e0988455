// Making paths: lines, curves, arcs, chains.
#include <math.h>
#include <string.h>

#include "geometry/hobby.h"
#include "script/check.h"
#include "script/library.h"

// The most points of one line or curve.
#define MAKE_POINTS_MAX 1000

static int check_point_count(lua_State *L, int count) {
    if (count < 2)
        fail(L, "%s needs at least two points", word_name(L));
    if (count > MAKE_POINTS_MAX)
        fail(L, "%s takes at most %d points, got %d", word_name(L), MAKE_POINTS_MAX, count);
    return count;
}

// line(a, b, ...)
static int line_make(lua_State *L) {
    const int count = lua_gettop(L);
    Point points[MAKE_POINTS_MAX];
    for (int i = 1; i <= count && i <= MAKE_POINTS_MAX; i++)
        points[i - 1] = check_point(L, i)->point;
    check_point_count(L, count);
    Path *out = &run_of(L)->scratch[0];
    for (int i = 1; i < count; i++)
        if (point_same(points[i - 1], points[i]))
            fail(L, "line: %s and %s are the same point, at (%s, %s)", value_describe(L, i),
                 value_describe(L, i + 1), push_mm(L, points[i].x), push_mm(L, points[i].y));
    const GeomError error = path_polyline(points, count, out);
    if (error)
        fail_geometry(L, error);
    value_push_path(L, out, count == 2 ? "line" : "path");
    return 1;
}

// One point of a curve: a point, or { point, direction = degrees or word }.
static Knot check_knot(lua_State *L, int argument) {
    static const char *const fields[] = {"direction", "tension", NULL};
    const PointBox *p = value_point(L, argument);
    if (p)
        return (Knot){.at = p->point};
    if (lua_type(L, argument) != LUA_TTABLE)
        fail_argument(L, argument, "a point, or { point, direction = ... }");
    check_fields(L, argument, fields);
    lua_rawgeti(L, argument, 1);
    p = value_point(L, -1);
    if (!p)
        fail_argument(L, argument, "a point, or { point, direction = ... }");
    Knot knot = {.at = p->point};
    lua_pop(L, 1);
    knot.has_leave = knot.has_arrive = field_degrees(L, argument, "direction", &knot.leave);
    knot.arrive = knot.leave;
    return knot;
}

static bool field_path(lua_State *L, int index, const char *field, Path *out) {
    const int type = lua_getfield(L, index, field);
    const PathBox *box = value_path(L, -1);
    if (type != LUA_TNIL && !box)
        fail(L, "%s: %s should be a path, got %s", word_name(L), field, value_describe(L, -1));
    if (box)
        *out = box_path(box); // held by the table
    lua_pop(L, 1);
    return box != NULL;
}

// The direction square to a path where p lies nearest to it, of the two the one that goes toward `toward`.
static double square_direction(lua_State *L, const Path *path, Point p, Point toward) {
    ledger_charge(L, 200.0 * path->count);
    const Point along = path_spot_direction(path, path_nearest(path, p));
    const Point left = point_left(along);
    const double side = point_dot(left, point_sub(toward, p));
    return point_angle(side >= 0 ? left : point_scale(left, -1));
}

typedef struct CurveOptions {
    double tension, fullness;
    bool has_fullness, closed;
} CurveOptions;

static CurveOptions check_curve_options(lua_State *L, int index, Knot *knots, int count) {
    static const char *const fields[] = {"leave",    "arrive",  "leave_square", "arrive_square",
                                         "fullness", "tension", "closed",       NULL};
    check_fields(L, index, fields);
    CurveOptions options = {.tension = 1};
    Knot *first = &knots[0], *last = &knots[count - 1];
    Path path;
    if (field_degrees(L, index, "leave", &first->leave))
        first->has_leave = true;
    if (field_degrees(L, index, "arrive", &last->arrive))
        last->has_arrive = true;
    if (field_path(L, index, "leave_square", &path)) {
        first->leave = square_direction(L, &path, first->at, knots[1].at);
        first->has_leave = true;
    }
    if (field_path(L, index, "arrive_square", &path)) {
        // Toward the first point, turned round: the curve arrives from there.
        const double back = square_direction(L, &path, last->at, knots[count - 2].at);
        last->arrive = back > 0 ? back - 180 : back + 180;
        last->has_arrive = true;
    }
    options.closed = field_flag(L, index, "closed");
    options.has_fullness = field_number(L, index, "fullness", &options.fullness);
    if (field_number(L, index, "tension", &options.tension) && options.tension < 0.75) {
        run_hint(run_of(L), "1 is the usual curve, more is flatter");
        fail(L, "curve: tension should be at least 0.75, got %s", push_number(L, options.tension));
    }
    return options;
}

// curve(a, b, ..., { options })
static int curve_make(lua_State *L) {
    int count = lua_gettop(L);
    Run *run = run_of(L);
    int options_at = 0;
    if (count > 0 && lua_type(L, count) == LUA_TTABLE) {
        lua_rawgeti(L, count, 1);
        const bool is_knot = value_point(L, -1) != NULL;
        lua_pop(L, 1);
        if (!is_knot)
            options_at = count--;
    }
    Knot knots[MAKE_POINTS_MAX];
    for (int i = 1; i <= count && i <= MAKE_POINTS_MAX; i++)
        knots[i - 1] = check_knot(L, i);
    check_point_count(L, count);
    CurveOptions options = {.tension = 1};
    if (options_at)
        options = check_curve_options(L, options_at, knots, count);
    for (int i = 0; i < count; i++)
        knots[i].tension_in = knots[i].tension_out = options.tension;
    for (int i = 1; i < count; i++)
        if (point_same(knots[i - 1].at, knots[i].at))
            fail(L, "curve: points %d and %d are the same point, at (%s, %s)", i, i + 1,
                 push_mm(L, knots[i].at.x), push_mm(L, knots[i].at.y));
    ledger_charge(L, 500.0 * count);
    Path *out = &run->scratch[0];
    GeomError error;
    if (options.has_fullness) {
        if (count != 2 || options.closed)
            fail(L, "curve: fullness is for a curve between two points, got %d", count);
        if (!knots[0].has_leave || !knots[1].has_arrive)
            fail(L, "curve: with fullness say how the curve leaves and how it arrives");
        if (options.fullness <= 0 || options.fullness > 2) {
            run_hint(run, "0.5523 is the quarter ellipse");
            fail(L, "curve: fullness should be above 0 and at most 2, got %s",
                 push_number(L, options.fullness));
        }
        error =
            path_box_curve(knots[0].at, knots[0].leave, knots[1].at, knots[1].arrive, options.fullness, out);
    } else {
        error = path_through(knots, count, options.closed, out);
    }
    if (error)
        fail_geometry(L, error);
    value_push_path(L, out, "curve");
    return 1;
}

static double need_field(lua_State *L, const char *field, bool angle) {
    double value;
    if (angle ? field_degrees(L, 1, field, &value) : field_mm(L, 1, field, &value))
        return value;
    run_hint(run_of(L), "arc { centre = p, radius = mm, from = degrees, sweep = degrees } or "
                        "arc { start = p, heading = degrees, length = mm, sweep = degrees }");
    fail(L, "arc: %s is missing", field);
}

static double check_above_zero(lua_State *L, const char *field, double value) {
    if (value <= 0)
        fail(L, "arc: %s should be above zero, got %s", field, push_mm(L, value));
    return value;
}

// arc { centre =, radius =, from =, sweep = } or arc { start =, heading =, length =, sweep = }
static int arc_make(lua_State *L) {
    static const char *const round[] = {"centre", "radius", "from", "sweep", NULL};
    static const char *const running[] = {"start", "heading", "length", "sweep", NULL};
    if (lua_type(L, 1) != LUA_TTABLE)
        fail_argument(L, 1, "a table such as { centre = p, radius = 3*cm, from = 0, sweep = 90 }");
    check_last(L, 1);
    Point at;
    Path *out = &run_of(L)->scratch[0];
    GeomError error;
    const bool has_start = field_point(L, 1, "start", &at);
    check_fields(L, 1, has_start ? running : round);
    const double sweep = need_field(L, "sweep", false);
    if (sweep == 0 || fabs(sweep) > 360)
        fail(L, "arc: sweep should be up to 360 degrees either way and not 0, got %s", push_number(L, sweep));
    if (has_start) {
        const double heading = need_field(L, "heading", true);
        const double length = check_above_zero(L, "length", need_field(L, "length", false));
        error = path_arc_of_length(at, heading, length, sweep, out);
    } else {
        if (!field_point(L, 1, "centre", &at))
            need_field(L, "centre", false);
        const double radius = check_above_zero(L, "radius", need_field(L, "radius", false));
        error = path_arc(at, radius, need_field(L, "from", true), sweep, out);
    }
    if (error)
        fail_geometry(L, error);
    value_push_path(L, out, "arc");
    return 1;
}

#define JOIN_PARTS_MAX 1000

// The distance between the nearest ends of two parts.
static double end_gap(const Path *a, const Path *b) {
    double gap = INFINITY;
    for (PathEnd i = PATH_FIRST; i <= PATH_LAST; i++)
        for (PathEnd j = PATH_FIRST; j <= PATH_LAST; j++)
            gap = fmin(gap, point_distance(path_end(a, i), path_end(b, j)));
    return gap;
}

// join(a, b, ...)
static int join_make(lua_State *L) {
    const int count = lua_gettop(L);
    if (count < 1)
        fail(L, "join needs at least one path");
    if (count > JOIN_PARTS_MAX)
        fail(L, "join takes at most %d paths, got %d", JOIN_PARTS_MAX, count);
    Path views[JOIN_PARTS_MAX];
    const Path *parts[JOIN_PARTS_MAX];
    double segments = 0;
    for (int i = 0; i < count; i++) {
        const PathBox *box = check_path(L, i + 1);
        views[i] = box_path(box);
        parts[i] = &views[i];
        segments += box->count;
    }
    if (segments > PATH_SEGMENTS_MAX)
        fail_geometry(L, GEOM_TOO_MANY);
    ledger_charge(L, segments);
    Path *out = &run_of(L)->scratch[0];
    int at = 0;
    const GeomError error = path_join(parts, count, out, &at);
    if (error == GEOM_NOT_JOINED && at > 0) {
        run_hint(run_of(L), "the nearest ends lie %s apart; the parts must follow on in the order given",
                 push_mm(L, end_gap(parts[at - 1], parts[at])));
        fail(L, "join: %s does not follow on from %s", value_describe(L, at + 1), value_describe(L, at));
    }
    if (error)
        fail_geometry(L, error);
    value_push_path(L, out, "path");
    return 1;
}

const Binding lib_make_rows[] = {
    {{"line", "paths", "line(a, b, ...)  ->  path",
      "A straight line from point to point, or a chain of straight lines through more of them.",
      "local f = bodice.front\n"
      "f.vee = line(f.centre_neck:down(12*cm), f.neck_point)"},
     line_make},
    {{"curve", "paths",
      "curve(a, b, ..., { leave=, arrive=, leave_square=, arrive_square=, fullness=, tension=, closed= })",
      "A fair curve through the points (J. D. Hobby, Discrete and Computational Geometry 1, 1986). leave and "
      "arrive are "
      "degrees or \"up\", \"down\", \"left\", \"right\"; leave_square and arrive_square are paths the curve "
      "is square to. "
      "A point may be { point, direction = degrees }. With fullness, for two points, the drafting curve of "
      "one cubic: its "
      "handles are that part of the box between the points, 0.5523 for the quarter ellipse. tension: 1 "
      "unless given, more "
      "is flatter. closed = true comes back to the first point.",
      "local f = bodice.front\n"
      "f.scoop = curve(f.centre_neck:down(5*cm), f.shoulder:at(2*cm),\n"
      "                { leave = \"right\", arrive = \"up\", fullness = 0.55 })"},
     curve_make},
    {{"arc", "paths",
      "arc { centre=, radius=, from=, sweep= }  or  arc { start=, heading=, length=, sweep= }",
      "Part of a circle: round a centre, or from a point on with a length. Angles in degrees, sweep "
      "counter-clockwise where "
      "positive, lengths in mm.",
      "local d = draft \"Arcs\"\n"
      "d.quarter = arc { centre = point(0, 0), radius = 8*cm, from = 0, sweep = 90 }\n"
      "d.base = arc { start = point(0, 12*cm), heading = \"right\", length = 20*cm, sweep = 30 }"},
     arc_make},
    {{"join", "paths", "join(a, b, ...)  ->  path",
      "Paths end to end in the order given, each turned round where it has to be. An error where the next "
      "does not follow on "
      "within 0.01 mm.",
      "bodice.front.edge = join(bodice.front.neckline, bodice.front.shoulder)"},
     join_make},
    {{NULL}, NULL},
};
