// What a run may use: bytes and work. The ledger is sticky: once a limit is passed, nothing in the recipe can
// go on.
#ifndef REBATO_SCRIPT_LEDGER_H
#define REBATO_SCRIPT_LEDGER_H

#include <stdbool.h>
#include <stddef.h>

#include <lua.h>

#define LIMIT_MEMORY_BYTES ((size_t)64 << 20)
#define LIMIT_INSTRUCTIONS 200000000L
#define LIMIT_SECONDS 10.0

// Everything a recipe can make many of is counted; no honest recipe comes near.
#define LIMIT_SOURCE_BYTES (64 << 10)
#define LIMIT_TEXT_BYTES (10 << 10)
#define LIMIT_NAME_BYTES 200
#define LIMIT_MARKS 20000
#define LIMIT_PIECES 500
#define LIMIT_DRAFTS 500
#define LIMIT_NOTES 10000
#define LIMIT_PROOFS 5000
#define LIMIT_SEAMS 2000
#define LIMIT_REMARKS 1000
#define LIMIT_INPUTS 500
#define LIMIT_ARGUMENTS 2000
#define LIMIT_CALLS 10000
#define LIMIT_DEPTH 16 // recipes used inside recipes

typedef enum LimitKind { LIMIT_NONE, LIMIT_OF_MEMORY, LIMIT_OF_WORK } LimitKind;

typedef struct Ledger {
    size_t used, cap; // bytes
    size_t other;     // of used: bytes outside the Lua state, as last settled
    long left;        // instructions and their like still allowed
    LimitKind hit;    // sticky
    int refused_line; // of the recipe, where memory was last refused; 0 where none was
    char refused_file[200];
    bool collects;      // the collector is at work
    lua_State *watched; // once instructions are counted
} Ledger;

void ledger_init(Ledger *ledger, size_t memory, long instructions);

// The allocator of the Lua state; its data is the Ledger.
void *ledger_alloc(void *ledger, void *old, size_t old_size, size_t new_size);

// Starts counting instructions.
void ledger_watch(lua_State *L);

// Work done in C, in about the cost of one Lua instruction each. Raises when it is not allowed.
void ledger_charge(lua_State *L, double work);

// Counts the bytes held outside the Lua state (pattern, pieces). Raises when they are too many.
void ledger_settle(lua_State *L);

// Raises when count has reached limit: "the recipe makes more than 500 pieces".
void ledger_count(lua_State *L, int count, int limit, const char *things);

// Raises again where a limit was passed; for those that catch errors.
void ledger_recheck(lua_State *L);

#endif
