#include "script/names.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "script/check.h"
#include "script/error.h"
#include "script/survey.h"

// Names looked at when one is nearly right.
#define NEAR_NAMES_MAX 600

// The tables of a chapter, in the list SLOT_CHAPTERS keeps for it.
enum { NAMES_VALUES = 1, NAMES_LINES = 2 };

// Pushes the tables of names of a chapter: what they are, and the lines they were made at.
static void push_tables(lua_State *L, int chapter) {
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_CHAPTERS);
    lua_rawgeti(L, -1, chapter);
    lua_rawgeti(L, -1, NAMES_VALUES);
    lua_rawgeti(L, -2, NAMES_LINES);
    lua_remove(L, -3);
    lua_remove(L, -3);
}

static int gather_names(lua_State *L, int table, const char **names, int count) {
    for (lua_pushnil(L); lua_next(L, table); lua_pop(L, 1))
        if (lua_type(L, -2) == LUA_TSTRING && count < NEAR_NAMES_MAX)
            names[count++] = lua_tostring(L, -2);
    return count;
}

// The names of the locals of a running call.
static int gather_locals(lua_State *L, const lua_Debug *ar, const char **names, int count) {
    for (int i = 1; i <= 200 && count < NEAR_NAMES_MAX; i++) {
        const char *name = lua_getlocal(L, ar, i);
        if (!name)
            break;
        lua_pop(L, 1);
        if (name[0] != '(')
            names[count++] = name; // held by the function, which is running
    }
    return count;
}

// Those of the innermost code of the recipe, and of its chunk, which it stands in.
static int gather_seen_locals(lua_State *L, const char **names, int count) {
    lua_Debug ar;
    for (int level = 1; lua_getstack(L, level, &ar); level++) {
        lua_getinfo(L, "S", &ar);
        const bool chunk = strcmp(ar.what, "main") == 0;
        if (level == 1 || chunk)
            count = gather_locals(L, &ar, names, count);
        if (chunk)
            break;
    }
    return count;
}

static int by_text(const void *a, const void *b) {
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

// Keeps as hint the name that was nearly read.
static void hint_near(lua_State *L, const char *name, int values, int library) {
    const char *names[NEAR_NAMES_MAX];
    int count = gather_names(L, values, names, 0);
    count = gather_names(L, library, names, count);
    count = gather_seen_locals(L, names, count);
    ledger_charge(L, 100.0 * count);
    qsort(names, (size_t)count, sizeof *names, by_text); // the tables have no order of their own
    const char *near = strlen(name) <= LIMIT_NAME_BYTES ? text_nearest(name, names, count) : NULL;
    if (near)
        run_hint(run_of(L), "did you mean '%s'?", near);
}

// A field that is not there is read from a table a recipe was handed: a slip where there is one of nearly
// that name, and nil otherwise, since not every table has every field. Upvalue: what the table is called.
static int field_miss(lua_State *L) {
    const char *names[NEAR_NAMES_MAX];
    const char *name = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "";
    const int count = gather_names(L, 1, names, 0);
    ledger_charge(L, 100.0 * count);
    qsort(names, (size_t)count, sizeof *names, by_text);
    const char *near = strlen(name) <= LIMIT_NAME_BYTES ? text_nearest(name, names, count) : NULL;
    if (near) {
        run_hint(run_of(L), "did you mean '%s'?", near);
        fail(L, "'%s' has no '%s'", lua_tostring(L, lua_upvalueindex(1)), name);
    }
    lua_pushnil(L);
    return 1;
}

void names_guard(lua_State *L, const char *name, int index) {
    index = lua_absindex(L, index);
    if (lua_type(L, index) != LUA_TTABLE)
        return;
    if (lua_getmetatable(L, index)) { // by an earlier recipe
        lua_pop(L, 1);
        return;
    }
    lua_createtable(L, 0, 2);
    lua_pushstring(L, name);
    lua_pushcclosure(L, field_miss, 1);
    lua_setfield(L, -2, "__index");
    lua_pushboolean(L, false);
    lua_setfield(L, -2, "__metatable");
    lua_setmetatable(L, index);
}

// A name that is no note of the chapter is read. Upvalues: values, lines, library.
static int names_miss(lua_State *L) {
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(3)) != LUA_TNIL) {
        if (run_of(L)->survey && lua_type(L, 2) == LUA_TSTRING)
            survey_check(L, lua_tostring(L, 2));
        return 1;
    }
    lua_pushvalue(L, 2);
    if (lua_rawget(L, lua_upvalueindex(2)) != LUA_TNIL) {
        lua_pushnil(L);
        return 1;
    }
    if (lua_type(L, 2) != LUA_TSTRING)
        fail(L, "a name is text, got %s", value_describe(L, 2));
    const char *name = lua_tostring(L, 2);
    hint_near(L, name, lua_upvalueindex(1), lua_upvalueindex(3));
    fail(L, "nothing is called '%s'", name);
}

