// What a path is asked: its measures, places on it, where it meets another.
#include <math.h>

#include "base/memory.h"
#include "script/check.h"
#include "script/lib_path.h"
#include "script/library.h"

static int path_field_length(lua_State *L) {
    const Path view = box_path(check_path(L, 1));
    ledger_charge(L, 20.0 * view.count);
    lua_pushnumber(L, path_length(&view));
    return 1;
}

static int path_push_end(lua_State *L, PathEnd end) {
    const PathBox *box = check_path(L, 1);
    const Path view = box_path(box);
    PointBox *p = value_push_point(L, path_end(&view, end));
    value_derive(&p->value, &box->value, end == PATH_FIRST ? "the first point of" : "the last point of");
    return 1;
}

static int path_field_first(lua_State *L) {
    return path_push_end(L, PATH_FIRST);
}
static int path_field_last(lua_State *L) {
    return path_push_end(L, PATH_LAST);
}

static int path_field_turning(lua_State *L) {
    const Path view = box_path(check_path(L, 1));
    ledger_charge(L, 20.0 * view.count);
    lua_pushnumber(L, path_turning(&view));
    return 1;
}

// Raises: a distance past the end of the path at index 1.
static void fail_beyond(lua_State *L, const Path *path, double distance) {
    const char *which = distance < 0 ? "beginning" : "end";
    fail(L, "%s: %s is beyond the %s of %s, which is %s long", word_name(L), push_mm(L, fabs(distance)),
         which, value_describe(L, 1), push_mm(L, path_length(path)));
}

// Raises: the point at the argument is not on the path at index 1.
static void fail_off(lua_State *L, const Path *path, int argument) {
    const double off = path_distance(path, value_point(L, argument)->point);
    run_hint(run_of(L), "path:foot(point) gives the point of the path square below it");
    fail(L, "%s: %s does not lie on %s but %s off it", word_name(L), value_describe(L, argument),
         value_describe(L, 1), push_mm(L, off));
}

// A place on the path at index 1, told as a distance or as a point on it, as a distance from its first point.
double check_place(lua_State *L, int argument, const Path *path) {
    ledger_charge(L, 200.0 * path->count);
    const PointBox *p = value_point(L, argument);
    double distance;
    if (p) {
        if (path_along(path, p->point, &distance))
            fail_off(L, path, argument);
        return distance;
    }
    if (lua_type(L, argument) != LUA_TNUMBER)
        fail_argument(L, argument, "a distance or a point on the path");
    distance = check_mm(L, argument);
    PathSpot spot;
    if (path_spot_at(path, distance, &spot))
        fail_beyond(L, path, distance);
    return distance < 0 ? fmax(0, path_length(path) + distance) : distance;
}

static int path_point_at(lua_State *L) {
    const PathBox *box = check_path(L, 1);
    const double distance = check_mm(L, 2);
    check_last(L, 2);
    const Path view = box_path(box);
    ledger_charge(L, 100.0 * view.count);
    Point p;
    if (path_at(&view, distance, &p))
        fail_beyond(L, &view, distance);
    PointBox *out = value_push_point(L, p);
    value_derive(&out->value, &box->value, "a point of");
    return 1;
}

static int path_where(lua_State *L) {
    const Path view = box_path(check_path(L, 1));
    check_point(L, 2);
    check_last(L, 2);
    lua_pushnumber(L, check_place(L, 2, &view));
    return 1;
}

static int path_foot_of(lua_State *L) {
    const PathBox *box = check_path(L, 1);
    const Point p = check_point(L, 2)->point;
    check_last(L, 2);
    const Path view = box_path(box);
    ledger_charge(L, 400.0 * view.count);
    Point foot;
    const GeomError error = path_foot(&view, p, &foot);
    if (error == GEOM_NO_FOOT) {
        run_hint(run_of(L), "the nearest point of it is an end, %s away; path:extend makes it longer",
                 push_mm(L, path_distance(&view, p)));
        fail(L, "foot: no line square to %s passes through %s", value_describe(L, 1), value_describe(L, 2));
    }
    if (error)
        fail_geometry(L, error);
    PointBox *out = value_push_point(L, foot);
    value_derive(&out->value, &box->value, "the foot on");
    return 1;
}

// The least and the greatest distance of a path to the left of the endless line from p along the unit vector
// u.
static void span_left_of(const Path *path, Point p, Point u, double *least, double *most) {
    Point *points;
    int count;
    path_flatten(path, CURVE_FIT_MM, &points, &count);
    *least = INFINITY;
    *most = -INFINITY;
    for (int i = 0; i < count; i++) {
        const double left = point_cross(u, point_sub(points[i], p));
        *least = fmin(*least, left);
        *most = fmax(*most, left);
    }
    mem_free(points);
}

