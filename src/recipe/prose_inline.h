// The inline content of one block of prose: spans, values, pictures, and tables, which cmark takes for
// paragraphs. Inside this room only.
#ifndef REBATO_RECIPE_PROSE_INLINE_H
#define REBATO_RECIPE_PROSE_INLINE_H

#include <cmark.h>

#include "recipe/prose.h"

typedef struct ProseList {
    Prose *items;
    int count, capacity;
} ProseList;

typedef struct Reading {
    const Recipe *recipe;
    ProseFill fill;
    void *context;
    Arena *arena;
    int step;
    int values; // met so far
} Reading;

// Adds the block, a paragraph or a heading, with its spans, and its pictures behind it. Nothing where it is
// empty.
void prose_add_leaf(Reading *reading, cmark_node *node, Prose leaf, ProseList *out);

// The block with what the list holds, which is emptied.
Prose prose_holding(Arena *arena, Prose block, ProseList *inner);

#endif
