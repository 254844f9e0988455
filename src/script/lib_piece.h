// Pieces, as other words see them.
#ifndef REBATO_SCRIPT_LIB_PIECE_H
#define REBATO_SCRIPT_LIB_PIECE_H

#include <lua.h>

// The index of pieces: methods, fields, then edges.
int piece_index(lua_State *L);

#endif
