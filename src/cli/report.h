// The report for people: what was made and on what, what was proven, what to mind, where the files are.
#ifndef REBATO_CLI_REPORT_H
#define REBATO_CLI_REPORT_H

#include "base/buffer.h"
#include "cli/run.h"

// every: each proof in a line of its own; else only those that do not hold.
void report_write(const Run *run, bool every, Buffer *out);

#endif
