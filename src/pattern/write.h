// The canonical text of a pattern: complete, in a fixed order, points to 0.0001 mm, so that the same pattern
// is always the same bytes and a reviewer can read what moved and by how much. Which proofs the cutter
// accepted is not part of it: that is a decision of one run.
#ifndef REBATO_PATTERN_WRITE_H
#define REBATO_PATTERN_WRITE_H

#include "base/buffer.h"
#include "base/fault.h"
#include "pattern/pattern.h"

void pattern_write(const Pattern *pattern, Buffer *out);

// The same without the cut lines, which are only there for the reader's eye: for a program that reads it at
// once.
void pattern_write_bare(const Pattern *pattern, Buffer *out);

// Reads what pattern_write wrote, from any source, trusting nothing: counts, indices, numbers and texts are
// checked and bounded. On failure fills fault (line of the text) and leaves out zeroed.
bool pattern_read(const char *text, size_t length, Pattern *out, Fault *fault);

#endif
