#include "cli/options.h"

#include <string.h>

#include "base/memory.h"
#include "base/text.h"

#define FOR_DRAFT (1u << COMMAND_DRAFT)
#define FOR_CHECK (1u << COMMAND_CHECK)
#define FOR_WEAVE (1u << COMMAND_WEAVE)
#define FOR_RUN (FOR_DRAFT | FOR_WEAVE | FOR_CHECK)
#define FOR_NEW (1u << COMMAND_NEW)
#define FOR_LIST (1u << COMMAND_LIST)
#define FOR_WORDS (1u << COMMAND_WORDS)
#define FOR_SCALED (FOR_DRAFT | FOR_WORDS)
#define FOR_WRITTEN (FOR_DRAFT | FOR_WEAVE | FOR_WORDS)

static const CommandRow commands[COMMAND_COUNT] = {
    [COMMAND_DRAFT] =
        {"draft", "RECIPE [OPTIONS]", "draft a recipe, prove it and draw it",
         "RECIPE is the name of a recipe that comes with rebato (rebato list), a recipe file (.md) or a\n"
         "pattern written earlier (.pattern). The ending of each FILE chooses the format. A proof that\n"
         "does not hold is told in full, and the drawing says so too; it is drawn all the same.",
         1, 1},
    [COMMAND_WEAVE] = {"weave", "RECIPE [OPTIONS]", "draft a recipe and write its lesson",
                       "Takes the same recipes as rebato draft, and writes what a teacher would hand out: "
                       "the prose with its\n"
                       "values filled in and a figure of each step, what to cut and sew, and what was "
                       "proven. The ending of\n"
                       "each FILE chooses the format; an .html is one file that needs nothing else.",
                       1, 1},
    [COMMAND_CHECK] =
        {"check", "RECIPE [OPTIONS]", "draft a recipe and prove it, without drawing",
         "Takes the same recipes as rebato draft. Tells each proof that does not hold in full, each that a\n"
         "cutter measures in a line, and how many others hold; --json tells every proof.",
         1, 1},
    [COMMAND_NEW] =
        {"new", "NAME [OPTIONS]", "begin a recipe of your own",
         "Writes NAME.md, a short recipe that runs at once, to be changed; with --from the text of a recipe\n"
         "that is there already, under the new title. NAME may name a folder too and may end in .md. A file\n"
         "that is there already is left as it is.",
         1, 1},
    [COMMAND_LIST] =
        {"list", "[NAME | FAMILY | WORD] [OPTIONS]", "list the recipes and the bodies, or tell one in full",
         "A line for each, by family; with FAMILY those of that family. With NAME (or a recipe file) that "
         "one\n"
         "in full: its needs, its choices, and whether it runs without a block. With any other WORD those\n"
         "that have it in their name, title or summary: a line for each, or the only one in full.",
         0, 1},
    [COMMAND_WORDS] =
        {"words", "[WORD | SUBJECT] [OPTIONS]", "print the words of the recipe language, and draw them",
         "With WORD, that word with its example and what the example tells; with SUBJECT, the words of that\n"
         "subject. -o FILE draws the example of a word, on the usual block; -o FILE.pdf without a word or "
         "with\n"
         "a subject writes all of them with their examples and figures.",
         0, 1},
    [COMMAND_HELP] = {"help", "[COMMAND | report]", "tell how a command is used, or what the JSON says", "",
                      0, 1},
    [COMMAND_VERSION] = {"version", "", "print the version", "", 0, 0},
};

#define PLACE(field) offsetof(Options, field)

