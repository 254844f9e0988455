// The prose of a recipe as a tree of plain blocks and spans, its inline values filled in: what a booklet is
// composed from. All of CommonMark is in it, and tables written with bars; raw HTML stands as the text it was
// written as.
#ifndef REBATO_RECIPE_PROSE_H
#define REBATO_RECIPE_PROSE_H

#include <stdbool.h>

#include "base/arena.h"
#include "recipe/recipe.h"

typedef enum SpanStyle {
    SPAN_EMPHASIS = 1,
    SPAN_STRONG = 2,
    SPAN_CODE = 4,
    SPAN_VALUE = 8, // a number of the draft, filled in; with SPAN_CODE its expression, where it was not
} SpanStyle;

// A run of text of one style.
typedef struct Span {
    unsigned style;   // of SpanStyle, or 0
    const char *text; // UTF-8, never NULL, no line ends; "\n" alone is a line break the author asked for
    const char *link; // "#anchor", or an address of http, https or mailto; NULL for none. No other is let by
} Span;

typedef struct SpanList {
    const Span *items;
    int count;
} SpanList;

typedef enum ProseKind {
    PROSE_HEADING, // spans, level
    PROSE_PARAGRAPH,
    PROSE_LIST,  // items are PROSE_ITEM
    PROSE_ITEM,  // items
    PROSE_QUOTE, // items
    PROSE_CODE,  // text; lua that runs, or another fence
    PROSE_RULE,
    PROSE_TABLE,   // items are PROSE_ROW, the first the names of the columns
    PROSE_ROW,     // items are PROSE_CELL, in each row as many
    PROSE_CELL,    // spans
    PROSE_PICTURE, // a picture beside the recipe: text is its path as written, spans what it shows. Stands
                   // behind the paragraph it was written in
} ProseKind;

typedef struct Prose {
    ProseKind kind;
    int line;  // of the file
    int step;  // of the recipe: 0 before the first
    int level; // of a heading
    SpanList spans;
    const char *text;
    bool runs;    // of a code: lua that was run
    bool number;  // of a cell: its column is aligned to the right
    bool ordered; // of a list
    bool tight;   // of a list: no room between its items
    int start;    // of an ordered list
    struct Prose *items;
    int count;
} Prose;

// A value of the prose by its place in the file, line and column as of RecipeValue; NULL where none was
// filled in, and the expression stands there as SPAN_VALUE and SPAN_CODE.
typedef const char *(*ProseFill)(void *context, int line, int column);

// Reads the prose anew from recipe->source, with the values of fill. All in the arena; the blocks of the file
// in order. Gives the number.
int prose_read(const Recipe *recipe, ProseFill fill, void *context, Arena *arena, const Prose **out);

// What its author states of a recipe in a line of its own, which no reader of Markdown shows: the word behind
// the name in <!-- language: de --> or <!-- code: shown -->. NULL where it is not stated.
const char *prose_stated(const Recipe *recipe, const char *name, Arena *arena);

#endif
