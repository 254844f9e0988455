// The command line: one command, its arguments and options, read from one table that help is printed from as
// well.
#ifndef REBATO_CLI_OPTIONS_H
#define REBATO_CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"

typedef enum Command {
    COMMAND_NONE,
    COMMAND_DRAFT,
    COMMAND_WEAVE,
    COMMAND_CHECK,
    COMMAND_NEW,
    COMMAND_LIST,
    COMMAND_WORDS,
    COMMAND_HELP,
    COMMAND_VERSION,
    COMMAND_COUNT
} Command;

typedef struct CommandRow {
    const char *name;
    const char *usage;   // "RECIPE [OPTIONS]"
    const char *summary; // one line
    const char *about;   // what it does, a few lines
    int least, most;     // arguments
} CommandRow;

typedef struct OptionRow {
    const char *name;  // "--body"
    char letter;       // 'o' for -o, or 0
    const char *value; // what follows it, as help shows it, or NULL
    unsigned commands; // bit 1 << Command for each that takes it
    bool again;        // may be given several times
    size_t place;      // of its field in Options
    const char *about;
} OptionRow;

// Texts borrowed from argv, in the order given.
typedef struct TextList {
    const char **items;
    int count, capacity;
} TextList;

typedef struct Options {
    Command command;
    const char *argument; // RECIPE, NAME, WORD or COMMAND; NULL when there is none
    const char *block, *body, *paper, *scale, *units, *show, *from, *language;
    TextList necklines, settings, accepted, files;
    bool json, names, with_code;
} Options;

const CommandRow *command_row(Command command);
bool command_find(const char *name, Command *out);
const char *command_nearest(const char *name); // or NULL

const OptionRow *options_all(int *count);
const char *option_about(const OptionRow *row, Command command); // what it is to that command

// Reads the whole line. Fills fault with what is not understood and the nearest that is; out is to be
// finished either way.
bool options_parse(int argc, char **argv, Options *out, Fault *fault);
void options_finish(Options *options);

#endif
