// Marks on drafts, for the words that make some.
#ifndef REBATO_SCRIPT_LIB_DRAFT_H
#define REBATO_SCRIPT_LIB_DRAFT_H

#include <lua.h>

#include "script/value.h"

// Marks the point, path or piece at value under the name on the draft at index. Raises where the name is
// taken.
void draft_mark(lua_State *L, int index, const char *name, int value);

// Pushes what the draft at index has under the name, or nil.
void draft_read(lua_State *L, int index, const char *name);

// A new draft on the stack. Raises where there is one of that name.
DraftBox *draft_open(lua_State *L, const char *name);

// What a bodice half must have: checks the draft at index, says `which` half it is, and marks points that
// follow from its edges. recut halves may have their neck point anywhere.
void draft_check_half(lua_State *L, int index, const char *which);

// Checks the outline of the half at index, which draft_check_half has found fine: the edges that are there
// meet at their corners.
void draft_check_outline(lua_State *L, int index, const char *which);

// Checks that the neck point of a half drafted afresh lies on y = 0.
void draft_check_level(lua_State *L, int index, const char *which);

// Says that the draft at index is a finished half of a bodice: the marks it has now are the bodice's.
void draft_given(lua_State *L, int index);

// The index and newindex of drafts.
int draft_index(lua_State *L);
int draft_newindex(lua_State *L);

#endif
