// rebato: a recipe in, a proven pattern out. Reads the command line and hands over to the command.
#include "cli/commands.h"
#include "cli/help.h"
#include "cli/tell.h"

static int say_help(const char *argument) {
    Buffer text;
    Fault fault;
    buffer_init(&text);
    fault_init(&fault);
    int code = help_write(argument, &text, &fault) ? tell_text(&text, EXIT_HOLDS)
                                                   : tell_fault(&fault, NULL, NULL, false);
    fault_finish(&fault);
    buffer_finish(&text);
    return code;
}

static int say_version(void) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, "rebato " REBATO_VERSION "\n");
    int code = tell_text(&text, EXIT_HOLDS);
    buffer_finish(&text);
    return code;
}

static int carry_out(const Options *options) {
    switch (options->command) {
    case COMMAND_DRAFT:
        return command_draft(options);
    case COMMAND_WEAVE:
        return command_weave(options);
    case COMMAND_CHECK:
        return command_check(options);
    case COMMAND_NEW:
        return command_new(options);
    case COMMAND_LIST:
        return command_list(options);
    case COMMAND_WORDS:
        return command_words(options);
    case COMMAND_VERSION:
        return say_version();
    default:
        return say_help(options->argument);
    }
}

int main(int argc, char **argv) {
    Options options;
    Fault fault;
    fault_init(&fault);
    int code = options_parse(argc, argv, &options, &fault) ? carry_out(&options)
                                                           : tell_fault(&fault, NULL, NULL, options.json);
    fault_finish(&fault);
    options_finish(&options);
    return code;
}
