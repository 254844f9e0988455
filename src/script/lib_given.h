// The rows of what a recipe is given: bodice and measurements. Inside this room only.
#ifndef REBATO_SCRIPT_LIB_GIVEN_H
#define REBATO_SCRIPT_LIB_GIVEN_H

#include "script/words.h"

// The same rows at every call.
const WordRow *lib_given_rows(int *count);

#endif
