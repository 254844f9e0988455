// What of Lua itself a recipe sees. The state begins empty: nothing is taken away from it, only what is named
// here is let in, and a new version of Lua lets in no more.
//
// There are three ways in. What harms nobody goes in as it is (open_base: assert, error, ipairs; the whole of
// math but chance). What costs more than its one call seems to is wrapped, so that it pays the ledger first
// (select, tonumber here; the functions on text and lists in sandbox_string.c). What would tell one run from
// another, or get round a wall, is written anew: pairs and next go by the order of the keys, never by that of
// the memory; tostring shows no addresses; type knows the things of the language; pcall cannot catch the end
// of a limit or of a survey.
//
// What never changes: a recipe has no way to a file, a clock, chance, a metatable, the text of a chunk or
// compiled code; the tables math, string and table are locked, so that one recipe of a chain cannot change
// what the next one calls. Memory and work are walled in by ledger.c, the process by child.c.
#include "script/sandbox.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <lualib.h>

#include "script/check.h"
#include "script/survey.h"

// A key of a table, taken out for sorting.
typedef struct Key {
    bool is_text;
    double number;
    const char *text; // held by the table
    size_t length;
    lua_Integer integer;
    bool is_integer;
} Key;

// Numbers before text, each rising; text by its bytes.
static int key_order(const void *a, const void *b) {
    const Key *x = a, *y = b;
    if (x->is_text != y->is_text)
        return x->is_text ? 1 : -1;
    if (!x->is_text)
        return x->number < y->number ? -1 : x->number > y->number;
    const int by_bytes = memcmp(x->text, y->text, x->length < y->length ? x->length : y->length);
    if (by_bytes != 0)
        return by_bytes;
    return x->length < y->length ? -1 : x->length > y->length;
}

static Key key_at(lua_State *L, int index, const char *word) {
    Key key = {.is_text = lua_type(L, index) == LUA_TSTRING};
    if (key.is_text) {
        key.text = lua_tolstring(L, index, &key.length);
    } else if (lua_type(L, index) == LUA_TNUMBER) {
        key.number = lua_tonumber(L, index);
        key.is_integer = lua_isinteger(L, index);
        key.integer = key.is_integer ? lua_tointeger(L, index) : 0;
    } else {
        run_hint(run_of(L), "only numbers and text have an order");
        fail(L, "%s: the table has %s as a key, which stands in no order", word, value_describe(L, index));
    }
    return key;
}

static void push_key(lua_State *L, const Key *key) {
    if (key->is_text)
        lua_pushlstring(L, key->text, key->length);
    else if (key->is_integer)
        lua_pushinteger(L, key->integer);
    else
        lua_pushnumber(L, key->number);
}

// The keys of the table at index 1, sorted, in memory of the state; pushes that memory.
static Key *sorted_keys(lua_State *L, size_t *count) {
    size_t entries = 0;
    for (lua_pushnil(L); lua_next(L, 1); lua_pop(L, 1))
        entries++;
    ledger_charge(L, 60.0 * (double)entries);
    Key *keys = lua_newuserdatauv(L, sizeof *keys * (entries + 1), 0);
    size_t i = 0;
    for (lua_pushnil(L); lua_next(L, 1); lua_pop(L, 1))
        keys[i++] = key_at(L, -2, "pairs");
    qsort(keys, entries, sizeof *keys, key_order);
    *count = entries;
    return keys;
}

// Upvalues: the keys in a list, the place in it, the table.
static int pairs_next(lua_State *L) {
    for (;;) {
        const lua_Integer place = lua_tointeger(L, lua_upvalueindex(2)) + 1;
        lua_pushinteger(L, place);
        lua_replace(L, lua_upvalueindex(2));
        if (lua_rawgeti(L, lua_upvalueindex(1), place) == LUA_TNIL)
            return 1;
        lua_pushvalue(L, -1);
        if (lua_rawget(L, lua_upvalueindex(3)) != LUA_TNIL)
            return 2;
        lua_pop(L, 2); // gone since the walk began
    }
}

// pairs(t): numbers rising, then text in the order of its bytes.
static int sealed_pairs(lua_State *L) {
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    size_t count;
    const Key *keys = sorted_keys(L, &count);
    lua_createtable(L, (int)count, 0);
    for (size_t i = 0; i < count; i++) {
        push_key(L, &keys[i]);
        lua_rawseti(L, 3, (lua_Integer)i + 1);
    }
    lua_pushinteger(L, 0);
    lua_pushvalue(L, 1);
    lua_pushcclosure(L, pairs_next, 3);
    return 1;
}

// next(t, k): the next key in the order of pairs.
static int sealed_next(lua_State *L) {
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 2);
    const bool begins = lua_isnil(L, 2);
    const Key after = begins ? (Key){0} : key_at(L, 2, "next");
    Key best;
    bool found = false;
    double entries = 0;
    for (lua_pushnil(L); lua_next(L, 1); lua_pop(L, 1)) {
        entries++;
        const Key key = key_at(L, -2, "next");
        if ((begins || key_order(&key, &after) > 0) && (!found || key_order(&key, &best) < 0)) {
            best = key;
            found = true;
        }
    }
    ledger_charge(L, 10 * entries);
    if (!found) {
        lua_pushnil(L);
        return 1;
    }
    push_key(L, &best);
    lua_pushvalue(L, -1);
    lua_rawget(L, 1);
    return 2;
}

