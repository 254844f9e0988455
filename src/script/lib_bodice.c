// The bodice contract, so that any collar runs on any block: half drafts with the centre on x = 0, the body
// to the right, the neck point of a fresh block on y = 0, edges that run away from the centre neck.
#include <math.h>
#include <string.h>

#include "script/check.h"
#include "script/error.h"
#include "script/lib_draft.h"
#include "script/lib_path.h"
#include "script/library.h"

// What a half drafted in this recipe carries on when it is cut back; one that was given carries all it had
// then.
static const char *const carried_marks[] = {"armhole", "side", "waist", "hem", "dart", "bust_point"};

// The marks that a new neckline makes new.
static const char *const remade_marks[] = {"centre",     "neckline",       "shoulder",
                                           "neck_point", "shoulder_point", "centre_neck"};

// The path marked under name on the draft at index; on the stack.
static const PathBox *half_path(lua_State *L, int index, const char *which, const char *name) {
    draft_read(L, index, name);
    const PathBox *box = value_path(L, -1);
    if (!box) {
        run_hint(run_of(L), "a bodice half has the edges centre, neckline and shoulder");
        fail(L, "the %s of the bodice has no edge '%s'", which, name);
    }
    return box;
}

static bool same_place(Point a, Point b) {
    return point_distance(a, b) <= POINT_ON_MM;
}

// Marks a point that follows from the edges, or checks the one that is there.
static void half_point(lua_State *L, int index, const char *which, const char *name, Point at) {
    draft_read(L, index, name);
    const PointBox *box = value_point(L, -1);
    if (box && !same_place(box->point, at))
        fail(L, "'%s' of the %s lies %s from where its edges end", name, which,
             push_mm(L, point_distance(box->point, at)));
    lua_pop(L, 1);
    if (box)
        return;
    value_push_point(L, at);
    draft_mark(L, index, name, -1);
    lua_pop(L, 1);
}

// An edge of a half, walked as the contract has it.
typedef struct HalfEdge {
    const char *name;
    const char *way; // from where to where it runs
} HalfEdge;

static const HalfEdge half_edges[] = {
    {"centre", "from the neck down to the hem"},    {"neckline", "from the centre to the neck point"},
    {"shoulder", "from the neck point to the tip"}, {"armhole", "from the tip of the shoulder to the side"},
    {"side", "from the armhole to the waist"},      {"waist", "from the centre to the side"},
};

enum { EDGE_CENTRE, EDGE_NECKLINE, EDGE_SHOULDER, EDGE_ARMHOLE, EDGE_SIDE, EDGE_WAIST, EDGE_COUNT };

// Two ends that are one corner of the half.
typedef struct HalfJoint {
    int a;
    PathEnd end_a;
    int b;
    PathEnd end_b;
} HalfJoint;

static const HalfJoint neck_joints[] = {
    {EDGE_CENTRE, PATH_FIRST, EDGE_NECKLINE, PATH_FIRST},
    {EDGE_NECKLINE, PATH_LAST, EDGE_SHOULDER, PATH_FIRST},
};

static const HalfJoint outline_joints[] = {
    {EDGE_SHOULDER, PATH_LAST, EDGE_ARMHOLE, PATH_FIRST},
    {EDGE_ARMHOLE, PATH_LAST, EDGE_SIDE, PATH_FIRST},
    {EDGE_CENTRE, PATH_LAST, EDGE_WAIST, PATH_FIRST},
    {EDGE_SIDE, PATH_LAST, EDGE_WAIST, PATH_LAST},
};

static void fail_backward(lua_State *L, const char *which, const HalfEdge *edge) {
    run_hint(run_of(L), "turn it round where it is marked: %s.%s = path:reverse()", which, edge->name);
    fail(L, "the %s of the %s runs the wrong way: it should run %s", edge->name, which, edge->way);
}

static PathEnd other_end(PathEnd end) {
    return end == PATH_FIRST ? PATH_LAST : PATH_FIRST;
}

// Raises where two ends that are one corner lie apart.
static void check_joint(lua_State *L, const char *which, const HalfJoint *joint, const Path *a,
                        const Path *b) {
    const HalfEdge *edge_a = &half_edges[joint->a], *edge_b = &half_edges[joint->b];
    const Point at_a = path_end(a, joint->end_a), at_b = path_end(b, joint->end_b);
    if (same_place(at_a, at_b))
        return;
    if (same_place(at_a, path_end(b, other_end(joint->end_b))))
        fail_backward(L, which, edge_b);
    if (same_place(path_end(a, other_end(joint->end_a)), at_b))
        fail_backward(L, which, edge_a);
    char gap[40];
    snprintf(gap, sizeof gap, "%.2f mm", point_distance(at_a, at_b));
    run_hint(run_of(L), "%s runs %s, %s %s", edge_a->name, edge_a->way, edge_b->name, edge_b->way);
    fail(L, "the outline of the %s is open by %s between '%s' and '%s'", which, gap, edge_a->name,
         edge_b->name);
}

