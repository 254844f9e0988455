// What rebato says about itself: the commands, and each command with its options.
#ifndef REBATO_CLI_HELP_H
#define REBATO_CLI_HELP_H

#include "base/buffer.h"
#include "base/fault.h"
#include "cli/options.h"

// argument: the command asked about, or NULL for all. Fills fault when there is no such command.
bool help_write(const char *argument, Buffer *out, Fault *fault);

#endif
