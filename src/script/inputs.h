// Where the values of inputs come from.
#ifndef REBATO_SCRIPT_INPUTS_H
#define REBATO_SCRIPT_INPUTS_H

#include "script/run.h"

// What the command line says for the name, or NULL; the setting counts as used.
const char *setting_value(Run *run, const char *name);

// A measurement from the command line or the body, mm; false where there is none.
bool measurement(lua_State *L, const char *name, double *out);

#endif
