// What recipes hand to each other and say to their reader.
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "geometry/solve.h"
#include "script/check.h"
#include "script/lib_draft.h"
#include "script/library.h"
#include "script/names.h"

// Whether the recipe that runs asked for a bodice.
static bool needed_bodice(const Run *run) {
    const Pattern *pattern = run->pattern;
    for (int i = 0; i < pattern->inputs.count; i++)
        if (pattern->inputs.items[i].chapter == run->place.chapter &&
            strcmp(pattern->inputs.items[i].name, "bodice") == 0)
            return true;
    return false;
}

// Checks the bodice on top of the stack against the contract.
static void check_bodice(lua_State *L) {
    if (lua_type(L, -1) != LUA_TTABLE)
        fail(L, "give: the bodice should be { front = draft, back = draft }, got %s", value_describe(L, -1));
    static const char *const halves[] = {"front", "back"};
    for (int i = 0; i < 2; i++) {
        if (lua_getfield(L, -1, halves[i]) == LUA_TNIL)
            fail(L, "give: the bodice has no %s", halves[i]);
        draft_check_half(L, -1, halves[i]);
        draft_check_outline(L, -1, halves[i]);
        if (!needed_bodice(run_of(L)))
            draft_check_level(L, -1, halves[i]);
        draft_given(L, -1);
        lua_pop(L, 1);
    }
}

// give { name = value, ... }: true where another recipe takes it.
static int word_give(lua_State *L) {
    if (lua_type(L, 1) != LUA_TTABLE)
        fail_argument(L, 1, "a table { name = value, ... }");
    check_last(L, 1);
    if (lua_getfield(L, 1, "bodice") != LUA_TNIL)
        check_bodice(L);
    lua_settop(L, 1);
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_GAVE);
    lua_rawgeti(L, 2, run_of(L)->place.chapter);
    for (lua_pushnil(L); lua_next(L, 1); lua_pop(L, 1)) {
        if (lua_type(L, -2) != LUA_TSTRING)
            fail(L, "give: write { name = value, ... }");
        lua_pushvalue(L, -2);
        if (lua_rawget(L, 3) != LUA_TNIL)
            fail(L, "give: '%s' was given already", lua_tostring(L, -3));
        lua_pop(L, 1);
        lua_pushvalue(L, -2);
        lua_pushvalue(L, -2);
        lua_rawset(L, 3);
    }
    lua_pushboolean(L, run_of(L)->followed || run_of(L)->place.depth > 0);
    return 1;
}

// Raises where the table at index 2 names something the recipe that just ran does not ask for.
static void check_overrides(lua_State *L, const Recipe *recipe, int chapter) {
    const Pattern *pattern = run_of(L)->pattern;
    const char *names[LIMIT_INPUTS];
    int count = 0;
    for (int i = 0; i < pattern->inputs.count && count < LIMIT_INPUTS; i++)
        if (pattern->inputs.items[i].chapter == chapter)
            names[count++] = pattern->inputs.items[i].name;
    const char *stranger = NULL;
    for (lua_pushnil(L); lua_next(L, 2); lua_pop(L, 1)) {
        if (lua_type(L, -2) != LUA_TSTRING)
            fail(L, "use: write use(\"%s\", { name = value, ... })", recipe->name);
        const char *key = lua_tostring(L, -2);
        bool known = false;
        for (int i = 0; i < count && !known; i++)
            known = strcmp(names[i], key) == 0;
        if (!known && (!stranger || strcmp(key, stranger) < 0))
            stranger = key;
    }
    if (!stranger)
        return;
    const char *near = strlen(stranger) <= LIMIT_NAME_BYTES ? text_nearest(stranger, names, count) : NULL;
    if (near)
        run_hint(run_of(L), "did you mean '%s'?", near);
    fail(L, "use: '%s' neither needs nor chooses '%s'", recipe->name, stranger);
}

