// Runs recipes. A run happens in a sealed Lua state with limits; run_apart does it in a child process that
// hands back its pattern as text, or its fault, so that nothing a stranger's recipe does reaches this
// process.
#ifndef REBATO_SCRIPT_SCRIPT_H
#define REBATO_SCRIPT_SCRIPT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "base/measures.h"
#include "base/units.h"
#include "pattern/pattern.h"
#include "recipe/shelf.h"

typedef struct ScriptLimits {
    size_t memory;     // bytes for everything a recipe makes; 0 stands for 64 MB
    long instructions; // 0 stands for 200 million
    double seconds;    // wall clock, run_apart only; 0 stands for 10
} ScriptLimits;

// NAME=VALUE from the command line: a choice of any recipe of the chain, or a measurement.
typedef struct Setting {
    const char *name, *value;
} Setting;

typedef struct ScriptJob {
    const Shelf *shelf; // holds every recipe of the chain and all they use
    const char *const
        *chain; // recipe names as the shelf knows them: block, necklines ..., the recipe itself last
    int chain_count;
    const Setting *settings;
    int setting_count;
    const Measures *body;  // measurements, or NULL
    const char *body_name; // or NULL
    Units units;           // for values shown in text
    ScriptLimits limits;
} ScriptJob;

// Runs the chain in this process: for recipes one trusts, tests and benches. On failure fills fault; out
// stays zeroed.
bool script_run(const ScriptJob *job, Pattern *out, Fault *fault);

// The same in a child process with hard limits.
bool script_run_apart(const ScriptJob *job, Pattern *out, Fault *fault);

// What a recipe needs and lets the designer choose: runs it up to its last needs/choose, in a child process.
// The pattern holds only the chapter and the inputs.
bool script_survey(const ScriptJob *job, Pattern *out, Fault *fault);

#endif
