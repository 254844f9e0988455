// What a chain of recipes asks the body for, to tell the measurements that none of them uses.
#ifndef REBATO_CLI_ASKED_H
#define REBATO_CLI_ASKED_H

#include "base/buffer.h"
#include "base/measures.h"
#include "cli/options.h"
#include "pattern/pattern.h"
#include "recipe/shelf.h"

// One line where the body has names that are neither known nor asked for, which may be slips. pattern may be
// empty, where the chain could not be run.
void asked_note(const Shelf *shelf, const TextList *chain, const Pattern *pattern, const Measures *body,
                Buffer *out);

#endif
