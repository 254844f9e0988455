// Errors as the author sees them: the line of the author's file, the step, plain words, what would work.
#ifndef REBATO_SCRIPT_ERROR_H
#define REBATO_SCRIPT_ERROR_H

#include <lua.h>

#include "script/run.h"

// The message handler of the run: turns what was raised into the run's fault.
int error_handle(lua_State *L);

// The line of the innermost code of a recipe that is running; 0 for none.
int author_line(lua_State *L);

// Fills the run's fault from an error the chunk of a recipe could not be compiled with. status: of
// luaL_loadbufferx; part: what was compiled alone, "code block" or "value", part_line: where it begins, or 0.
void error_compile(lua_State *L, const Recipe *recipe, int status, const char *message, const char *part,
                   int part_line);

// Fills the run's fault where no message handler ran: no memory left.
void error_unhandled(Run *run, int status);

#endif
