// Places on paths, for the words that take one.
#ifndef REBATO_SCRIPT_LIB_PATH_H
#define REBATO_SCRIPT_LIB_PATH_H

#include <lua.h>

#include "geometry/path.h"

// A place on the path at index 1, told as a distance (negative from the far end) or as a point on it: its
// distance from the first point, mm. Raises otherwise.
double check_place(lua_State *L, int argument, const Path *path);

#endif