// use("necklines/x" [, { name = value, ... }])
static int word_use(lua_State *L) {
    Run *run = run_of(L);
    const char *name = check_name(L, 1);
    if (lua_isnoneornil(L, 2)) {
        lua_settop(L, 1);
        lua_newtable(L);
    }
    if (lua_type(L, 2) != LUA_TTABLE)
        fail_argument(L, 2, "a table { name = value, ... }");
    check_last(L, 2);
    const Recipe *recipe = shelf_used(run->job->shelf, run->place.recipe, name);
    if (!recipe) {
        run_hint(run, "write the name out in the recipe, in quotes: use(\"%s\", ...)", name);
        fail(L, "use: the recipe '%s' was not loaded", name);
    }
    const int depth = run->place.depth + 1;
    if (depth > LIMIT_DEPTH)
        fail(L, "use: recipes use each other more than %d deep", LIMIT_DEPTH);
    const int chapter = run->pattern->chapters.count;
    run_recipe(L, recipe, depth, 2);
    check_overrides(L, recipe, chapter);
    return 1;
}

static const char *const measure_names[] = {"length", "area", "degrees", "number", "text", NULL};
static const Measure measures[] = {MEASURE_LENGTH, MEASURE_AREA, MEASURE_ANGLE, MEASURE_NUMBER, MEASURE_TEXT};

// note("name", value [, "degrees"])
static int word_note(lua_State *L) {
    const char *name = check_name(L, 1);
    const Measure measure =
        lua_isnoneornil(L, 3) ? MEASURE_LENGTH : measures[check_word(L, 3, measure_names)];
    check_last(L, 3);
    const int type = lua_type(L, 2);
    if (type != LUA_TNUMBER && type != LUA_TSTRING)
        fail_argument(L, 2, "a number or text");
    names_bind(L, name, 2);
    names_note(L, name, 2, measure);
    return 0;
}

static int remark(lua_State *L, RemarkKind kind) {
    const char *text = check_text(L, 1, LIMIT_TEXT_BYTES);
    check_last(L, 1);
    Run *run = run_of(L);
    Pattern *pattern = run->pattern;
    ledger_count(L, pattern->remarks.count, LIMIT_REMARKS, "remarks");
    for (int i = 0; i < pattern->remarks.count; i++)
        if (pattern->remarks.items[i].kind == kind && strcmp(pattern->remarks.items[i].text, text) == 0)
            return 0;
    ARRAY_ADD(&pattern->remarks,
              ((Remark){.kind = kind, .step = run->place.step, .text = arena_text(&pattern->arena, text)}));
    ledger_settle(L);
    return 0;
}

static int word_warn(lua_State *L) {
    return remark(L, REMARK_WARNING);
}
static int word_caution(lua_State *L) {
    return remark(L, REMARK_CAUTION);
}

// refuse("text" [, "way out"])
static int word_refuse(lua_State *L) {
    const char *text = check_text(L, 1, LIMIT_TEXT_BYTES);
    const char *way_out = lua_isnoneornil(L, 2) ? NULL : check_text(L, 2, LIMIT_TEXT_BYTES);
    check_last(L, 2);
    if (way_out)
        run_hint(run_of(L), "%s", way_out);
    fail(L, "%s", text);
}

// show(x [, "degrees"])
static int word_show(lua_State *L) {
    static const char *const ways[] = {"length", "degrees", "area", "number", "fine", "signed", NULL};
    static const Measure shown[] = {MEASURE_LENGTH, MEASURE_ANGLE,  MEASURE_AREA,
                                    MEASURE_NUMBER, MEASURE_LENGTH, MEASURE_LENGTH};
    const int way = lua_isnoneornil(L, 2) ? 0 : check_word(L, 2, ways);
    check_last(L, 2);
    if (lua_type(L, 1) == LUA_TSTRING) {
        lua_settop(L, 1);
        return 1;
    }
    if (lua_type(L, 1) != LUA_TNUMBER)
        fail_argument(L, 1, "a number or text");
    const double value = lua_tonumber(L, 1);
    if (!isfinite(value))
        fail(L, "show: the number %s", length_trouble(value));
    const Run *run = run_of(L);
    char text[100];
    if (way == 4) {
        units_format_fine(value, run->job->units, text, sizeof text);
    } else if (way == 5) {
        text[0] = value > 0 ? '+' : ' ';
        run_show(run, MEASURE_LENGTH, value, text + 1, sizeof text - 1);
        lua_pushstring(L, value > 0 ? text : text + 1);
        return 1;
    } else {
        run_show(run, shown[way], value, text, sizeof text);
    }
    lua_pushstring(L, text);
    return 1;
}

