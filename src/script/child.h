// The walls of the child process a recipe runs in.
#ifndef REBATO_SCRIPT_CHILD_H
#define REBATO_SCRIPT_CHILD_H

#include <stddef.h>

// Gives up everything a recipe has no use for: files but the one descriptor, which becomes CHILD_OUT,
// processor time, memory, system calls where the system can refuse them. What the system does not offer is
// left as it is.
void child_wall_in(int out, size_t memory, double seconds);

// The lowest, so that none is left to open.
#define CHILD_OUT 0

#endif
