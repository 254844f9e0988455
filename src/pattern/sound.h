// Whether a pattern that came from elsewhere hangs together: everything that points somewhere points at
// something.
#ifndef REBATO_PATTERN_SOUND_H
#define REBATO_PATTERN_SOUND_H

#include "pattern/pattern.h"

// What is wrong with it, as part of a sentence, or NULL.
const char *pattern_wrong(const Pattern *pattern);

#endif
