// Arguments checked and mistakes said, in the words of the language. Everything here that fails raises.
#ifndef REBATO_SCRIPT_CHECK_H
#define REBATO_SCRIPT_CHECK_H

#include <lua.h>

#include "geometry/error.h"
#include "script/run.h"
#include "script/value.h"

// Raises an error with the message; where it stands is found by the handler. What run_hint kept goes with it.
int fail(lua_State *L, const char *format, ...) __attribute__((noreturn)); // formats as lua_pushfstring
int fail_argument(lua_State *L, int argument, const char *should_be) __attribute__((noreturn));
int fail_geometry(lua_State *L, GeomError error) __attribute__((noreturn));

// No more than count arguments, the receiver of a method among them.
void check_last(lua_State *L, int count);

double check_mm(lua_State *L, int argument); // a length, finite and sane
double check_positive_mm(lua_State *L, int argument);
double check_degrees(lua_State *L, int argument);      // a number, or "up", "down", "left", "right"
double check_number(lua_State *L, int argument);       // finite
int check_count(lua_State *L, int argument, int most); // a whole number from 1
PointBox *check_point(lua_State *L, int argument);
PathBox *check_path(lua_State *L, int argument);
DraftBox *check_draft(lua_State *L, int argument);
PieceBox *check_piece(lua_State *L, int argument);
const char *check_text(lua_State *L, int argument, size_t most); // UTF-8 without control signs
const char *check_name(lua_State *L, int argument);              // a short text that is not empty
bool is_plain_name(const char *name);                            // letters, digits and _, no digit first
PathEnd check_end(lua_State *L, int argument);                   // "first" or "last"

// Keeps as hint the name that was nearly given, or else all of them: "WHAT are a, b and c".
void hint_names(lua_State *L, const char *given, const char *const *names, int count, const char *what);

// One of the words, which ends with NULL; gives its index.
int check_word(lua_State *L, int argument, const char *const *words);

// Why a number cannot be a length, or NULL.
const char *length_trouble(double value);

// Reads a field of the table at index; what names it is for messages: "arc: radius". Leaves nothing on the
// stack.
bool field_mm(lua_State *L, int index, const char *field, double *out); // false where absent
bool field_number(lua_State *L, int index, const char *field, double *out);
bool field_degrees(lua_State *L, int index, const char *field, double *out);
bool field_point(lua_State *L, int index, const char *field, Point *out);
bool field_flag(lua_State *L, int index, const char *field);
const char *field_text(lua_State *L, int index, const char *field,
                       const char *otherwise); // in the run's memory

// Raises unless every text key of the table at index is one of the fields, which end with NULL.
void check_fields(lua_State *L, int index, const char *const *fields);

// A copy of text that lives as long as the run.
const char *run_text(lua_State *L, const char *text);

// A plain number, pushed.
const char *push_number(lua_State *L, double value);

// A length in the reader's unit, pushed.
const char *push_mm(lua_State *L, double mm);

// The word that is running, for messages: "meet".
const char *word_name(lua_State *L);

#endif
