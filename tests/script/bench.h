// A recipe on the bench: run from its text, on a block typed as outlines, to see what comes out.
#ifndef REBATO_TESTS_SCRIPT_BENCH_H
#define REBATO_TESTS_SCRIPT_BENCH_H

#include <stdbool.h>

#include "script/script.h"

// How a recipe is put on the bench; zeroed fields stand for the usual.
typedef struct Bench {
    const char *text;     // the recipe, Markdown
    const char *other;    // a second recipe, to be used as "./other", or NULL
    const char *settings; // "height=6cm cut=fold", or NULL
    const char *block;    // the recipe that runs before it, or NULL for the block of bench.c
    bool no_block;        // else a block runs first
    bool apart, survey;
    ScriptLimits limits;
} Bench;

// Runs it. On failure the fault is filled. Pattern and fault are the caller's to finish.
bool bench_run(Bench bench, Pattern *out, Fault *fault);

// Runs it, which must go well.
void bench_runs(Bench bench, Pattern *out);

// Its fault: the line (0 for any), and what message and hint have in them.
void bench_fails(Bench bench, int line, const char *message, const char *hint);

// A recipe of one code block.
const char *bench_recipe(const char *code);

// The fault of a recipe of one code block, "LINE: MESSAGE | HINT"; "" where there is none. Valid until the
// next call.
const char *fault_of(const char *code);

// The last note of that name; fails the test where there is none.
double note_of(const Pattern *pattern, const char *name);

// The note r of one code block is the value.
void gives(const char *code, double value);

// Runs one code block, which must go well.
void pattern_of(const char *code, Pattern *out);

#endif
