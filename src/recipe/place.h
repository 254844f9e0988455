// Where a name leads: to a file on disk, to a built-in, or to both.
#ifndef REBATO_RECIPE_PLACE_H
#define REBATO_RECIPE_PLACE_H

#include <stdbool.h>

#include "base/embedded.h"
#include "base/fault.h"
#include "recipe/recipe.h"

typedef struct Search {
    const char *name;
    bool body;          // a set of measurements, not a recipe
    const Recipe *from; // the recipe that uses the name, or NULL
    const char
        *folder; // of that recipe on disk, ending in "/", or "" for the current one; NULL when built in
    int line;    // of that use
} Search;

typedef struct Place {
    char *path; // on disk, owned; or NULL
    const Embedded *built_in;
} Place;

// At least one of the two is found; where both are, the file on disk is meant.
bool place_find(const Search *search, Place *out, Fault *fault);

bool place_same_file(const char *one, const char *other);
const char *place_last_part(const char *path); // what stands behind the last slash

// Says what is wrong with a name, at the line that uses it. Always false.
bool place_refuse(const Search *search, Fault *fault, const char *says);

const Embedded *place_built_in(int *count);

#endif
