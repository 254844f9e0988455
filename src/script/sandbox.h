// What is kept of Lua itself: an allow-list, with guards where a word could run long in C, tell an address,
// or depend on the order of a hash.
#ifndef REBATO_SCRIPT_SANDBOX_H
#define REBATO_SCRIPT_SANDBOX_H

#include <lua.h>

// Adds Lua's own words to the library table on top of the stack.
void sandbox_open(lua_State *L);

// Locks the table on top of the stack: replaces it by one that reads from it and cannot be written.
void sandbox_lock(lua_State *L, const char *name);

// string.find and its kin; makes its functions in the table on top of the stack, which holds Lua's own.
void sandbox_open_string(lua_State *L);

// table.insert and its kin, likewise.
void sandbox_open_table(lua_State *L);

#endif
