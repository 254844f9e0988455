// Seams: which edges are sewn together. Names are kept while the recipe runs; the seams are made when the
// pieces are final.
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "script/check.h"
#include "script/error.h"
#include "script/library.h"

#define SIDE_EDGES_MAX 50

// The common figures for what two edges may differ by, mm: at a neck seam, elsewhere (common practice, no
// source).
#define NECK_TOLERANCE_MM 1.0
#define BODY_TOLERANCE_MM 2.0

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}

// Whether a seam is at the neck by its name, in English, German, French or Spanish: "Halsnaht".
static bool names_neck(const char *name) {
    static const char *const parts[] = {"neck", "collar", "hals", "kragen", "encolure", "escote", "cuello"};
    for (const char *at = name; *at != '\0'; at++) {
        for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
            if (text_starts_any_case(at, parts[i]))
                return true;
        // Two short words stand alone: "couture du col", but not "colour".
        const bool is_short = text_starts_any_case(at, "col") || text_starts_any_case(at, "cou");
        if (is_short && !is_letter(at[3]) && (at == name || !is_letter(at[-1])))
            return true;
    }
    return false;
}

static SewnEdge check_sewn(lua_State *L, int index, int argument) {
    const PathBox *box = value_path(L, index);
    if (!box || !box->edge) {
        if (box)
            run_hint(run_of(L), "seams join edges of pieces: trace a piece and write piece.edge");
        if (index < 0)
            fail(L, "sew: argument %d should hold edges of pieces, got %s", argument,
                 value_describe(L, index));
        fail_argument(L, argument, "an edge of a piece, or a list of them");
    }
    return (SewnEdge){.piece = box->piece, .edge = box->edge, .backward = box->backward};
}

static SewnSide check_side(lua_State *L, int argument) {
    Run *run = run_of(L);
    SewnSide side = {.count = 1};
    if (lua_type(L, argument) != LUA_TTABLE) {
        const SewnEdge one = check_sewn(L, argument, argument);
        side.items = arena_take(&run->arena, sizeof *side.items);
        side.items[0] = one;
        return side;
    }
    const lua_Integer count = (lua_Integer)lua_rawlen(L, argument);
    if (count < 1 || count > SIDE_EDGES_MAX)
        fail(L, "sew: a side has from 1 to %d edges, got %d", SIDE_EDGES_MAX, (int)count);
    side.count = (int)count;
    side.items = arena_take(&run->arena, sizeof *side.items * (size_t)count);
    for (int i = 0; i < side.count; i++) {
        lua_rawgeti(L, argument, i + 1);
        side.items[i] = check_sewn(L, -1, argument);
        lua_pop(L, 1);
    }
    return side;
}

static void check_notch(lua_State *L, Sewn *sewn) {
    const int type = lua_getfield(L, 4, "notch");
    if (type == LUA_TTABLE) {
        static const char *const fields[] = {"at", "count", NULL};
        check_fields(L, -1, fields);
        double count = 1;
        if (!field_mm(L, -1, "at", &sewn->notch_at))
            fail(L, "sew: notch should say where: { at = length, count = 1 }");
        field_number(L, -1, "count", &count);
        if (count < 1 || count > NOTCH_COUNT_MAX)
            fail(L, "sew: the count of a notch should be from 1 to %d", NOTCH_COUNT_MAX);
        sewn->notch_mm = true;
        sewn->notch_count = (int)count;
    } else if (type != LUA_TNIL) {
        const char *text = type == LUA_TSTRING ? lua_tostring(L, -1) : "";
        sewn->notch_at = 0.5;
        sewn->notch_count = strcmp(text, "front") == 0 ? 1 : strcmp(text, "back") == 0 ? 2 : 0;
        if (sewn->notch_count == 0)
            fail(L, "sew: notch should be \"front\", \"back\" or { at = length, count = 1 }, got %s",
                 value_describe(L, -1));
    }
    lua_pop(L, 1);
}

