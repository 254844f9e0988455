// The names of one recipe: words of the language behind, notes in front; each made once.
#ifndef REBATO_SCRIPT_NAMES_H
#define REBATO_SCRIPT_NAMES_H

#include <lua.h>

#include "pattern/pattern.h"

// Pushes a fresh table of names for the chapter, to be the chunk's globals.
void names_open(lua_State *L, int chapter);

// Gives the name in the running chapter the value at index; nil is a value that may be read. Raises where the
// name is a word or is given already.
void names_bind(lua_State *L, const char *name, int index);

// Makes the table at index, which a recipe is handed under the name, tell a slip in the name of a field. What
// is no table is left alone.
void names_guard(lua_State *L, const char *name, int index);

// Adds a note to the pattern: a number in that measure, or text.
void names_note(lua_State *L, const char *name, int index, Measure measure);

// In what measure a plain name of the running chapter is shown.
Measure names_measure(lua_State *L, const char *name);

#endif