void draft_check_outline(lua_State *L, int index, const char *which) {
    const int top = lua_gettop(L);
    index = lua_absindex(L, index);
    Path edges[EDGE_COUNT];
    bool is_there[EDGE_COUNT];
    for (int i = 0; i < EDGE_COUNT; i++) {
        draft_read(L, index, half_edges[i].name);
        const PathBox *box = value_path(L, -1);
        is_there[i] = box != NULL;
        if (box)
            edges[i] = box_path(box);
        else if (!lua_isnil(L, -1))
            fail(L, "the %s of the %s should be a path, got %s", half_edges[i].name, which,
                 value_describe(L, -1));
    }
    const bool whole = is_there[EDGE_ARMHOLE] && is_there[EDGE_SIDE] && is_there[EDGE_WAIST];
    for (size_t i = 0; i < sizeof outline_joints / sizeof *outline_joints; i++) {
        const HalfJoint *joint = &outline_joints[i];
        if (is_there[joint->a] && is_there[joint->b] && (whole || joint->b != EDGE_WAIST))
            check_joint(L, which, joint, &edges[joint->a], &edges[joint->b]);
    }
    lua_settop(L, top);
}

void draft_check_level(lua_State *L, int index, const char *which) {
    const DraftBox *half = value_draft(L, index);
    if (half->recut || half->given > 0)
        return;
    draft_read(L, index, "shoulder");
    const Path shoulder = box_path(value_path(L, -1));
    const double y = path_first(&shoulder).y;
    if (fabs(y) > POINT_ON_MM) {
        char off[40];
        snprintf(off, sizeof off, "%.2f mm", fabs(y));
        run_hint(
            run_of(L),
            "draw the half with its neck point on y = 0, the neck point being where the shoulder begins");
        fail(L, "the neck point of the %s lies %s %s y = 0", which, off, y > 0 ? "above" : "below");
    }
    lua_pop(L, 1);
}

void draft_check_half(lua_State *L, int index, const char *which) {
    index = lua_absindex(L, index);
    if (!value_draft(L, index))
        fail(L, "the %s of the bodice should be a draft, got %s", which, value_describe(L, index));
    const Path centre = box_path(half_path(L, index, which, "centre"));
    const Path neckline = box_path(half_path(L, index, which, "neckline"));
    const Path shoulder = box_path(half_path(L, index, which, "shoulder"));
    const Point neck = path_first(&shoulder), nape = path_first(&centre);
    if (fabs(nape.x) > POINT_ON_MM || fabs(path_last(&centre).x) > POINT_ON_MM) {
        run_hint(run_of(L), "draw the half with its centre line on x = 0");
        fail(L, "the centre of the %s lies %s from x = 0", which,
             push_mm(L, fmax(fabs(nape.x), fabs(path_last(&centre).x))));
    }
    if (nape.y <= path_last(&centre).y)
        fail_backward(L, which, &half_edges[EDGE_CENTRE]);
    check_joint(L, which, &neck_joints[0], &centre, &neckline);
    check_joint(L, which, &neck_joints[1], &neckline, &shoulder);
    if (path_last(&shoulder).x <= neck.x || neck.x <= 0) {
        run_hint(run_of(L),
                 "the body lies to the right of x = 0; the shoulder runs from the neck point to the tip");
        fail(L, "the shoulder of the %s should run to the right, from %s to %s", which, push_mm(L, neck.x),
             push_mm(L, path_last(&shoulder).x));
    }
    lua_pop(L, 3);
    half_point(L, index, which, "neck_point", neck);
    half_point(L, index, which, "shoulder_point", path_last(&shoulder));
    half_point(L, index, which, "centre_neck", nape);
}

// The centre line from the new neckline on; drawn out upward where the neckline begins above it.
static void push_new_centre(lua_State *L, const PathBox *centre, Point from) {
    Run *run = run_of(L);
    const Path view = box_path(centre);
    Path *longer = &run->scratch[1], *out = &run->scratch[0];
    double along;
    ledger_charge(L, 2000.0 * view.count);
    GeomError error = path_along(&view, from, &along);
    if (error) {
        const double above = point_distance(path_first(&view), from);
        error = path_extend(&view, PATH_FIRST, above + 1, longer);
        if (!error)
            error = path_along(longer, from, &along);
        if (error) {
            run_hint(run, "let it begin on the centre line, or on that line drawn out upward");
            fail(L, "recut: the neckline begins %s from the centre line",
                 push_mm(L, path_distance(longer, from)));
        }
    } else {
        path_copy(&view, longer);
    }
    if (along >= path_length(longer) - POINT_SAME_MM)
        fail(L, "recut: the neckline leaves nothing of the centre line");
    error = path_between(longer, along, path_length(longer), out);
    if (error)
        fail_geometry(L, error);
    value_push_path(L, out, centre->sort);
}

