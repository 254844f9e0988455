#include "script/ledger.h"

#include <stdio.h>
#include <stdlib.h>

#include <lauxlib.h>

#include "script/run.h"

// Small, so that a short loop with much work in C is seen soon; the cost is the same from 100 to 100 000.
#define HOOK_INSTRUCTIONS 1000

// Below this the collector rests: a usual recipe is over before there is anything worth its while.
#define COLLECT_FROM ((size_t)4 << 20)

// Filling so many bytes counts as one instruction: it bounds what a few instructions on long texts can do.
#define BYTES_PER_STEP 8

void ledger_init(Ledger *ledger, size_t memory, long instructions) {
    *ledger = (Ledger){.cap = memory ? memory : LIMIT_MEMORY_BYTES,
                       .left = instructions > 0 ? instructions : LIMIT_INSTRUCTIONS};
}

// Leaves the number of instructions until the hook runs at one, so that the recipe is stopped wherever it
// goes on.
static int limit_raise(lua_State *L, LimitKind kind);

static void hook_count(lua_State *L, lua_Debug *ar) {
    (void)ar;
    Ledger *ledger = &run_of(L)->ledger;
    ledger->left -= HOOK_INSTRUCTIONS;
    if (ledger->hit != LIMIT_NONE || ledger->left < 0)
        limit_raise(L, ledger->hit != LIMIT_NONE ? ledger->hit : LIMIT_OF_WORK);
    if (!ledger->collects && ledger->used > COLLECT_FROM) {
        ledger->collects = true;
        lua_gc(L, LUA_GCRESTART);
    }
    lua_Debug deep; // the walk is as long as the calls are deep: short in any honest recipe
    if (lua_getstack(L, LIMIT_CALLS, &deep)) {
        run_hint(run_of(L), "a function may be calling itself without end");
        lua_pushfstring(L, "functions call each other more than %d deep", LIMIT_CALLS);
        lua_error(L);
    }
}

// Filling memory is work too; where it was the last that is allowed, the hook is to see it at the next
// instruction.
static void ledger_spend_bytes(Ledger *ledger, size_t bytes) {
    const bool allowed = ledger->left >= 0;
    ledger->left -= (long)(bytes / BYTES_PER_STEP);
    if (allowed && ledger->left < 0 && ledger->watched)
        lua_sethook(ledger->watched, hook_count, LUA_MASKCOUNT, 1);
}

// Keeps where the recipe stands: an error of memory goes by no message handler. Nothing here takes memory.
static void ledger_refuse(Ledger *ledger) {
    lua_Debug ar;
    for (int level = 0; ledger->watched && lua_getstack(ledger->watched, level, &ar); level++) {
        lua_getinfo(ledger->watched, "Sl", &ar);
        if (ar.currentline <= 0 || ar.source[0] != '@')
            continue;
        ledger->refused_line = ar.currentline;
        snprintf(ledger->refused_file, sizeof ledger->refused_file, "%s", ar.source + 1);
        return;
    }
}

void *ledger_alloc(void *data, void *old, size_t old_size, size_t new_size) {
    Ledger *ledger = data;
    if (!old)
        old_size = 0; // Lua passes the type of the new object here
    if (new_size == 0) {
        free(old);
        ledger->used -= old_size;
        return NULL;
    }
    const size_t left = ledger->used < ledger->cap ? ledger->cap - ledger->used : 0;
    void *block = new_size > old_size && new_size - old_size > left ? NULL : realloc(old, new_size);
    if (!block) {
        ledger_refuse(ledger); // Lua collects garbage and asks once more before it raises
        return NULL;
    }
    ledger->used += new_size - old_size;
    if (new_size > old_size)
        ledger_spend_bytes(ledger, new_size - old_size);
    return block;
}

// Leaves the number of instructions until the hook runs at one, so that the recipe is stopped wherever it
// goes on.
static int limit_raise(lua_State *L, LimitKind kind) {
    Run *run = run_of(L);
    if (run->ledger.hit == LIMIT_NONE)
        run->ledger.hit = kind;
    lua_sethook(L, hook_count, LUA_MASKCOUNT, 1);
    if (run->ledger.hit == LIMIT_OF_MEMORY) {
        run_hint(run, "it may be in a loop that never ends, or make far more than it draws");
        lua_pushfstring(L, "the recipe used more than %d MB", (int)(run->ledger.cap >> 20));
    } else {
        run_hint(run, "it may be in a loop that never ends");
        lua_pushliteral(L, "the recipe took too many steps of work and was stopped");
    }
    return lua_error(L);
}

void ledger_watch(lua_State *L) {
    run_of(L)->ledger.watched = L;
    lua_gc(L, LUA_GCSTOP);
    lua_sethook(L, hook_count, LUA_MASKCOUNT, HOOK_INSTRUCTIONS);
}

void ledger_charge(lua_State *L, double work) {
    Ledger *ledger = &run_of(L)->ledger;
    if (ledger->hit == LIMIT_NONE && work <= (double)ledger->left) {
        ledger->left -= (long)work;
        return;
    }
    limit_raise(L, LIMIT_OF_WORK);
}

void ledger_settle(lua_State *L) {
    Run *run = run_of(L);
    Ledger *ledger = &run->ledger;
    const size_t other = run_bytes(run);
    ledger->used += other - ledger->other;
    ledger->other = other;
    if (ledger->used > ledger->cap) {
        lua_gc(L, LUA_GCCOLLECT);
        if (ledger->used > ledger->cap)
            limit_raise(L, LIMIT_OF_MEMORY);
    }
}

void ledger_count(lua_State *L, int count, int limit, const char *things) {
    if (count < limit)
        return;
    Run *run = run_of(L);
    run->ledger.hit = LIMIT_OF_WORK;
    lua_sethook(L, hook_count, LUA_MASKCOUNT, 1);
    run_hint(run, "it may be in a loop that never ends");
    lua_pushfstring(L, "the recipe makes more than %d %s", limit, things);
    lua_error(L);
}

void ledger_recheck(lua_State *L) {
    const LimitKind hit = run_of(L)->ledger.hit;
    if (hit != LIMIT_NONE)
        limit_raise(L, hit);
}
