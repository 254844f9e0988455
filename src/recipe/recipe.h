// A recipe: a Markdown file told apart into prose, steps, values and code, with the code kept on its lines.
//
// The chunk is the recipe's Lua: as many lines as the file and one more, code on the lines it stands on, the
// rest blank. It is called with one argument, a function, which it calls back from glue that no author
// writes:
//
//     (...)(N)                               step N begins (on the line of its heading; 0 has no call)
//     (...)(-ID, function() return (E) end)  value ID, at the end of its section, where it sees the locals
//     (...)(steps + 1)                       the end, on the one line more
//
// Sections are the steps, and section 0 before the first of them. The values of a section are called for
// before the next step begins.
#ifndef REBATO_RECIPE_RECIPE_H
#define REBATO_RECIPE_RECIPE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/fault.h"

#define RECIPE_BYTES_MOST (1024u * 1024u)
#define RECIPE_CODE_MOST (64u * 1024u)
#define RECIPE_STEPS_MOST 200
#define RECIPE_VALUES_MOST 1000

typedef enum BlockKind {
    BLOCK_HEADING,
    BLOCK_PROSE, // a paragraph
    BLOCK_CODE,  // a lua fence that runs
    BLOCK_OTHER  // lists, quotes, other fences; lua fences within them run
} BlockKind;

typedef struct RecipeBlock {
    BlockKind kind;
    int level; // of a heading
    int first_line, last_line;
    int step;
    const char *text; // the Markdown as it stands, in source; not ended by a NUL
    size_t length;
} RecipeBlock;

typedef struct RecipeStep {
    const char *title; // plain text
    int first_line, last_line;
} RecipeStep;

typedef struct RecipeValue {
    int id; // from 1, in order
    int step;
    int block;        // index of the block it stands in
    int line, column; // of its first letter, from 1; the column counts bytes
    const char *expression;
} RecipeValue;

// A lua fence, complete by itself: the script room compiles each alone, to report an open "do" at its fence.
typedef struct RecipeFence {
    int line;       // of the opening marks
    int first_line; // of the code
    int step;
    const char *code; // ended by a NUL
} RecipeFence;

typedef struct RecipeUse {
    const char *name; // as written in use "name"
    int line;
} RecipeUse;

typedef struct RecipeKey {
    const char *name; // in the chunk, before an equals sign; not ended by a NUL
    size_t length;
    int line;
} RecipeKey;

typedef struct Recipe {
    const char *name;    // as it was asked for; of a built-in, its whole name
    const char *file;    // as it is shown in a fault
    const char *title;   // plain text; the name when there is none
    const char *summary; // plain text of the first paragraph, or ""
    const char *source;  // UTF-8, lines ended by \n alone, no byte order mark, ended by a NUL
    size_t source_length;
    int line_count;
    uint64_t hash; // FNV-1a of source
    const char *chunk;
    size_t chunk_length;
    const RecipeStep *steps; // steps[0] is step 1
    int step_count;
    const RecipeBlock *blocks;
    int block_count;
    const RecipeValue *values; // values[0] is value 1
    int value_count;
    const RecipeFence *fences;
    int fence_count;
    const RecipeUse *uses; // literal names in use "..." calls, each once, in order
    int use_count;
    const RecipeKey *keys; // of tables, and whatever else is given a value by name, in order
    int key_count;
    Arena arena; // owns all of it
} Recipe;

// Reads a recipe from memory. On failure fills fault (its file is file) and leaves out untouched.
bool recipe_read(const char *name, const char *file, const char *text, size_t length, Recipe *out,
                 Fault *fault);
void recipe_finish(Recipe *recipe); // accepts a zeroed recipe

// The step's title, or NULL for section 0.
const char *recipe_step_title(const Recipe *recipe, int step);

// The step the line stands in, or 0.
int recipe_step_at(const Recipe *recipe, int line);

// True when the fence surely closes all it opens: blocks, brackets, strings. False where only Lua can tell.
bool recipe_fence_is_whole(const RecipeFence *fence);

// True when the chunk asks for name in a needs { name = ... }, as far as can be read without running it.
bool recipe_needs(const Recipe *recipe, const char *name);
bool recipe_chooses(const Recipe *recipe, const char *name); // likewise in choose { name = ... }

// Where in the chunk the key "name =" first stands on line or after it, outside comments and strings; -1 if
// nowhere. Lists the keys of a table in the author's order.
long recipe_name_order(const Recipe *recipe, int line, const char *name);

// The line of that key; 0 if nowhere.
int recipe_name_line(const Recipe *recipe, int line, const char *name);

#endif
