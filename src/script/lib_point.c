// Points, and what is done to points and paths alike.
#include <math.h>

#include "script/check.h"
#include "script/library.h"

// point(x, y)
static int point_make(lua_State *L) {
    const double x = check_mm(L, 1), y = check_mm(L, 2);
    check_last(L, 2);
    value_push_point(L, point(x, y));
    return 1;
}

static int point_x(lua_State *L) {
    lua_pushnumber(L, check_point(L, 1)->point.x);
    return 1;
}

static int point_y(lua_State *L) {
    lua_pushnumber(L, check_point(L, 1)->point.y);
    return 1;
}

static int point_step(lua_State *L, double right, double up, const char *made) {
    const PointBox *self = check_point(L, 1);
    const double d = check_mm(L, 2);
    check_last(L, 2);
    PointBox *box = value_push_point(L, point_add(self->point, point(right * d, up * d)));
    value_derive(&box->value, &self->value, made);
    return 1;
}

static int point_up(lua_State *L) {
    return point_step(L, 0, 1, "the point above");
}
static int point_down(lua_State *L) {
    return point_step(L, 0, -1, "the point below");
}
static int point_to_left(lua_State *L) {
    return point_step(L, -1, 0, "the point left of");
}
static int point_to_right(lua_State *L) {
    return point_step(L, 1, 0, "the point right of");
}

// point:toward(p, d)
static int point_toward(lua_State *L) {
    const PointBox *self = check_point(L, 1), *to = check_point(L, 2);
    const double d = check_mm(L, 3);
    check_last(L, 3);
    if (point_same(self->point, to->point))
        fail(L, "toward: %s and %s are the same point, so there is no direction between them",
             value_describe(L, 1), value_describe(L, 2));
    const Point unit = point_unit(point_sub(to->point, self->point));
    PointBox *box = value_push_point(L, point_add(self->point, point_scale(unit, d)));
    value_derive(&box->value, &self->value, "a point from");
    return 1;
}

// point:polar(angle, d)
static int point_by_polar(lua_State *L) {
    const PointBox *self = check_point(L, 1);
    const double angle = check_degrees(L, 2), d = check_mm(L, 3);
    check_last(L, 3);
    PointBox *box = value_push_point(L, point_polar(self->point, angle, d));
    value_derive(&box->value, &self->value, "a point from");
    return 1;
}

// How far a bias line is drawn: longer than any measure of a body.
#define BIAS_MM 2000.0

// point:bias("down", "left")
static int point_bias(lua_State *L) {
    static const char *const upright[] = {"up", "down", NULL}, *const level[] = {"left", "right", NULL};
    const PointBox *self = check_point(L, 1);
    const double up = check_word(L, 2, upright) == 0 ? 1 : -1, right = check_word(L, 3, level) == 0 ? -1 : 1;
    check_last(L, 3);
    const double run = BIAS_MM / sqrt(2);
    Path *out = &run_of(L)->scratch[0];
    path_line(self->point, point_add(self->point, point(right * run, up * run)), out);
    PathBox *box = value_push_path(L, out, "line");
    value_derive(&box->value, &self->value, "the bias line from");
    return 1;
}

static int point_distance_to(lua_State *L) {
    const PointBox *self = check_point(L, 1);
    const PathBox *path = value_path(L, 2);
    check_last(L, 2);
    if (path) {
        ledger_charge(L, 200.0 * path->count);
        const Path view = box_path(path);
        lua_pushnumber(L, path_distance(&view, self->point));
        return 1;
    }
    lua_pushnumber(L, point_distance(self->point, check_point(L, 2)->point));
    return 1;
}

static int point_angle_to(lua_State *L) {
    const PointBox *self = check_point(L, 1), *to = check_point(L, 2);
    check_last(L, 2);
    if (point_same(self->point, to->point))
        fail(L, "angle: %s and %s are the same point, so there is no direction between them",
             value_describe(L, 1), value_describe(L, 2));
    lua_pushnumber(L, point_angle(point_sub(to->point, self->point)));
    return 1;
}

// point:between(p [, part])
static int point_between(lua_State *L) {
    const PointBox *self = check_point(L, 1), *to = check_point(L, 2);
    const double part = lua_isnoneornil(L, 3) ? 0.5 : check_number(L, 3);
    check_last(L, 3);
    value_push_point(L, point_mix(self->point, to->point, part));
    return 1;
}

// A point or path carried by a rigid move.
static int thing_carry(lua_State *L, int index, Affine m, const char *made) {
    const PointBox *p = value_point(L, index);
    if (p) {
        PointBox *box = value_push_point(L, affine_point(m, p->point));
        value_derive(&box->value, &p->value, made);
        return 1;
    }
    const PathBox *path = value_path(L, index);
    if (!path)
        fail_argument(L, index, "a point or a path");
    ledger_charge(L, path->count);
    const Path view = box_path(path);
    Path *out = &run_of(L)->scratch[0];
    path_transform(&view, m, out);
    PathBox *box = value_push_path(L, out, path->sort);
    value_derive(&box->value, &path->value, made);
    return 1;
}