#define EACH_MAX 200

// Upvalues: the count, the next, the values.
static int each_next(lua_State *L) {
    const int count = (int)lua_tointeger(L, lua_upvalueindex(1)),
              next = (int)lua_tointeger(L, lua_upvalueindex(2));
    if (next > count) {
        lua_pushnil(L);
        return 1;
    }
    lua_pushinteger(L, next + 1);
    lua_replace(L, lua_upvalueindex(2));
    lua_pushvalue(L, lua_upvalueindex(2 + next));
    return 1;
}

// each(a, b, ...)
static int word_each(lua_State *L) {
    const int count = lua_gettop(L);
    if (count > EACH_MAX)
        fail(L, "each takes at most %d things, got %d", EACH_MAX, count);
    for (int i = 1; i <= count; i++)
        if (lua_isnil(L, i))
            fail_argument(L, i, "a value");
    luaL_checkstack(L, 4, NULL);
    lua_pushinteger(L, count);
    lua_insert(L, 1);
    lua_pushinteger(L, 1);
    lua_insert(L, 2);
    lua_pushcclosure(L, each_next, count + 2);
    return 1;
}

typedef struct Solving {
    lua_State *L;
    int function; // its index
    double wanted;
} Solving;

static int solve_try(void *context, double x, double *out) {
    const Solving *solving = context;
    lua_State *L = solving->L;
    ledger_charge(L, 50);
    lua_pushvalue(L, solving->function);
    lua_pushnumber(L, x);
    lua_call(L, 1, 1);
    if (lua_type(L, -1) != LUA_TNUMBER)
        fail(L, "solve: the function should give a number, got %s", value_describe(L, -1));
    const double value = lua_tonumber(L, -1);
    if (!isfinite(value))
        fail(L, "solve: at %s the function gives a number that %s", push_number(L, x), length_trouble(value));
    lua_pop(L, 1);
    *out = value - solving->wanted;
    return 1;
}

static double need_number(lua_State *L, const char *field) {
    double value;
    if (field_number(L, 1, field, &value))
        return value;
    run_hint(run_of(L), "solve { from = a, to = b, wanted = c, function(x) return ... end }");
    fail(L, "solve: %s is missing", field);
}

// solve { from =, to =, wanted =, function(x) ... end, tolerance = }
static int word_solve(lua_State *L) {
    static const char *const fields[] = {"from", "to", "wanted", "tolerance", NULL};
    if (lua_type(L, 1) != LUA_TTABLE)
        fail_argument(L, 1, "a table { from =, to =, wanted =, function(x) return ... end }");
    check_last(L, 1);
    check_fields(L, 1, fields);
    const double from = need_number(L, "from"), to = need_number(L, "to"), wanted = need_number(L, "wanted");
    double tolerance = 0.0001;
    field_number(L, 1, "tolerance", &tolerance);
    if (tolerance < 1e-9)
        fail(L, "solve: tolerance should be at least 1e-9, got %s", push_number(L, tolerance));
    if (lua_rawgeti(L, 1, 1) != LUA_TFUNCTION)
        fail(L, "solve: the function to be solved is missing");
    Solving solving = {.L = L, .function = lua_gettop(L), .wanted = wanted};
    double x;
    Bracket ends = {0};
    const GeomError error = solve_between(solve_try, &solving, from, to, tolerance, &x, &ends);
    if (error == GEOM_NOT_BRACKETED)
        fail(L, "solve: no number between %s and %s gives %s: %s gives %s, and %s gives %s",
             push_number(L, from), push_number(L, to), push_number(L, wanted), push_number(L, ends.from),
             push_number(L, ends.at_from + wanted), push_number(L, ends.to),
             push_number(L, ends.at_to + wanted));
    if (error == GEOM_NO_CONVERGENCE)
        fail(L, "solve: between %s and %s the function jumps past %s, so no number gives it",
             push_number(L, from), push_number(L, to), push_number(L, wanted));
    if (error)
        fail_geometry(L, error);
    lua_pushnumber(L, x);
    return 1;
}

