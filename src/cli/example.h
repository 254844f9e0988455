// The example of a word, run as a recipe: what it draws and what it tells.
#ifndef REBATO_CLI_EXAMPLE_H
#define REBATO_CLI_EXAMPLE_H

#include "cli/run.h"
#include "script/words.h"

typedef struct Example {
    Run run;
    bool draws;  // it marks something on a draft
    Buffer told; // notes, measurements, choices, proofs and remarks, one a line; empty where there are none
} Example;

// example_finish either way.
bool example_run(const WordRow *row, Units units, Example *out, Fault *fault);
void example_finish(Example *example);

#endif
