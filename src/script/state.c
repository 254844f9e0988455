#include "script/state.h"

#include "script/error.h"
#include "script/library.h"
#include "script/ledger.h"
#include "script/sandbox.h"

static void open_tables(lua_State *L) {
    static const Slot tables[] = {SLOT_CHAPTERS, SLOT_HANDED, SLOT_GAVE, SLOT_OVERRIDE};
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        lua_createtable(L, 4, 4);
        lua_rawseti(L, LUA_REGISTRYINDEX, tables[i]);
    }
}

static int open_all(lua_State *L) {
    open_tables(L);
    lua_createtable(L, 0, 64);
    sandbox_open(L);
    library_open(L);
    lua_rawseti(L, LUA_REGISTRYINDEX, SLOT_LIBRARY);
    ledger_watch(L);
    return 0;
}

bool state_open(Run *run) {
    run->state = lua_newstate(ledger_alloc, &run->ledger);
    if (!run->state) {
        error_unhandled(run, LUA_ERRMEM);
        return false;
    }
    *(Run **)lua_getextraspace(run->state) = run;
    return state_call(run, open_all, 0);
}

bool state_call(Run *run, lua_CFunction function, int argument) {
    lua_State *L = run->state;
    lua_pushcfunction(L, error_handle);
    lua_pushcfunction(L, function);
    lua_pushinteger(L, argument);
    const int status = lua_pcall(L, 1, 0, 1);
    lua_settop(L, 0);
    run->filling = NULL;
    if (status == LUA_OK)
        return true;
    if (!run->faulted && !run->surveyed)
        error_unhandled(run, status);
    return false;
}