const Binding lib_recipe_rows[] = {
    {{"give", "recipe", "give { bodice = { front =, back = }, name = value, ... }  ->  true or false",
      "What this recipe hands to the next one of the chain, or to the recipe that uses it. A bodice is two "
      "half drafts, front and "
      "back: centre on x = 0, the body to the right, the edges centre, neckline and shoulder running away "
      "from the centre neck. True where another recipe takes it; false for the last one, which then makes "
      "the "
      "pieces itself.",
      "depth = 4*cm\n"
      "give { bodice = bodice, depth = depth }"},
     word_give},
    {{"use", "recipe", "use(\"recipe\", { name = value, ... })  ->  table of what it gave",
      "Runs another recipe inside this one, with its needs and choices from the table; other choices keep "
      "their defaults and "
      "measurements of the body are seen too. The name is written out, so that the recipe is there "
      "beforehand.",
      "local ready = use(\"necklines/lowered\", { bodice = bodice, lower_front = 4*cm }).bodice\n"
      "ready.front.P = ready.front.neckline:at(3*cm)"},
     word_use},
    {{"note", "recipe",
      "note(\"name\", value [, \"length\" | \"degrees\" | \"area\" | \"number\" | \"text\"])",
      "A note in the margin that is no length; the name is bound as by name = value.",
      "note(\"slope\", bodice.front.shoulder:direction(\"first\"), \"degrees\")"},
     word_note},
    {{"warn", "recipe", "warn \"text\"", "A warning printed with the result.",
      "warn \"the back shoulder is long\""},
     word_warn},
    {{"caution", "recipe", "caution \"text\"", "A caution about safety, printed with the result.",
      "caution \"no cords at a child's neck; mind the rules where it is worn\""},
     word_caution},
    {{"refuse", "recipe", "refuse(\"text\" [, \"way out\"])",
      "Stops the run with a sentence, and with what would work.",
      "depth = 4*cm\n"
      "if depth > bodice.front.centre.length then\n"
      "  refuse(\"the neckline falls below the hem\", \"a depth of \" .. show(bodice.front.centre.length))\n"
      "end\n"
      "bodice.front.P = bodice.front.centre:at(depth)"},
     word_refuse},
    {{"show", "recipe",
      "show(x [, \"length\" | \"degrees\" | \"area\" | \"number\" | \"fine\" | \"signed\"])  ->  text",
      "A number as the reader sees it, in the reader's unit: \"14.0 cm\", \"142.0\xC2\xB0\", \"952 "
      "cm\xC2\xB2\". A plain number is a "
      "length; fine is to 0.1 mm; signed says plus or minus.",
      "note(\"label\", \"the front neckline is \" .. show(bodice.front.neckline.length), \"text\")"},
     word_show},
    {{"each", "recipe", "for x in each(a, b, ...) do", "Goes through the things one by one, in order.",
      "for half in each(bodice.front, bodice.back) do\n"
      "  half:measure(half.neck_point, half.shoulder_point)\n"
      "end"},
     word_each},
    {{"solve", "recipe",
      "solve { from =, to =, wanted =, function(x) return ... end, tolerance = 0.0001 }  ->  x",
      "The number between from and to for which the function gives the wanted value, within the tolerance "
      "(R. P. Brent, "
      "Algorithms for Minimization without Derivatives, 1973). An error where from and to give values on the "
      "same side of it.",
      "local f = bodice.front\n"
      "depth = solve { from = 1*cm, to = 20*cm, wanted = 15*cm,\n"
      "                function(d) return line(f.centre_neck:down(d), f.neck_point).length end }\n"
      "f.edge = line(f.centre_neck:down(depth), f.neck_point)"},
     word_solve},
    {{NULL}, NULL},
};
