// The guarded functions on text and lists. Each charges what it does in C before it does it.
#include <math.h>
#include <string.h>

#include <lualib.h>

#include "script/check.h"
#include "script/sandbox.h"

// Patterns go back and forth: the most tries a match may need, as told from the pattern.
#define PATTERN_TRIES_MAX 2e7
#define PATTERN_TEXT_MAX ((size_t)64 << 10)
#define REP_BYTES_MAX 1e6
#define LIST_MAX 1e6

// Calls Lua's own function, which is upvalue 1, with what is on the stack.
static int call_own(lua_State *L) {
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    lua_call(L, lua_gettop(L) - 1, LUA_MULTRET);
    return lua_gettop(L);
}

// Lua's own, at a cost in proportion to the text at index 1.
static int text_linear(lua_State *L) {
    if (lua_type(L, 1) == LUA_TSTRING)
        ledger_charge(L, 1 + (double)lua_rawlen(L, 1) / 8);
    return call_own(L);
}

// string.byte gives up to as many numbers as the text is long.
static int text_byte(lua_State *L) {
    if (lua_type(L, 1) == LUA_TSTRING && !lua_isnoneornil(L, 3))
        ledger_charge(L, (double)lua_rawlen(L, 1));
    return call_own(L);
}

static int text_rep(lua_State *L) {
    size_t length, between = 0;
    luaL_checklstring(L, 1, &length);
    const lua_Integer n = luaL_checkinteger(L, 2);
    luaL_optlstring(L, 3, "", &between);
    if (n > REP_BYTES_MAX || (double)n * (double)(length + between) > REP_BYTES_MAX)
        fail(L, "rep: the text would be longer than 1 MB");
    ledger_charge(L, n > 0 ? (double)n * (double)(1 + length + between) / 8 : 1);
    return call_own(L);
}

// string.format, where things that are neither number nor text are told without addresses.
static int text_format(lua_State *L) {
    size_t length;
    const char *format = luaL_checklstring(L, 1, &length);
    const int count = lua_gettop(L);
    int argument = 1;
    double work = (double)length;
    for (const char *at = format; at < format + length; at++) {
        if (*at != '%')
            continue;
        at++;
        if (at < format + length && *at == '%')
            continue;
        at += strspn(at, "-+ #0123456789.");
        argument++;
        if (*at == 'p')
            fail(L, "format: %%p tells an address, which is never the same");
        if ((*at == 's' || *at == 'q') && argument <= count && lua_type(L, argument) != LUA_TNUMBER &&
            lua_type(L, argument) != LUA_TSTRING && *at == 's') {
            value_text(L, argument);
            lua_replace(L, argument);
        }
        work +=
            argument <= count && lua_type(L, argument) == LUA_TSTRING ? (double)lua_rawlen(L, argument) : 100;
    }
    ledger_charge(L, work / 4);
    return call_own(L);
}

// The most a match of the pattern can try on n bytes: an item that repeats can end anywhere, one that may be
// left out doubles the ways; without an anchor it begins anywhere.
static double pattern_tries(const char *pattern, size_t length, size_t n, bool anchors) {
    const char *end = pattern + length;
    const bool anchored = anchors && length > 0 && pattern[0] == '^';
    double repeats = anchored ? 0 : 1, doubles = 0;
    for (const char *at = pattern; at < end; at++) {
        if (*at == '%') {
            at++;
            if (at < end && (*at == 'b' || *at == 'f'))
                repeats++;
        } else if (*at == '[') {
            at++;
            if (at < end && *at == '^')
                at++;
            do { // a bracket that comes first stands for itself
                if (at < end && *at == '%')
                    at++;
                at++;
            } while (at < end && *at != ']');
        } else if (*at == '*' || *at == '+' || *at == '-') {
            repeats++;
        } else if (*at == '?') {
            doubles++;
        }
    }
    return pow((double)n + 1, repeats) * pow(2, doubles);
}

static void guard_pattern(lua_State *L, bool anchors) {
    size_t n, length;
    luaL_checklstring(L, 1, &n);
    const char *pattern = luaL_checklstring(L, 2, &length);
    const double tries = pattern_tries(pattern, length, n, anchors);
    if (n > PATTERN_TEXT_MAX || length > 1000 || tries > PATTERN_TRIES_MAX) {
        run_hint(run_of(L), "a shorter text, or a pattern with fewer *, +, - and ?");
        fail(L, "%s: the pattern may need too many tries on %d bytes of text", word_name(L), (int)n);
    }
    ledger_charge(L, 10 + tries / 4);
}

