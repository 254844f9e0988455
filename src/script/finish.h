// The end of a run: seams from names, warnings that follow from the whole.
#ifndef REBATO_SCRIPT_FINISH_H
#define REBATO_SCRIPT_FINISH_H

#include <stdbool.h>

#include "script/run.h"

// Makes the seams of the pattern, with their notches. False with the run's fault filled.
bool finish_run(Run *run);

// Refuses a setting that nothing asked for. False with the run's fault filled.
bool finish_settings(Run *run);

#endif
