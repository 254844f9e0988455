// A fault: the author's or the user's mistake, with its place and what would work. At most one per run.
#ifndef REBATO_BASE_FAULT_H
#define REBATO_BASE_FAULT_H

#include "base/buffer.h"

typedef struct Fault {
    char *file;    // as the user named it, or NULL
    int line;      // from 1, or 0
    char *step;    // the step's heading, or NULL
    char *message; // what is wrong, with the numbers; one line
    char *hint;    // what would work, or NULL; one line or several
} Fault;

void fault_init(Fault *fault);
void fault_finish(Fault *fault);

// Sets the message, replacing any fault that stood there.
void fault_set(Fault *fault, const char *file, int line, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void fault_set_step(Fault *fault, const char *step);
void fault_set_hint(Fault *fault, const char *format, ...) __attribute__((format(printf, 2, 3)));

// Writes the fault as the user reads it: place and message, the lines around it where source is given, the
// step, the hint. source is the whole text of fault->file, or NULL.
void fault_write(const Fault *fault, const char *source, Buffer *out);

#endif
