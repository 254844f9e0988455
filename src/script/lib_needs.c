// What must be there: needs.
#include <stdio.h>
#include <string.h>

#include "base/buffer.h"
#include "base/measures.h"
#include "script/check.h"
#include "script/inputs.h"
#include "script/library.h"
#include "script/names.h"
#include "script/survey.h"

// Some patterns need the girth at the base of the neck and some that of its column: they differ by
// centimetres, and the one is often taken for the other.
static void hint_other_neck(lua_State *L, const char *name, char *out, size_t size) {
    static const char *const girths[] = {"neck_girth", "neck_base_girth"};
    static const char *const words[] = {
        " (not the neck_girth you have: that is taken round the column, higher and smaller)",
        " (not the neck_base_girth you have: that is taken round the base, lower and larger)"};
    Run *run = run_of(L);
    out[0] = '\0';
    for (int i = 0; i < 2; i++)
        if (strcmp(name, girths[1 - i]) == 0 &&
            (setting_value(run, girths[i]) || (run->job->body && measures_find(run->job->body, girths[i]))))
            snprintf(out, size, "%s", words[i]);
}

static void fail_missing_bodice(lua_State *L, const char *about) {
    run_hint(run_of(L), "put a block before it: --block blocks/close-fitting (from body measurements) or "
                        "--block blocks/measured (from a block of your own)");
    fail(L, "%s needs %s", run_of(L)->place.recipe->name, about);
}

static void fail_missing_one(lua_State *L, const Asked *asked) {
    Run *run = run_of(L);
    const char *name = asked->name;
    const KnownMeasure *known = measure_known(name);
    char other[160];
    hint_other_neck(L, name, other, sizeof other);
    run->input_line = asked->line;
    if (known)
        run_hint(run, "%s%s; give it as a line %s = ... in the measurement file, or with --set %s=...",
                 known->taken, other, name, name);
    else
        run_hint(run,
                 "give it as a line %s = ... in the measurement file, or with --set %s=...; or let a recipe "
                 "before this one give it",
                 name, name);
    fail(L, "%s needs %s: %s", run->place.recipe->name, name, asked->about);
}

// Raises: these, more than one, are nowhere to be had. All are told, so that they can be taken in one go.
static void fail_missing_all(lua_State *L, const Asked *const *missing, int count) {
    Run *run = run_of(L);
    Buffer names, ways; // in the run's arena and hint in the end; nothing below raises before that
    buffer_init(&names);
    buffer_init(&ways);
    for (int i = 0; i < count; i++) {
        const char *name = missing[i]->name;
        const KnownMeasure *known = measure_known(name);
        char other[160];
        hint_other_neck(L, name, other, sizeof other);
        buffer_add_format(&names, "%s%s", i == 0 ? "" : i + 1 < count ? ", " : " and ", name);
        buffer_add_format(&ways, "%s: %s%s\n", name, known ? known->taken : missing[i]->about, other);
    }
    const char *all = arena_text(&run->arena, names.data);
    run->input_line = missing[0]->line;
    run_hint(run, "%sgive each as a line NAME = ... in the measurement file, or with --set NAME=...",
             ways.data);
    buffer_finish(&names);
    buffer_finish(&ways);
    fail(L, "%s needs %d measurements more: %s", run->place.recipe->name, count, all);
}

// Binds one need; its entry of the table is on the stack top. False, with nothing bound, where it is not to
// be had.
static bool need(lua_State *L, Asked *asked) {
    Run *run = run_of(L);
    const char *name = asked->name;
    const char *about;
    bool optional = false;
    if (lua_type(L, -1) == LUA_TTABLE) {
        static const char *const fields[] = {"optional", NULL};
        check_fields(L, -1, fields);
        optional = field_flag(L, -1, "optional");
        lua_rawgeti(L, -1, 1);
        lua_replace(L, -2);
    }
    if (lua_type(L, -1) != LUA_TSTRING)
        fail(L, "needs: say in words what '%s' is", name);
    about = check_text(L, -1, LIMIT_TEXT_BYTES);
    if (strcmp(name, "bodice") == 0)
        run->needs_bodice = true;
    Input input = {.name = name,
                   .about = about,
                   .measure = measure_in_years(name) ? MEASURE_YEARS : MEASURE_LENGTH,
                   .most = -1,
                   .optional = optional};
    double value = 0;
    bool found = push_override(L, name);
    if (!found && run->place.depth == 0) {
        lua_pop(L, 1);
        lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_HANDED);
        lua_getfield(L, -1, name);
        lua_remove(L, -2);
        found = !lua_isnil(L, -1);
    }
    if (!found && strcmp(name, "bodice") != 0 && measurement(L, name, &value)) {
        lua_pop(L, 1);
        lua_pushnumber(L, value);
        found = true;
    }
    if (!found && run->survey) {
        lua_pop(L, 1);
        input.is_default = true;
        if (strcmp(name, "bodice") == 0)
            value_push_placeholder(L);
        else
            lua_pushnumber(L, optional ? 0 : survey_measure(name));
        if (optional) {
            lua_pop(L, 1);
            lua_pushnil(L);
        }
        found = true;
    }
    if (!found && !optional) {
        if (strcmp(name, "bodice") == 0)
            fail_missing_bodice(L, about);
        asked->about = run_text(L, about);
        lua_pop(L, 2);
        return false;
    }
    input.is_default = input.is_default || !found;
    input.missing = !found;
    if (lua_type(L, -1) == LUA_TNUMBER) {
        input.value = lua_tonumber(L, -1);
    } else if (found && !lua_isnil(L, -1)) {
        input.measure = MEASURE_TEXT;
        input.text = lua_type(L, -1) == LUA_TSTRING ? check_text(L, -1, LIMIT_TEXT_BYTES) : "given";
    }
    add_input(L, input);
    names_guard(L, name, -1);
    names_bind(L, name, -1);
    lua_pop(L, 2); // the value and the words
    return true;
}

static int word_needs(lua_State *L) {
    Asked asked[INPUT_NAMES_MAX];
    Run *run = run_of(L);
    run->in_inputs = true;
    const int count = check_asked(L, asked);
    const Asked *missing[INPUT_NAMES_MAX];
    int missing_count = 0;
    for (int i = 0; i < count; i++) {
        lua_getfield(L, 1, asked[i].name);
        run->input_line = asked[i].line;
        if (!need(L, &asked[i]))
            missing[missing_count++] = &asked[i];
    }
    if (missing_count == 1)
        fail_missing_one(L, missing[0]);
    if (missing_count > 1)
        fail_missing_all(L, missing, missing_count);
    run->in_inputs = false;
    run->input_line = 0;
    return 0;
}

const Binding lib_needs_rows[] = {
    {{"needs", "recipe", "needs { name = \"what it is\", ... }",
      "What must be there: a measurement of the body, in mm (age in years), or what an earlier recipe gives, "
      "such as a "
      "bodice. Each name gets "
      "its value. { \"what it is\", optional = true } gives nil where it is missing.",
      "needs { bodice = \"a bodice\", head_girth = \"round the widest part of the head\" }\n"
      "bodice.front.quarter = line(point(0, 0), point(head_girth / 4, 0))"},
     word_needs},
    {{NULL}, NULL},
};