static int text_match(lua_State *L) {
    guard_pattern(L, true);
    return call_own(L);
}

static int text_find(lua_State *L) {
    if (!lua_toboolean(L, 4)) {
        guard_pattern(L, true);
        return call_own(L);
    }
    size_t n, m;
    luaL_checklstring(L, 1, &n);
    luaL_checklstring(L, 2, &m);
    if ((double)n * (double)m > 1e8)
        fail(L, "find: the texts are too long, %d and %d bytes", (int)n, (int)m);
    ledger_charge(L, 10 + (double)n * (double)m / 16);
    return call_own(L);
}

// Every match may try anew from where the last one ended, but all tries begin at different places: no more
// than one search.
static int text_gmatch(lua_State *L) {
    guard_pattern(L, false);
    return call_own(L);
}

static void check_list(lua_State *L) {
    luaL_checktype(L, 1, LUA_TTABLE);
    if (lua_rawlen(L, 1) > LIST_MAX)
        fail(L, "%s: the list has more than a million entries", word_name(L));
}

// Putting in or taking out at the end costs nothing more.
static int list_shift(lua_State *L) {
    check_list(L);
    if (lua_gettop(L) > 2 || (lua_gettop(L) == 2 && lua_toboolean(L, lua_upvalueindex(2))))
        ledger_charge(L, (double)lua_rawlen(L, 1) / 4);
    return call_own(L);
}

static void check_range(lua_State *L, int from, int to) {
    const lua_Integer first = luaL_optinteger(L, from, 1);
    const lua_Integer last = luaL_optinteger(L, to, (lua_Integer)lua_rawlen(L, 1));
    const double count = (double)last - (double)first;
    if (count > LIST_MAX)
        fail(L, "%s: the range has more than a million entries", word_name(L));
    ledger_charge(L, 1 + fmax(0, count));
}

static int list_unpack(lua_State *L) {
    check_list(L);
    check_range(L, 2, 3);
    return call_own(L);
}

static int list_concat(lua_State *L) {
    check_list(L);
    check_range(L, 3, 4);
    return call_own(L);
}

static int list_sort(lua_State *L) {
    check_list(L);
    const double n = (double)lua_rawlen(L, 1);
    ledger_charge(L, 1 + 3 * n * log2(n + 2));
    return call_own(L);
}

static int list_pack(lua_State *L) {
    ledger_charge(L, lua_gettop(L) / 4.0);
    return call_own(L);
}

typedef struct Guarded {
    const char *name;
    lua_CFunction call;
    bool flag; // upvalue 2
} Guarded;

// From Lua's library on top of the stack into the table below it; then takes the library off.
static void guard(lua_State *L, const Guarded *rows) {
    for (; rows->name; rows++) {
        lua_getfield(L, -1, rows->name);
        lua_pushboolean(L, rows->flag);
        lua_pushcclosure(L, rows->call, 2);
        lua_setfield(L, -3, rows->name);
    }
    lua_pop(L, 1);
}

void sandbox_open_string(lua_State *L) {
    static const Guarded rows[] = {
        {"byte", text_byte, false},      {"char", list_pack, false},    {"format", text_format, false},
        {"len", text_linear, false},     {"lower", text_linear, false}, {"upper", text_linear, false},
        {"reverse", text_linear, false}, {"sub", text_linear, false},   {"rep", text_rep, false},
        {"find", text_find, false},      {"match", text_match, false},  {"gmatch", text_gmatch, false},
        {"gsub", text_match, false},     {NULL, NULL, false},
    };
    lua_pushcfunction(L, luaopen_string);
    lua_call(L, 0, 1);
    guard(L, rows);
}

void sandbox_open_table(lua_State *L) {
    static const Guarded rows[] = {
        {"concat", list_concat, false},
        {"insert", list_shift, false},
        {"remove", list_shift, true},
        {"sort", list_sort, false},
        {"unpack", list_unpack, false},
        {"pack", list_pack, false},
        {NULL, NULL, false},
    };
    lua_pushcfunction(L, luaopen_table);
    lua_call(L, 0, 1);
    guard(L, rows);
}
