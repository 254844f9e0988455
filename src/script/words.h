// The words of the language: one row each, from which the reference is printed and the Lua state is filled.
#ifndef REBATO_SCRIPT_WORDS_H
#define REBATO_SCRIPT_WORDS_H

#include <stdbool.h>

#include "base/buffer.h"

// The subjects of what a recipe is given: nothing is bound for their rows, which only explain.
#define WORDS_GIVEN "bodice"
#define WORDS_MEASUREMENTS "measurements"
#define WORDS_PLAIN "text and numbers" // what is kept of Lua, and the units

typedef struct WordRow {
    const char *name;    // "curve", or "path:meet", "point.x"
    const char *subject; // "recipe", "points", "paths", "drafts", "pieces", "seams and proofs", "text and
                         // numbers", "bodice", "measurements"
    const char *usage;   // "path:meet(other)  ->  point"
    const char *about;   // one or two sentences with units, errors and the source of a formula
    const char *example; // Lua that runs by itself in a recipe given a bodice
} WordRow;

const WordRow *words_all(int *count); // those of a subject together
int words_count(void); // of the language: without what is kept of Lua, and without what is given
bool words_is_given(const WordRow *row);     // explains what a recipe is given
const WordRow *words_find(const char *name); // "meet" finds "path:meet"; NULL
const char *words_nearest(const char *name); // or NULL

// The example as a recipe, under the word for its title.
void words_recipe(const WordRow *row, Buffer *out);

#endif