static void check_options(lua_State *L, Sewn *sewn) {
    static const char *const fields[] = {"ease", "tolerance", "at", "notch", "smooth", NULL};
    if (lua_type(L, 4) != LUA_TTABLE)
        fail_argument(L, 4, "a table { ease = length, ... }");
    check_fields(L, 4, fields);
    const char *at = field_text(L, 4, "at", "");
    if (strcmp(at, "neck") == 0)
        sewn->tolerance = NECK_TOLERANCE_MM;
    else if (strcmp(at, "body") == 0)
        sewn->tolerance = BODY_TOLERANCE_MM;
    else if (at[0])
        fail(L, "sew: at should be \"neck\" or \"body\", got \"%s\"", at);
    field_mm(L, 4, "ease", &sewn->ease);
    field_mm(L, 4, "tolerance", &sewn->tolerance);
    if (sewn->tolerance < 0)
        fail(L, "sew: tolerance should not be negative");
    const char *smooth = field_text(L, 4, "smooth", "");
    const bool both = strcmp(smooth, "both") == 0;
    sewn->smooth_first = both || strcmp(smooth, "first") == 0;
    sewn->smooth_last = both || strcmp(smooth, "last") == 0;
    if (smooth[0] && !sewn->smooth_first && !sewn->smooth_last)
        fail(L, "sew: smooth should be \"first\", \"last\" or \"both\", got \"%s\"", smooth);
    check_notch(L, sewn);
}

// sew("seam", a, b [, options])
static int word_sew(lua_State *L) {
    Run *run = run_of(L);
    const char *name = check_name(L, 1);
    ledger_count(L, run->sewn.count, LIMIT_SEAMS, "seams");
    for (int i = 0; i < run->sewn.count; i++)
        if (strcmp(run->sewn.items[i].name, name) == 0)
            fail(L, "there is a seam '%s' already, sewn at line %d", name, run->sewn.items[i].line);
    Sewn sewn = {.tolerance = names_neck(name) ? NECK_TOLERANCE_MM : BODY_TOLERANCE_MM,
                 .recipe = run->place.recipe,
                 .line = author_line(L),
                 .step = run->place.step};
    sewn.a = check_side(L, 2);
    sewn.b = check_side(L, 3);
    if (!lua_isnoneornil(L, 4))
        check_options(L, &sewn);
    check_last(L, 4);
    sewn.name = run_text(L, name);
    ARRAY_ADD(&run->sewn, sewn);
    return 0;
}

const Binding lib_seam_rows[] = {
    {{"sew", "seams and proofs", "sew(\"seam\", a, b [, { ease =, tolerance =, at =, notch =, smooth = }])",
      "Says that a is sewn to b: each an edge of a piece or a list of edges. Both are walked from the ends "
      "that are sewn to each other: where a begins meets where b begins. An edge is walked as its path was "
      "drawn, edge:reverse() from its other end. Which ends meet tells where notches come that are not at "
      "the middle, and what smooth looks at; the lengths are the same either way, so no proof finds a "
      "wrong end. In a list each edge goes on where the one before it ends: within a piece anything else is "
      "an error; from piece to piece it cannot be known before they are sewn, so see that the notch for the "
      "joint lies where it should. ease is how much longer a is meant to be than b, mm. The lengths are "
      "proven to 1 mm at a neck seam (at = \"neck\", or a name with neck or collar in it, in English, "
      "German, French or Spanish), 2 mm elsewhere. "
      "notch = \"front\" puts one notch at the middle, \"back\" two, { at = mm, count = n } what it says; "
      "joints of a list are notched by themselves. smooth = \"first\", \"last\" or \"both\": the edges "
      "beside the seam run on smoothly across it.",
      "local low, high = line(point(0, 0), point(20*cm, 0)), line(point(0, 4*cm), point(20*cm, 4*cm))\n"
      "local function band(name)\n"
      "  return piece(name, { lower = low, upper = high, left_end = line(low.first, high.first),\n"
      "    right_end = line(low.last, high.last) }):grain(\"along\", \"lower\")\n"
      "end\n"
      "local d = draft \"Bands\"\n"
      "d.outer, d.inner = band(\"Outer band\"), band(\"Inner band\")\n"
      "sew(\"band edge\", d.outer.upper, d.inner.upper, { notch = \"front\" })\n"
      "-- a right end is sewn to a left end: both are walked from the lower edge\n"
      "sew(\"band end\", d.outer.right_end, d.inner.left_end, { notch = { at = 1*cm } })"},
     word_sew},
    {{NULL}, NULL},
};