// pcall that cannot be used to outlive a limit, or the end of a survey.
static int sealed_pcall(lua_State *L) {
    luaL_checkany(L, 1);
    Run *run = run_of(L);
    const Place place = run->place;
    const Filling *const filling = run->filling;
    const int status = lua_pcall(L, lua_gettop(L) - 1, LUA_MULTRET, 0);
    if (status == LUA_OK) {
        lua_pushboolean(L, true);
        lua_insert(L, 1);
        return lua_gettop(L);
    }
    if (status == LUA_ERRMEM)
        run->ledger.hit = LIMIT_OF_MEMORY;
    ledger_recheck(L);
    if (run->surveyed)
        survey_stop(L);
    run->place = place;
    run->filling = filling;
    run->hint[0] = '\0';
    run->in_inputs = false;
    run->input_line = 0;
    lua_pushboolean(L, false);
    lua_insert(L, -2);
    return 2;
}

static int sealed_tostring(lua_State *L) {
    luaL_checkany(L, 1);
    value_text(L, 1);
    return 1;
}

// tonumber(text) costs its length.
static int sealed_tonumber(lua_State *L) {
    if (lua_type(L, 1) == LUA_TSTRING)
        ledger_charge(L, (double)lua_rawlen(L, 1) / 8);
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    lua_call(L, lua_gettop(L) - 1, 1);
    return 1;
}

static int sealed_type(lua_State *L) {
    luaL_checkany(L, 1);
    const Value *value = value_at(L, 1);
    static const char *const kinds[] = {[VALUE_POINT] = "point",
                                        [VALUE_PATH] = "path",
                                        [VALUE_DRAFT] = "draft",
                                        [VALUE_PIECE] = "piece",
                                        [VALUE_PLACEHOLDER] = "table"};
    if (value)
        lua_pushstring(L, kinds[value->kind]);
    else
        lua_pushstring(L, luaL_typename(L, 1));
    return 1;
}

static int sealed_select(lua_State *L) {
    ledger_charge(L, lua_gettop(L));
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    lua_call(L, lua_gettop(L) - 1, LUA_MULTRET);
    return lua_gettop(L);
}

static int locked_write(lua_State *L) {
    fail(L, "'%s' belongs to the language and cannot be changed", lua_tostring(L, lua_upvalueindex(1)));
}

void sandbox_lock(lua_State *L, const char *name) {
    lua_createtable(L, 0, 0);
    lua_createtable(L, 0, 3);
    lua_pushvalue(L, -3);
    lua_setfield(L, -2, "__index");
    lua_pushstring(L, name);
    lua_pushcclosure(L, locked_write, 1);
    lua_setfield(L, -2, "__newindex");
    lua_pushboolean(L, false);
    lua_setfield(L, -2, "__metatable");
    lua_setmetatable(L, -2);
    lua_replace(L, -2);
}

// Moves the named functions from the table on top of the stack to the library below it.
static void keep(lua_State *L, const char *const *names) {
    for (; *names; names++) {
        lua_getfield(L, -1, *names);
        lua_setfield(L, -3, *names);
    }
}

// A word that calls Lua's own of that name.
static void wrap(lua_State *L, const char *name, lua_CFunction function) {
    lua_getfield(L, -1, name);
    lua_pushcclosure(L, function, 1);
    lua_setfield(L, -3, name);
}

static void open_base(lua_State *L) {
    static const char *const kept[] = {"assert", "error", "ipairs", NULL};
    static const luaL_Reg own[] = {{"pairs", sealed_pairs}, {"next", sealed_next},
                                   {"pcall", sealed_pcall}, {"tostring", sealed_tostring},
                                   {"type", sealed_type},   {NULL, NULL}};
    lua_pushcfunction(L, luaopen_base);
    lua_call(L, 0, 1);
    keep(L, kept);
    wrap(L, "select", sealed_select);
    wrap(L, "tonumber", sealed_tonumber);
    lua_pop(L, 1);
    luaL_setfuncs(L, own, 0);
}

static void open_math(lua_State *L) {
    lua_pushcfunction(L, luaopen_math);
    lua_call(L, 0, 1);
    lua_pushnil(L);
    lua_setfield(L, -2, "random");
    lua_pushnil(L);
    lua_setfield(L, -2, "randomseed");
    sandbox_lock(L, "math");
    lua_setfield(L, -2, "math");
}

void sandbox_open(lua_State *L) {
    open_base(L);
    open_math(L);
    lua_createtable(L, 0, 16);
    sandbox_open_string(L);
    lua_createtable(L, 0, 1); // the metatable of text
    lua_pushvalue(L, -2);
    lua_setfield(L, -2, "__index");
    lua_pushboolean(L, false);
    lua_setfield(L, -2, "__metatable");
    lua_pushliteral(L, "");
    lua_pushvalue(L, -2);
    lua_setmetatable(L, -2);
    lua_pop(L, 2);
    sandbox_lock(L, "string");
    lua_setfield(L, -2, "string");
    lua_createtable(L, 0, 8);
    sandbox_open_table(L);
    sandbox_lock(L, "table");
    lua_setfield(L, -2, "table");
}
