// The compiled chunk of a recipe: kept from run to run, so that a redraft does not read the Lua anew.
#ifndef REBATO_SCRIPT_CHUNK_H
#define REBATO_SCRIPT_CHUNK_H

#include <lua.h>

#include "recipe/recipe.h"

// Pushes the recipe's chunk as a function. Raises, with the run's fault filled, where it is not Lua.
void chunk_push(lua_State *L, const Recipe *recipe);

#endif
