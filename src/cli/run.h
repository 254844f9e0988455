// One run: the recipe, the block and the necklines under it and the body found, run apart and proven.
#ifndef REBATO_CLI_RUN_H
#define REBATO_CLI_RUN_H

#include "base/measures.h"
#include "cli/options.h"
#include "pattern/pattern.h"
#include "recipe/shelf.h"

#define RUN_BLOCK "blocks/close-fitting"
#define RUN_NO_BLOCK "none" // as --block has it
#define RUN_BODY "women-88"
#define RUN_PATTERN_BYTES_MOST (64u * 1024u * 1024u)

typedef struct Run {
    Shelf shelf;
    Measures body;
    char *body_title; // the set's own name, or NULL
    Pattern pattern;
    Buffer text;      // of a pattern file, for faults
    Buffer notes;     // one sentence a line, worth knowing and no fault
    bool block_taken; // RUN_BLOCK, since none was given
    bool body_taken;  // RUN_BODY, since none was given
} Run;

void run_init(Run *run);
void run_finish(Run *run);

// Runs and proves. On failure fills fault; run_source gives the text it speaks of.
bool run_make(Run *run, const Options *options, Fault *fault);
// The same of a recipe given as text, on RUN_BLOCK where it needs a bodice, and for RUN_BODY.
bool run_written(Run *run, const char *name, const char *text, Units units, Fault *fault);

const char *run_source(const Run *run, const Fault *fault); // or NULL

// "cm" or "in"; cm for NULL.
bool run_units(const char *text, Units *out, Fault *fault);

#endif