// Keeps as hint how far self, the parallel of a straight line, runs from that line, and where other lies.
static void hint_parallel(lua_State *L, const PathBox *self, const Path *other) {
    const Path view = box_path(self);
    const Point u = point_unit(point_sub(path_last(&view), path_first(&view)));
    const Point base = point_sub(path_first(&view), point_scale(point_left(u), self->offset));
    double least, most;
    span_left_of(other, base, u, &least, &most);
    const double distance = fabs(self->offset);
    if (self->offset < 0) { // measure to the side it was offset to
        const double swap = least;
        least = -most;
        most = -swap;
    }
    const char *name = self->value.label.name ? self->value.label.name : "the line";
    const char *quote = self->value.label.name ? "'" : "";
    const char *runs = push_mm(L, distance);
    const char *what = value_describe(L, 2);
    Run *run = run_of(L);
    if (most <= 0)
        run_hint(run, "the offset runs %s from %s%s%s; %s lies on the other side of it", runs, quote, name,
                 quote, what);
    else if (least > distance || most < distance)
        run_hint(run, "the offset runs %s from %s%s%s; %s lies between %s and %s from it", runs, quote, name,
                 quote, what, push_mm(L, fmax(least, 0)), push_mm(L, most));
    else
        run_hint(run, "the offset runs %s from %s%s%s and ends before it gets to %s; extend it first", runs,
                 quote, name, quote, what);
}

// How far the ends are drawn out to find out whether longer paths would meet: past anything on a body.
#define REACH_MM 5000.0

// Tells how much longer the path must be at one end to meet the other; false when that does not help.
static bool extension_to_meet(lua_State *L, const Path *path, const Path *other, PathEnd *end, double *more) {
    Run *run = run_of(L);
    Path *longer = &run->scratch[1];
    *more = INFINITY;
    for (PathEnd each = PATH_FIRST; each <= PATH_LAST; each++) {
        Point p;
        if (path_extend(path, each, REACH_MM, longer) || path_meet(longer, other, &p))
            continue;
        const double distance = point_distance(path_end(path, each), p);
        if (distance < *more) {
            *more = distance;
            *end = each;
        }
    }
    return *more < INFINITY;
}

// Keeps what is known about two paths that do not meet. self at index 1, other at index 2.
static void hint_no_meet(lua_State *L, const PathBox *self, const PathBox *other) {
    Run *run = run_of(L);
    const Path a = box_path(self), b = box_path(other);
    if (self->offset != 0) {
        hint_parallel(L, self, &b);
        return;
    }
    PathEnd end;
    double more;
    if (extension_to_meet(L, &a, &b, &end, &more)) {
        run_hint(run, "%s would meet it if it were %s longer at its %s end: extend(\"%s\", ...)",
                 value_describe(L, 1), push_mm(L, more), end == PATH_FIRST ? "first" : "last",
                 end == PATH_FIRST ? "first" : "last");
        return;
    }
    if (extension_to_meet(L, &b, &a, &end, &more)) {
        run_hint(run, "%s would meet it if it were %s longer at its %s end: extend(\"%s\", ...)",
                 value_describe(L, 2), push_mm(L, more), end == PATH_FIRST ? "first" : "last",
                 end == PATH_FIRST ? "first" : "last");
        return;
    }
    Point p, q;
    run_hint(run, "where they are nearest they are %s apart", push_mm(L, path_gap(&a, &b, &p, &q)));
}

// Where the path at index 1 meets the one at index 2; in the run's list.
static const CrossingList *check_meets(lua_State *L) {
    const PathBox *self = check_path(L, 1), *other = check_path(L, 2);
    const Path a = box_path(self), b = box_path(other);
    ledger_charge(L, (double)a.count * b.count + 200.0 * (a.count + b.count));
    CrossingList *list = &run_of(L)->crossings;
    path_crossings(&a, &b, list);
    return list;
}

static int path_meet_one(lua_State *L) {
    const PathBox *self = check_path(L, 1);
    check_path(L, 2);
    const int wanted = lua_isnoneornil(L, 3) ? 1 : check_count(L, 3, 1000000);
    check_last(L, 3);
    const CrossingList *list = check_meets(L);
    if (list->count == 0) {
        hint_no_meet(L, self, value_path(L, 2));
        fail(L, "%s does not meet %s", value_describe(L, 1), value_describe(L, 2));
    }
    if (wanted > list->count)
        fail(L, "%s meets %s %d time%s, so there is no meeting %d", value_describe(L, 1),
             value_describe(L, 2), list->count, list->count == 1 ? "" : "s", wanted);
    value_push_point(L, list->items[wanted - 1].point);
    return 1;
}

