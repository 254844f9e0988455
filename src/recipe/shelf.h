// The shelf: finds recipes and sets of measurements by name, on disk first, then among those built in.
#ifndef REBATO_RECIPE_SHELF_H
#define REBATO_RECIPE_SHELF_H

#include <stdbool.h>

#include "base/buffer.h"
#include "base/embedded.h"
#include "base/fault.h"
#include "base/measures.h"
#include "recipe/recipe.h"

#define SHELF_RECIPES_MOST 64 // that one recipe uses, with what they use

typedef struct ShelfLink {
    const Recipe *from;
    const char *name; // as from writes it
    const Recipe *to;
} ShelfLink;

typedef struct ShelfLinks {
    ShelfLink *items;
    int count, capacity;
} ShelfLinks;

typedef struct ShelfRecipes {
    struct ShelfRecipe **items; // each owned, in the order found
    int count, capacity;
} ShelfRecipes;

typedef struct Shelf {
    ShelfRecipes recipes;
    ShelfLinks links;
    Buffer notes; // one sentence a line: a file on disk that stands before a built-in of the same name
    char *
        refused_file; // the last file that was read but refused, and its text, to show the lines of the fault
    Buffer refused;
} Shelf;

void shelf_init(Shelf *shelf);
void shelf_finish(Shelf *shelf);

// Finds a recipe and all that it uses, and theirs. A name is a path as given, with or without ".md", or a
// built-in
// ("bands/square-funnel", or its last part where only one has it). The shelf owns *out.
bool shelf_find(Shelf *shelf, const char *name, const Recipe **out, Fault *fault);

// Puts a recipe on the shelf from its text, with all that it uses.
bool shelf_put(Shelf *shelf, const char *name, const char *text, const Recipe **out, Fault *fault);

// A recipe that is on the shelf already, by the name it has there, or NULL.
const Recipe *shelf_held(const Shelf *shelf, const char *name);

// The recipe that from means by name; found beforehand, so that no file is opened while a recipe runs. NULL
// when the name is not written out in a use "..." of from.
const Recipe *shelf_used(const Shelf *shelf, const Recipe *from, const char *name);

// Whether a recipe of the shelf was read from a file, and is not built in.
bool shelf_is_on_disk(const Shelf *shelf, const Recipe *recipe);

// The text of the file a fault names, or NULL.
const char *shelf_source(const Shelf *shelf, const char *file);

// Reads a set of measurements: a path, with or without ".txt", or a built-in ("women-88", "bodies/women-88").
bool shelf_measures(Shelf *shelf, const char *name, Measures *out, Fault *fault);

typedef Embedded BuiltIn;

// All that is built in, sorted by name.
const BuiltIn *shelf_built_in(int *count);

#endif
