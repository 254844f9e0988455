// What rebato says about itself: the commands, each command with its options, and the names in its JSON.
#ifndef REBATO_CLI_HELP_H
#define REBATO_CLI_HELP_H

#include "base/buffer.h"
#include "base/fault.h"
#include "cli/options.h"

#define HELP_REPORT "report" // no command: the names in the JSON

// argument: the command asked about, HELP_REPORT, or NULL for all. Fills fault when there is no such command.
bool help_write(const char *argument, Buffer *out, Fault *fault);

#endif
