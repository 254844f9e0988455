#include "cli/help.h"

#include <string.h>

#include "cli/keys.h"

static void add_all(Buffer *out) {
    buffer_add_text(out, "rebato drafts collars and necklines: a recipe in, a proven pattern out.\n\n");
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++) {
        const CommandRow *row = command_row((Command)i);
        buffer_add_format(out, "  rebato %-8s %s\n", row->name, row->summary);
    }
    buffer_add_text(out, "\nrebato help COMMAND tells the options, rebato help report the names in the JSON. "
                         "A first pattern:\n"
                         "  rebato draft bands/square-funnel --set height=12cm -o funnel.pdf\n\n"
                         "It ends with 0 when all holds, 1 when a proof does not hold and was not accepted,\n"
                         "2 when the recipe or what was typed is wrong.\n");
}

static void add_options(Command command, Buffer *out) {
    int count;
    const OptionRow *rows = options_all(&count);
    for (int i = 0; i < count; i++) {
        const OptionRow *row = &rows[i];
        if (!(row->commands & (1u << command)))
            continue;
        buffer_add_text(out, "\n  ");
        if (row->letter)
            buffer_add_format(out, "-%c, ", row->letter);
        buffer_add_format(out, "%s%s%s%s\n      %s\n", row->name, row->value ? " " : "",
                          row->value ? row->value : "", row->again ? " (may be given again)" : "",
                          option_about(row, command));
    }
    buffer_add_text(out, "\n  -h, --help\n      tell this\n");
}

bool help_write(const char *argument, Buffer *out, Fault *fault) {
    if (!argument) {
        add_all(out);
        return true;
    }
    if (strcmp(argument, HELP_REPORT) == 0) {
        keys_write(out);
        return true;
    }
    Command command;
    if (!command_find(argument, &command)) {
        const char *nearest = command_nearest(argument);
        fault_set(fault, NULL, 0, "rebato has no command %s", argument);
        if (nearest)
            fault_set_hint(fault, "did you mean rebato help %s?", nearest);
        else
            fault_set_hint(fault, "rebato help tells the commands");
        return false;
    }
    const CommandRow *row = command_row(command);
    buffer_add_format(out, "rebato %s%s%s: %s\n", row->name, *row->usage ? " " : "", row->usage,
                      row->summary);
    if (*row->about)
        buffer_add_format(out, "\n%s\n", row->about);
    add_options(command, out);
    return true;
}