static const OptionRow rows[] = {
    {"--block", 0, "NAME", FOR_RUN, false, PLACE(block),
     "the block under the recipe; blocks/close-fitting when it needs one and none is given; none for no "
     "block"},
    {"--on", 0, "NECKLINE", FOR_RUN, true, PLACE(necklines), "a neckline recipe to cut the block to first"},
    {"--body", 0, "FILE", FOR_RUN, false, PLACE(body),
     "a measurement file or the name of a set; women-88 when none is given"},
    {"--set", 0, "NAME=VALUE", FOR_RUN, true, PLACE(settings),
     "a choice of any recipe used, or a measurement: height=12cm"},
    {"--accept", 0, "PROOF", FOR_RUN, true, PLACE(accepted),
     "take a proof as it is, by its name, though it does not hold"},
    {"--units", 0, "cm|in", FOR_RUN | FOR_LIST | FOR_WORDS, false, PLACE(units),
     "units for everything shown; cm when not given"},
    {"--paper", 0, "PAPER", FOR_WRITTEN, false, PLACE(paper),
     "a4, a3, a2, a1, a0, letter, legal, tabloid, WIDTHxHEIGHT (60x90cm, 24x36in) or whole, "
     "all on one page; a4 when not given"},
    {"--scale", 0, "1:N", FOR_SCALED, false, PLACE(scale),
     "1:4 for a quarter; when not given 1:1, and 1:4 for the example of a word"},
    {"--show", 0, "pieces|draft|both", FOR_DRAFT, false, PLACE(show),
     "the pieces, the drafts they were traced from, or both; both when not given"},
    {"--language", 0, "TAG", FOR_WEAVE, false, PLACE(language),
     "of the words that are not the recipe's: en, de, fr or es; that of the recipe when not given"},
    {"--with-code", 0, NULL, FOR_WEAVE, false, PLACE(with_code), "show the code of each step too"},
    {"--out", 'o', "FILE", FOR_WRITTEN, true, PLACE(files),
     "where to write: .pdf, .svg, .png, .pattern or .json; the recipe's name and "
     ".pdf when not given"},
    {"--from", 0, "RECIPE", FOR_NEW, false, PLACE(from),
     "the recipe to begin from: one that comes with rebato, or a recipe file"},
    {"--json", 0, NULL, FOR_RUN | FOR_LIST, false, PLACE(json),
     "print the report as JSON; rebato help report tells its names"},
    {"--names", 0, NULL, FOR_LIST | FOR_WORDS, false, PLACE(names), "print names only, one a line"},
};
enum { ROW_COUNT = sizeof rows / sizeof *rows };

const CommandRow *command_row(Command command) {
    return &commands[command];
}

bool command_find(const char *name, Command *out) {
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++) {
        if (strcmp(commands[i].name, name) != 0)
            continue;
        *out = (Command)i;
        return true;
    }
    return false;
}

const char *command_nearest(const char *name) {
    const char *names[COMMAND_COUNT];
    int count = 0;
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++)
        names[count++] = commands[i].name;
    return text_nearest(name, names, count);
}

const OptionRow *options_all(int *count) {
    *count = ROW_COUNT;
    return rows;
}

const char *option_about(const OptionRow *row, Command command) {
    if (command == COMMAND_WEAVE && row->place == PLACE(paper))
        return "a4, a3, a2, a1, a0, letter, legal, tabloid or WIDTHxHEIGHT (20x30cm), of a .pdf; a4 when not "
               "given";
    if (command == COMMAND_WEAVE && row->place == PLACE(files))
        return "where to write: .pdf or .html; the recipe's name and .pdf when not given";
    return row->about;
}

// The row for "--name" or "-o", with what follows an equals sign or the letter in *value; NULL when there is
// none.
static const OptionRow *row_find(const char *typed, const char **value) {
    *value = NULL;
    if (typed[1] != '-') {
        for (int i = 0; i < ROW_COUNT; i++)
            if (rows[i].letter && rows[i].letter == typed[1]) {
                *value = typed[2] ? typed + 2 : NULL;
                return &rows[i];
            }
        return NULL;
    }
    const char *equals = strchr(typed, '=');
    size_t length = equals ? (size_t)(equals - typed) : strlen(typed);
    for (int i = 0; i < ROW_COUNT; i++)
        if (strlen(rows[i].name) == length && memcmp(rows[i].name, typed, length) == 0) {
            *value = equals ? equals + 1 : NULL;
            return &rows[i];
        }
    return NULL;
}

static bool fail_option(const Options *options, const char *typed, Fault *fault) {
    const char *names[ROW_COUNT];
    int count = 0;
    for (int i = 0; i < ROW_COUNT; i++)
        if (rows[i].commands & (1u << options->command))
            names[count++] = rows[i].name;
    const char *command = commands[options->command].name;
    const char *equals = strchr(typed, '=');
    char *name = mem_text(typed);
    if (equals)
        name[equals - typed] = '\0';
    const char *nearest = text_nearest(name, names, count);
    fault_set(fault, NULL, 0, "rebato %s has no option %s", command, name);
    if (nearest)
        fault_set_hint(fault, "did you mean %s?", nearest);
    else
        fault_set_hint(fault, "rebato help %s tells its options", command);
    mem_free(name);
    return false;
}

