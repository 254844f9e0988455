// The Lua state of a run: sealed, limited, with the words of the language in it.
#ifndef REBATO_SCRIPT_STATE_H
#define REBATO_SCRIPT_STATE_H

#include <stdbool.h>

#include "script/run.h"

// Makes run->state. On failure (no memory within the limit) fills the run's fault.
bool state_open(Run *run);

// Calls function with one whole number, protected; an error becomes the run's fault.
bool state_call(Run *run, lua_CFunction function, int argument);

#endif