// Raises unless the name may be given; the tables of its chapter are on the stack at values and lines.
static void check_free(lua_State *L, const char *name, int lines) {
    if (!is_plain_name(name))
        fail(L, "'%s' is not a plain name: letters, digits and _", name);
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_LIBRARY);
    if (lua_getfield(L, -1, name) != LUA_TNIL)
        fail(L, "'%s' is a word of the language; choose another name", name);
    lua_pop(L, 2);
    if (lua_getfield(L, lines, name) != LUA_TNIL) {
        run_hint(run_of(L), "a plain name is a note and is made once; use a local for what changes");
        fail(L, "'%s' was named at line %d already", name, (int)lua_tointeger(L, -1));
    }
    lua_pop(L, 1);
}

static void bind(lua_State *L, const char *name, int index, int values, int lines) {
    lua_pushvalue(L, index);
    lua_setfield(L, values, name);
    const int input_line = run_of(L)->input_line;
    lua_pushinteger(L, input_line > 0 ? input_line : author_line(L));
    lua_setfield(L, lines, name);
    Value *value = value_at(L, index);
    if (value)
        value_name(value, run_text(L, name));
}

void names_bind(lua_State *L, const char *name, int index) {
    index = lua_absindex(L, index);
    push_tables(L, run_of(L)->place.chapter);
    const int lines = lua_gettop(L), values = lines - 1;
    check_free(L, name, lines);
    bind(L, name, index, values, lines);
    lua_settop(L, values - 1);
}

void names_note(lua_State *L, const char *name, int index, Measure measure) {
    Run *run = run_of(L);
    Pattern *pattern = run->pattern;
    const int type = lua_type(L, index);
    if (type != LUA_TNUMBER && type != LUA_TSTRING)
        return;
    ledger_count(L, pattern->notes.count, LIMIT_NOTES, "notes");
    Note note = {.step = run->place.step, .measure = measure};
    if (type == LUA_TNUMBER) {
        note.value = lua_tonumber(L, index);
        if (!isfinite(note.value))
            fail(L, "'%s' %s", name, length_trouble(note.value));
        if (fabs(note.value) > 1e12)
            fail(L, "'%s' is larger than any measure", name);
    } else {
        note.measure = MEASURE_TEXT;
        note.text = arena_text(&pattern->arena, check_text(L, index, LIMIT_TEXT_BYTES));
    }
    note.name = arena_text(&pattern->arena, name);
    ARRAY_ADD(&pattern->notes, note);
    ledger_settle(L);
}

// A plain name is given a value. Upvalues: values, lines.
static int names_give(lua_State *L) {
    if (lua_type(L, 2) != LUA_TSTRING)
        fail(L, "a name is text, got %s", value_describe(L, 2));
    const char *name = check_name(L, 2);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_pushvalue(L, lua_upvalueindex(2));
    check_free(L, name, 5);
    if (lua_isnil(L, 3)) {
        run_hint(run_of(L), "what stands to the right of the equals sign gives nothing");
        fail(L, "'%s' got nothing (nil)", name);
    }
    bind(L, name, 3, 4, 5);
    names_note(L, name, 3, MEASURE_LENGTH);
    return 0;
}

Measure names_measure(lua_State *L, const char *name) {
    const Run *run = run_of(L);
    const Pattern *pattern = run->pattern;
    for (int i = pattern->notes.count - 1; i >= 0; i--) {
        const Note *note = &pattern->notes.items[i];
        if (note->step >= run->place.first_step && strcmp(note->name, name) == 0)
            return note->measure;
    }
    for (int i = pattern->inputs.count - 1; i >= 0; i--) {
        const Input *input = &pattern->inputs.items[i];
        if (input->chapter == run->place.chapter && strcmp(input->name, name) == 0)
            return input->measure;
    }
    return MEASURE_LENGTH;
}

void names_open(lua_State *L, int chapter) {
    lua_createtable(L, 0, 0); // what the chunk sees: always empty, so that every giving is seen
    lua_createtable(L, 0, 3); // its metatable
    lua_createtable(L, 0, 32);
    const int values = lua_gettop(L);
    lua_createtable(L, 0, 32);
    const int lines = values + 1;
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_CHAPTERS);
    lua_createtable(L, 2, 0);
    lua_pushvalue(L, values);
    lua_rawseti(L, -2, NAMES_VALUES);
    lua_pushvalue(L, lines);
    lua_rawseti(L, -2, NAMES_LINES);
    lua_rawseti(L, -2, chapter);
    lua_pop(L, 1);
    // Reading: the values first, and from them on to the words.
    lua_createtable(L, 0, 1);
    lua_pushvalue(L, values);
    lua_pushvalue(L, lines);
    lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_LIBRARY);
    lua_pushcclosure(L, names_miss, 3);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, values);
    lua_pushvalue(L, values);
    lua_setfield(L, values - 1, "__index");
    lua_pushvalue(L, values);
    lua_pushvalue(L, lines);
    lua_pushcclosure(L, names_give, 2);
    lua_setfield(L, values - 1, "__newindex");
    lua_pushboolean(L, 0);
    lua_setfield(L, values - 1, "__metatable");
    lua_settop(L, values - 1);
    lua_setmetatable(L, -2);
}
