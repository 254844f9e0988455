// The text of a recipe made fit to be read: bounded, UTF-8, lines ended by \n alone.
#ifndef REBATO_RECIPE_SOURCE_H
#define REBATO_RECIPE_SOURCE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/buffer.h"
#include "base/fault.h"

// Adds the clean text to out. Refuses what no recipe needs and what would keep the Markdown reader busy for
// long.
bool source_clean(const char *text, size_t length, const char *file, Buffer *out, Fault *fault);

uint64_t source_hash(const char *text, size_t length); // FNV-1a, 64 bits

#endif
