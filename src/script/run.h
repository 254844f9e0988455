// One run of a chain of recipes: what the words of the language share while it lasts. Inside this room only.
#ifndef REBATO_SCRIPT_RUN_H
#define REBATO_SCRIPT_RUN_H

#include <lauxlib.h>
#include <lua.h>

#include "base/arena.h"
#include "geometry/crossing.h"
#include "recipe/recipe.h"
#include "script/ledger.h"
#include "script/script.h"

// Places in the registry of the state, past those Lua uses itself.
typedef enum Slot {
    SLOT_LIBRARY = 16, // name -> word
    SLOT_POINT,        // metatables
    SLOT_PATH,
    SLOT_DRAFT,
    SLOT_PIECE,
    SLOT_PIECE_WORDS, // methods and fields of pieces
    SLOT_PLACEHOLDER,
    SLOT_CHAPTERS, // chapter index -> its table of names
    SLOT_HANDED,   // name -> what the chain gave so far
    SLOT_GAVE,     // chapter index -> table of what it gave
    SLOT_OVERRIDE, // chapter index -> table of values for its needs and choices, where it is used inside
                   // another
} Slot;

// The recipe that is running now; one inside another where `use` is.
typedef struct Place {
    const Recipe *recipe;
    int chapter;
    int step;       // index into the pattern's steps
    int first_step; // of this chapter
    int depth;
} Place;

// A value of the prose that is being filled in; one inside another where its expression uses a recipe.
typedef struct Filling {
    const RecipeValue *value;
    const struct Filling *outer;
} Filling;

// One side of a seam, before the pieces are known to be final: names only.
typedef struct SewnEdge {
    const char *piece, *edge;
    bool backward;
} SewnEdge;

typedef struct SewnSide {
    SewnEdge *items;
    int count;
} SewnSide;

typedef struct Sewn {
    const char *name;
    const Recipe *recipe; // where it was said, for a fault found at the end
    int line, step;
    SewnSide a, b;
    double ease, tolerance;
    bool smooth_first, smooth_last;
    double notch_at; // part of the length for "front" and "back", mm where notch_mm
    int notch_count; // 0: none
    bool notch_mm;
} Sewn;

typedef struct SewnList {
    Sewn *items; // heap
    int count, capacity;
} SewnList;

typedef struct RecipeList {
    const Recipe **items; // heap
    int count, capacity;
} RecipeList;

typedef struct Run {
    const ScriptJob *job;
    Pattern *pattern;
    Fault *fault;
    lua_State *state;
    Ledger ledger;
    Arena arena;     // pieces and names while the run lasts
    Path scratch[4]; // for results on their way into the state
    CrossingList crossings;
    SewnList sewn;
    Place place;
    const Filling *filling;    // the innermost, or NULL
    bool followed;             // a recipe of the chain comes after the one that runs
    const Recipe *main_recipe; // the last of the chain
    RecipeList recipes;        // of each chapter
    bool *used_settings;       // of the job, those that were asked for
    bool *chosen_settings;     // of the job, those that are a choice of a recipe of the chain
    int marks;                 // over all drafts
    bool survey;
    bool in_inputs; // inside needs or choose
    int input_line; // of the need or choice that is read, where an error about it stands; or 0
    bool needs_bodice;
    bool surveyed;        // stopped on purpose
    bool faulted;         // the fault is filled
    bool unreadable;      // a recipe is not Lua
    const char *nameless; // what messages call a function that has no name where it is called
    char hint[4000];      // of the error being raised, one line or several; empty for none
} Run;

static inline Run *run_of(lua_State *L) {
    return *(Run **)lua_getextraspace(L);
}

// Runs the chain of a job and gives its pattern; for a survey only the chapters and the inputs. out untouched
// on failure.
bool run_job(const ScriptJob *job, bool survey, Pattern *out, Fault *fault);

// What the chunk of a recipe calls: a step begins, or a value is to be filled in.
int run_glue(lua_State *L);

// The bytes a run holds outside its Lua state.
size_t run_bytes(const Run *run);

// Keeps what would work, for the error that is raised next.
void run_hint(Run *run, const char *format, ...) __attribute__((format(printf, 2, 3)));

// Runs a recipe inside the run as the next chapter at the depth. overrides: index of a table of values for
// its needs and choices, or 0. Leaves on the stack the table it gave, or nil.
void run_recipe(lua_State *L, const Recipe *recipe, int depth, int overrides);

// A length, area, angle, number as the reader of this run sees it; at most size bytes.
void run_show(const Run *run, Measure measure, double value, char *out, size_t size);

#endif