static bool take_value(const OptionRow *row, const char *value, Options *options, Fault *fault) {
    void *place = (char *)options + row->place;
    if (!row->value) {
        *(bool *)place = true;
        return true;
    }
    if (!*value) {
        fault_set(fault, NULL, 0, "%s is empty", row->name);
        fault_set_hint(fault, "write it as %s %s", row->name, row->value);
        return false;
    }
    if (row->again) {
        ARRAY_ADD((TextList *)place, value);
        return true;
    }
    const char **text = place;
    if (*text) {
        fault_set(fault, NULL, 0, "%s is given twice: %s and %s", row->name, *text, value);
        fault_set_hint(fault, "keep the one that is meant");
        return false;
    }
    *text = value;
    return true;
}

static bool take_option(int argc, char **argv, int *at, Options *options, Fault *fault) {
    const char *typed = argv[*at], *value;
    const OptionRow *row = row_find(typed, &value);
    if (!row || !(row->commands & (1u << options->command)))
        return fail_option(options, typed, fault);
    if (!row->value && value) {
        fault_set(fault, NULL, 0, "%s takes no value", row->name);
        return false;
    }
    if (row->value && !value) {
        if (*at + 1 >= argc) {
            fault_set(fault, NULL, 0, "%s needs something after it", typed);
            fault_set_hint(fault, "write it as %s %s", typed, row->value);
            return false;
        }
        value = argv[++*at];
    }
    return take_value(row, value, options, fault);
}

static bool take_command(const char *typed, Options *options, Fault *fault) {
    if (strcmp(typed, "--help") == 0 || strcmp(typed, "-h") == 0)
        options->command = COMMAND_HELP;
    else if (strcmp(typed, "--version") == 0)
        options->command = COMMAND_VERSION;
    else if (!command_find(typed, &options->command)) {
        const char *nearest = command_nearest(typed);
        fault_set(fault, NULL, 0, "rebato has no command %s", typed);
        if (nearest)
            fault_set_hint(fault, "did you mean rebato %s?", nearest);
        else
            fault_set_hint(fault, "rebato help tells the commands; to draft a recipe: rebato draft %s",
                           typed);
        return false;
    }
    return true;
}

static bool fail_extra(const Options *options, const char *extra, Fault *fault) {
    const CommandRow *row = &commands[options->command];
    fault_set(fault, NULL, 0, "rebato %s does not know what to do with %s", row->name, extra);
    fault_set_hint(fault, "it is used as: rebato %s %s", row->name, row->usage);
    return false;
}

static bool fail_missing(const Options *options, Fault *fault) {
    const bool begun = options->command == COMMAND_NEW;
    fault_set(fault, NULL, 0, "rebato %s needs %s", commands[options->command].name,
              begun ? "a name for the recipe" : "the name of a recipe or a recipe file");
    fault_set_hint(fault, begun ? "write it as rebato new my-collar" : "rebato list tells the recipes");
    return false;
}

bool options_parse(int argc, char **argv, Options *out, Fault *fault) {
    *out = (Options){.command = COMMAND_HELP};
    if (argc < 2)
        return true;
    if (!take_command(argv[1], out, fault))
        return false;
    bool plain = false; // past "--" everything is an argument
    int arguments = 0;
    for (int i = 2; i < argc; i++) {
        const char *typed = argv[i];
        if (!plain && strcmp(typed, "--") == 0) {
            plain = true;
        } else if (!plain && (strcmp(typed, "--help") == 0 || strcmp(typed, "-h") == 0)) {
            out->argument = out->command == COMMAND_HELP ? NULL : commands[out->command].name;
            out->command = COMMAND_HELP;
            return true;
        } else if (!plain && typed[0] == '-' && typed[1]) {
            if (!take_option(argc, argv, &i, out, fault))
                return false;
        } else {
            if (!*typed && commands[out->command].least > 0)
                return fail_missing(out, fault);
            if (++arguments > commands[out->command].most)
                return fail_extra(out, typed, fault);
            out->argument = typed;
        }
    }
    if (arguments < commands[out->command].least)
        return fail_missing(out, fault);
    return true;
}

void options_finish(Options *options) {
    mem_free(options->necklines.items);
    mem_free(options->settings.items);
    mem_free(options->accepted.items);
    mem_free(options->files.items);
    *options = (Options){0};
}
