// The rows that bind the language: each word with its function and its explanation. Inside this room only.
#ifndef REBATO_SCRIPT_LIBRARY_H
#define REBATO_SCRIPT_LIBRARY_H

#include <lua.h>

#include "script/words.h"

// row.name tells where the word goes: "curve" is a word of its own, "path:meet" a method, "path.length" a
// field. "thing:move" is a method of points and of paths.
typedef struct Binding {
    WordRow row;
    lua_CFunction call; // NULL where the sealed state brings the word itself
} Binding;

// Each file of the library ends with its rows; a row without a name closes them.
extern const Binding lib_recipe_rows[];
extern const Binding lib_needs_rows[];
extern const Binding lib_choose_rows[];
extern const Binding lib_point_rows[];
extern const Binding lib_make_rows[];
extern const Binding lib_cut_rows[];
extern const Binding lib_path_rows[];
extern const Binding lib_bodice_rows[];
extern const Binding lib_draft_rows[];
extern const Binding lib_piece_rows[];
extern const Binding lib_piece_mark_rows[];
extern const Binding lib_seam_rows[];
extern const Binding lib_prove_rows[];
extern const Binding lib_plain_rows[];

// All of them, ended by NULL.
extern const Binding *const library_all[];

// Puts the words into the table on top of the stack, and the methods and fields of things into their
// metatables.
void library_open(lua_State *L);

#endif
