// Where the values of inputs come from.
#ifndef REBATO_SCRIPT_INPUTS_H
#define REBATO_SCRIPT_INPUTS_H

#include <lua.h>

#include "script/run.h"

// The most names one needs or choose takes.
#define INPUT_NAMES_MAX 100

// One name of the table that needs or choose is given.
typedef struct Asked {
    const char *name; // held by the table
    long place;
    int line;          // where it is written, or that of the word
    const char *about; // of a measurement that is missing
} Asked;

// The names of the table at index 1, in the author's order.
int check_asked(lua_State *L, Asked *asked);

// What the command line says for the name, or NULL; the setting counts as used.
const char *setting_value(Run *run, const char *name);

// The same for a choice, which a measurement of the same name then is not read from: the height of a collar
// is not that of its wearer.
const char *setting_chosen(Run *run, const char *name);

// A measurement from the command line or the body, mm or years; false where there is none.
bool measurement(lua_State *L, const char *name, double *out);

// A length as the command line has it, mm; raises where it is none.
double parse_length(lua_State *L, const char *name, const char *text);

// Pushes what the recipe that uses the running one says for the name, or nil; false for nil.
bool push_override(lua_State *L, const char *name);

// Adds the input to the pattern, as one of the running recipe; its texts are copied.
void add_input(lua_State *L, Input input);

#endif