static int thing_move(lua_State *L) {
    if (!value_point(L, 1) && !value_path(L, 1))
        fail_argument(L, 1, "a point or a path");
    const double dx = check_mm(L, 2), dy = check_mm(L, 3);
    check_last(L, 3);
    return thing_carry(L, 1, affine_move(point(dx, dy)), "the moved");
}

// thing:mirror(path) or thing:mirror(p, q)
static int thing_mirror(lua_State *L) {
    if (!value_point(L, 1) && !value_path(L, 1))
        fail_argument(L, 1, "a point or a path");
    Point a, b;
    const PathBox *axis = value_path(L, 2);
    if (axis) {
        check_last(L, 2);
        const Path view = box_path(axis);
        if (!path_is_straight(&view))
            fail(L, "mirror: %s is not straight, so nothing can be mirrored in it", value_describe(L, 2));
        a = path_first(&view);
        b = path_last(&view);
    } else {
        if (!value_point(L, 2))
            fail_argument(L, 2, "a straight path or a point");
        a = check_point(L, 2)->point;
        b = check_point(L, 3)->point;
        check_last(L, 3);
    }
    Affine m;
    const GeomError error = affine_mirror(a, b, &m);
    if (error)
        fail_geometry(L, error);
    return thing_carry(L, 1, m, "the mirror image of");
}

// thing:swing(about, degrees)
static int thing_swing(lua_State *L) {
    if (!value_point(L, 1) && !value_path(L, 1))
        fail_argument(L, 1, "a point or a path");
    const Point about = check_point(L, 2)->point;
    const double degrees = check_number(L, 3);
    check_last(L, 3);
    return thing_carry(L, 1, affine_swing(about, degrees), "the swung");
}

// The placement lay makes: carries whatever it is given.
static int lay_carry(lua_State *L) {
    const Affine m = *(const Affine *)lua_touserdata(L, lua_upvalueindex(1));
    const int count = lua_gettop(L);
    run_of(L)->nameless = "the placement";
    if (count == 0)
        fail(L, "the placement needs a point or a path to carry");
    luaL_checkstack(L, count + 4, "too many things to carry");
    for (int i = 1; i <= count; i++)
        thing_carry(L, i, m, "the laid");
    return count;
}

static Path check_shoulder(lua_State *L, int argument) {
    const Path view = box_path(check_path(L, argument));
    if (path_length(&view) <= POINT_SAME_MM)
        fail_argument(L, argument, "a shoulder with some length");
    return view;
}

// lay(shoulder_a, shoulder_b [, { overlap = mm }])
static int lay_make(lua_State *L) {
    static const char *const fields[] = {"overlap", NULL};
    const Path a = check_shoulder(L, 1), b = check_shoulder(L, 2);
    double overlap = 0;
    if (!lua_isnoneornil(L, 3)) {
        if (lua_type(L, 3) != LUA_TTABLE)
            fail_argument(L, 3, "a table such as { overlap = 3*cm }");
        check_fields(L, 3, fields);
        field_mm(L, 3, "overlap", &overlap);
    }
    check_last(L, 3);
    const double shorter =
        fmin(point_distance(path_first(&a), path_last(&a)), point_distance(path_first(&b), path_last(&b)));
    if (fabs(overlap) > 2 * shorter)
        fail(L, "lay: an overlap of %s is more than two shoulders of %s", push_mm(L, overlap),
             push_mm(L, shorter));
    // The shoulder tips lie on a circle of the shoulder's length about the neck point; a chord of `overlap`
    // across it spans the angle 2 asin(overlap / (2 shoulder)). Source: plane geometry.
    const double degrees = DEGREES(2 * asin(overlap / (2 * shorter)));
    // Half drafts have their bodies below a shoulder that runs right: there a negative swing overlaps
    // (affine.h).
    const double swing = path_last(&b).x >= path_first(&b).x ? -degrees : degrees;
    Affine m;
    const GeomError error =
        affine_lay(path_first(&a), path_last(&a), path_first(&b), path_last(&b), swing, &m);
    if (error)
        fail_geometry(L, error);
    *(Affine *)lua_newuserdatauv(L, sizeof m, 0) = m;
    lua_pushcclosure(L, lay_carry, 1);
    return 1;
}