static int path_meet_all(lua_State *L) {
    check_path(L, 1);
    check_path(L, 2);
    check_last(L, 2);
    const CrossingList *list = check_meets(L);
    const int count = list->count;
    ledger_charge(L, 10.0 * count);
    lua_createtable(L, count, 0);
    for (int i = 0; i < count; i++) {
        value_push_point(L, list->items[i].point);
        lua_rawseti(L, -2, i + 1);
    }
    return 1;
}

static int path_heading(lua_State *L) {
    const Path view = box_path(check_path(L, 1));
    check_last(L, 2);
    Point along;
    if (lua_type(L, 2) == LUA_TSTRING) {
        along = path_direction(&view, check_end(L, 2));
    } else {
        PathSpot spot;
        const double place = check_place(L, 2, &view);
        if (path_spot_at(&view, place, &spot))
            fail_beyond(L, &view, place);
        along = path_spot_direction(&view, spot);
    }
    lua_pushnumber(L, point_angle(along));
    return 1;
}

const Binding lib_path_rows[] = {
    {{"path.length", "paths", "path.length", "How long the path is, mm.",
      "local d = draft \"Strip\"\n"
      "d.strip = line(point(0, 0), point(bodice.front.neckline.length, 0))"},
     path_field_length},
    {{"path.first", "paths", "path.first", "Its first point.",
      "bodice.front.P = bodice.front.shoulder.first"},
     path_field_first},
    {{"path.last", "paths", "path.last", "Its last point.", "bodice.front.P = bodice.front.shoulder.last"},
     path_field_last},
    {{"path.turning", "paths", "path.turning",
      "How far its direction turns in all, degrees, corners included; counter-clockwise is positive.",
      "local d = draft \"Arc\"\nd.base = arc { start = point(0, 0), heading = \"right\", length = 20*cm, "
      "sweep = 30 }\nnote(\"turn\", d.base.turning, \"degrees\")"},
     path_field_turning},
    {{"path:at", "paths", "path:at(d)  ->  point",
      "The point d mm along the path; a negative distance counts from the far end. An error beyond the end.",
      "bodice.front.P = bodice.front.neckline:at(3*cm)\n"
      "bodice.front.Q = bodice.front.neckline:at(-3*cm)"},
     path_point_at},
    {{"path:along", "paths", "path:along(p)  ->  mm",
      "How far along the path the point lies, mm. An error where it is more than 0.01 mm off the path.",
      "local f = bodice.front\n"
      "f.S = f.shoulder:at(5*cm)\n"
      "bodice.back.S = bodice.back.shoulder:at(f.shoulder:along(f.S))"},
     path_where},
    {{"path:foot", "paths", "path:foot(p)  ->  point",
      "The foot of the perpendicular from a point: the nearest place where a line square to the path passes "
      "through it.",
      "local f = bodice.front\n"
      "f.axis = f.centre:extend(\"first\", 20*cm)\n"
      "f.F = f.axis:foot(f.shoulder_point)\n"
      "f.level = line(f.F, f.shoulder_point)"},
     path_foot_of},
    {{"path:meet", "paths", "path:meet(other [, n])  ->  point",
      "Where the path meets another: the first such point along it, or the n-th. An error where they do not "
      "meet; it says "
      "what would help.",
      "local f = bodice.front\n"
      "f.axis = f.centre:extend(\"first\", 20*cm)\n"
      "f.S = f.axis:offset(10*cm, \"right\"):meet(f.shoulder)"},
     path_meet_one},
    {{"path:meets", "paths", "path:meets(other)  ->  list of points",
      "Every point where the path meets another, in order along it; an empty list where there is none.",
      "local d = draft \"Circle\"\n"
      "d.edge = arc { centre = point(0, 0), radius = 5*cm, from = 0, sweep = 360 }\n"
      "d.level = line(point(-8*cm, 2*cm), point(8*cm, 2*cm))\n"
      "for i, p in ipairs(d.level:meets(d.edge)) do d[\"M\" .. i] = p end"},
     path_meet_all},
    {{"path:direction", "paths", "path:direction(\"first\" | \"last\" | place)  ->  degrees",
      "The direction along the path at an end, a distance or a point on it: degrees counter-clockwise from "
      "the right.",
      "local f = bodice.front\n"
      "f.P = f.neckline:at(3*cm)\n"
      "f.tangent = line(f.P, f.P:polar(f.neckline:direction(3*cm), 8*cm))"},
     path_heading},
    {{NULL}, NULL},
};