static void push_new_shoulder(lua_State *L, const PathBox *shoulder, Point from) {
    Run *run = run_of(L);
    const Path view = box_path(shoulder);
    double along;
    ledger_charge(L, 2000.0 * view.count);
    if (path_along(&view, from, &along)) {
        run_hint(run, "let it end on the shoulder: shoulder:at(distance), or where a line meets it");
        fail(L, "recut: the neckline ends %s from the shoulder", push_mm(L, path_distance(&view, from)));
    }
    if (along >= path_length(&view) - POINT_SAME_MM)
        fail(L, "recut: the neckline leaves nothing of the shoulder");
    Path *out = &run->scratch[0];
    const GeomError error = path_between(&view, along, path_length(&view), out);
    if (error)
        fail_geometry(L, error);
    value_push_path(L, out, shoulder->sort);
}

// "Front, new neckline", and a number where the name is taken already.
static const char *recut_name(lua_State *L, const char *old) {
    static const char *const tail = ", new neckline";
    const Pattern *pattern = run_of(L)->pattern;
    const char *found = strstr(old, tail);
    const int stem = found ? (int)(found - old) : (int)strlen(old);
    for (int n = 1;; n++) {
        char name[LIMIT_NAME_BYTES + 40];
        if (n == 1)
            snprintf(name, sizeof name, "%.*s%s", stem, old, tail);
        else
            snprintf(name, sizeof name, "%.*s%s %d", stem, old, tail, n);
        bool taken = false;
        for (int i = 0; i < pattern->drafts.count && !taken; i++)
            taken = strcmp(pattern->drafts.items[i].name, name) == 0;
        if (!taken)
            return run_text(L, name);
    }
}

static void carry_mark(lua_State *L, int out, const char *name) {
    draft_read(L, 1, name);
    const Value *value = value_at(L, -1);
    if (value && value->kind != VALUE_PIECE)
        draft_mark(L, out, name, -1);
    lua_pop(L, 1);
}

static bool is_remade(const char *name) {
    for (size_t i = 0; i < sizeof remade_marks / sizeof *remade_marks; i++)
        if (strcmp(name, remade_marks[i]) == 0)
            return true;
    return false;
}

// Marks on the draft at out what the half at index 1 has besides.
static void carry_marks(lua_State *L, int out) {
    const DraftBox *self = value_draft(L, 1);
    const Pattern *pattern = run_of(L)->pattern;
    if (self->given == 0)
        for (size_t i = 0; i < sizeof carried_marks / sizeof *carried_marks; i++)
            carry_mark(L, out, carried_marks[i]);
    for (int i = 0; i < self->given; i++) {
        const char *name = pattern->drafts.items[self->draft].marks.items[i].name;
        if (!is_remade(name))
            carry_mark(L, out, name);
    }
}

void draft_given(lua_State *L, int index) {
    DraftBox *box = value_draft(L, index);
    if (box->given == 0)
        box->given = run_of(L)->pattern->drafts.items[box->draft].marks.count;
}

// draft:recut(neckline [, name])
static int draft_recut(lua_State *L) {
    const DraftBox *self = check_draft(L, 1);
    const PathBox *given = check_path(L, 2);
    const char *name = lua_isnoneornil(L, 3) ? NULL : check_name(L, 3);
    check_last(L, 3);
    Run *run = run_of(L);
    const PathBox *centre = half_path(L, 1, "half", "centre"),
                  *shoulder = half_path(L, 1, "half", "shoulder");
    const Path view = box_path(given), centre_view = box_path(centre);
    Path *neckline = &run->scratch[2];
    const Point axis = path_first(&centre_view);
    if (fabs(path_first(&view).x - axis.x) <= fabs(path_last(&view).x - axis.x))
        path_copy(&view, neckline);
    else
        path_reverse(&view, neckline);
    push_new_centre(L, centre, path_first(neckline));
    push_new_shoulder(L, shoulder, path_last(neckline));
    value_push_path(L, neckline, given->sort);
    const int made = lua_gettop(L) - 2; // centre, shoulder, neckline
    if (!name)
        name = recut_name(L, run->pattern->drafts.items[self->draft].name);
    draft_open(L, name);
    const int out = lua_gettop(L);
    draft_mark(L, out, "centre", made);
    draft_mark(L, out, "neckline", made + 2);
    draft_mark(L, out, "shoulder", made + 1);
    carry_marks(L, out);
    draft_check_half(L, out, "new half");
    draft_given(L, out);
    value_draft(L, out)->recut = true;
    lua_settop(L, out);
    return 1;
}

const Binding lib_bodice_rows[] = {
    {{"draft:recut", "drafts", "draft:recut(neckline [, \"Name\"])  ->  draft",
      "A bodice half with a new neckline, on a new draft: the centre and the shoulder are cut at its ends, "
      "armhole, side, waist "
      "and bust point carried over. An error where the neckline does not run from the centre line (or that "
      "line drawn out) to "
      "the shoulder.",
      "local f = bodice.front\n"
      "local lower = curve(f.centre_neck:down(4*cm), f.shoulder:at(2*cm),\n"
      "                    { leave_square = f.centre, arrive_square = f.shoulder, fullness = 0.55 })\n"
      "local front = f:recut(lower)\n"
      "front.P = front.neckline:at(3*cm)"},
     draft_recut},
    {{NULL}, NULL},
};
