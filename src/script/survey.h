// Finding out what a recipe needs and lets the designer choose, without drafting: it runs on example values
// until it asks for more than its inputs.
#ifndef REBATO_SCRIPT_SURVEY_H
#define REBATO_SCRIPT_SURVEY_H

#include <lua.h>

// Ends the survey of the running recipe, by an error that nothing catches.
int survey_stop(lua_State *L) __attribute__((noreturn));

// Ends it unless the word may be used before the inputs are known.
void survey_check(lua_State *L, const char *word);

// A measurement to go on with: of a woman of bust 88 where known, else the middle of what people have; mm or
// years.
double survey_measure(const char *name);

#endif
