// The commands, one file each. Each gives the exit code.
#ifndef REBATO_CLI_COMMANDS_H
#define REBATO_CLI_COMMANDS_H

#include "cli/options.h"

int command_draft(const Options *options);
int command_weave(const Options *options);
int command_check(const Options *options);
int command_new(const Options *options);
int command_list(const Options *options);
int command_words(const Options *options);

#endif
