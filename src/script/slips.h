// Slips of the pen: what an author who is new to recipes may have meant, read off her own line.
#ifndef REBATO_SCRIPT_SLIPS_H
#define REBATO_SCRIPT_SLIPS_H

#include <stdbool.h>
#include <stddef.h>

#include "recipe/recipe.h"

// Writes what would work into out, from the line of the recipe and what was said of it; false, with out
// untouched, where no slip is recognised.
bool slip_hint(const Recipe *recipe, int line, const char *said, char *out, size_t size);

#endif