const Binding lib_point_rows[] = {
    {{"point", "points", "point(x, y)  ->  point",
      "A point, so many mm to the right of the draft's origin and so many up from it.",
      "bodice.front.P = point(3*cm, -12*cm)"},
     point_make},
    {{"point.x", "points", "point.x", "How far right of the origin the point lies, mm.",
      "bodice.front.P = point(bodice.front.neck_point.x, -12*cm)"},
     point_x},
    {{"point.y", "points", "point.y", "How far above the origin the point lies, mm.",
      "bodice.front.P = point(0, bodice.front.shoulder_point.y)"},
     point_y},
    {{"point:up", "points", "point:up(d)  ->  point", "The point d mm above.",
      "bodice.front.P = bodice.front.neck_point:up(4*cm)"},
     point_up},
    {{"point:down", "points", "point:down(d)  ->  point", "The point d mm below.",
      "bodice.front.P = bodice.front.centre_neck:down(4*cm)"},
     point_down},
    {{"point:left", "points", "point:left(d)  ->  point", "The point d mm to the left.",
      "bodice.front.P = bodice.front.neck_point:left(4*cm)"},
     point_to_left},
    {{"point:right", "points", "point:right(d)  ->  point", "The point d mm to the right.",
      "bodice.front.P = bodice.front.centre_neck:right(4*cm)"},
     point_to_right},
    {{"point:toward", "points", "point:toward(p, d)  ->  point",
      "The point d mm from here on the straight way to p, or beyond it. An error where both are one point.",
      "local f = bodice.front\n"
      "f.P = f.neck_point:toward(f.centre_neck, 3*cm)"},
     point_toward},
    {{"point:polar", "points", "point:polar(angle, d)  ->  point",
      "The point d mm from here in a direction: degrees counter-clockwise from the right, or \"up\", "
      "\"down\", "
      "\"left\", \"right\".",
      "local f = bodice.front\n"
      "f.P = f.neck_point:polar(45, 8*cm)\n"
      "f.ray = line(f.neck_point, f.P)"},
     point_by_polar},
    {{"point:bias", "points", "point:bias(\"up\"|\"down\", \"left\"|\"right\")  ->  path",
      "A line at 45 degrees from the point, 2 m long.",
      "bodice.front.fold = bodice.front.neck_point:bias(\"down\", \"left\")"},
     point_bias},
    {{"point:distance", "points", "point:distance(p)  ->  mm",
      "The distance to another point, or to a path, mm.",
      "local f = bodice.front\n"
      "apart = f.neck_point:distance(f.centre_neck)\n"
      "f:measure(f.neck_point, f.centre_neck)"},
     point_distance_to},
    {{"point:angle", "points", "point:angle(p)  ->  degrees",
      "The direction from here to p in degrees, counter-clockwise from the right, above -180 and up to 180.",
      "local f = bodice.front\n"
      "note(\"slope\", f.neck_point:angle(f.shoulder_point), \"degrees\")\n"
      "f.level = line(f.neck_point, f.neck_point:right(12*cm))"},
     point_angle_to},
    {{"point:between", "points", "point:between(p [, part])  ->  point",
      "The point at a part of the straight way to p: 0.5, the middle, where no part is given.",
      "local f = bodice.front\n"
      "f.middle = f.neck_point:between(f.shoulder_point)\n"
      "f.third = f.neck_point:between(f.centre_neck, 1/3)"},
     point_between},
    {{"thing:move", "points", "point:move(right, up)  or  path:move(right, up)",
      "The same point or path, so many mm to the right and up.",
      "bodice.front.overlap = bodice.front.centre:move(-2*cm, 0)"},
     thing_move},
    {{"thing:mirror", "points", "thing:mirror(line)  or  thing:mirror(p, q)",
      "The mirror image of a point or path in a straight path, or in the endless line through two points.",
      "bodice.front.other_half = bodice.front.neckline:mirror(bodice.front.centre)"},
     thing_mirror},
    {{"thing:swing", "points", "thing:swing(about, degrees)",
      "The point or path turned about a point, counter-clockwise; a negative angle turns clockwise.",
      "local f = bodice.front\n"
      "f.swung = f.shoulder:swing(f.neck_point, 15)"},
     thing_swing},
    {{"lay", "points", "lay(shoulder_a, shoulder_b [, { overlap = mm }])  ->  placement",
      "Lays one half on the other at the shoulder: the first points meet, a is turned over on to the other "
      "side of b's "
      "shoulder, and the last points overlap by so many mm. The placement is called with points and paths of "
      "a's "
      "draft and gives them on b's. The swing is twice the arc sine of overlap over two shoulder lengths, "
      "the shorter "
      "one (plane geometry).",
      "local on_front = lay(bodice.back.shoulder, bodice.front.shoulder, { overlap = 3*cm })\n"
      "local d = draft \"Joined shoulders\"\n"
      "d.front_neck, d.shoulder = bodice.front.neckline, bodice.front.shoulder\n"
      "d.back_neck, d.back_shoulder = on_front(bodice.back.neckline), on_front(bodice.back.shoulder)\n"
      "d.nape = on_front(bodice.back.centre_neck)"},
     lay_make},
    {{NULL}, NULL},
};
