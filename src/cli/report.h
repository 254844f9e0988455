// The report: for people what was made and on what, what was proven and what to mind; for programs all of it.
#ifndef REBATO_CLI_REPORT_H
#define REBATO_CLI_REPORT_H

#include "base/buffer.h"
#include "cli/run.h"

// every: the proofs a cutter measures in a line each, the others counted; else only those that do not hold.
void report_write(const Run *run, bool every, Buffer *out);

// As JSON, with the names of keys.h.
void report_json(const Run *run, Buffer *out);

#endif
