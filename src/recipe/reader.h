// The walk over the Markdown of a recipe: blocks, steps, values and fences, and the chunk written on the way.
#ifndef REBATO_RECIPE_READER_H
#define REBATO_RECIPE_READER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buffer.h"
#include "base/fault.h"
#include "recipe/recipe.h"

typedef struct Blocks {
    RecipeBlock *items;
    int count, capacity;
} Blocks;

typedef struct Steps {
    RecipeStep *items;
    int count, capacity;
} Steps;

typedef struct Values {
    RecipeValue *items;
    int count, capacity;
} Values;

typedef struct Fences {
    RecipeFence *items;
    int count, capacity;
} Fences;

typedef struct Offsets {
    size_t *items; // of the first byte of each line; and of the end
    int count, capacity;
} Offsets;

typedef struct Reader {
    Recipe recipe;
    Fault *fault;
    Offsets lines;
    Blocks blocks;
    Steps steps;
    Values values;
    Fences fences;
    Buffer chunk;
    int chunk_line;    // the line the chunk has come to
    int called_values; // values already called for
    size_t code_bytes;
    size_t value_from; // where in source the next value is looked for
    size_t value_to;   // the end of its paragraph
} Reader;

// The recipe's name and file are set; fault is where a refusal goes.
void reader_init(Reader *reader, const char *name, const char *file, Fault *fault);
void reader_finish(Reader *reader); // the recipe's arena stays

// Fills everything but the recipe's own lists, its chunk and its uses. source is clean.
bool reader_walk(Reader *reader, const Buffer *source);

#endif
