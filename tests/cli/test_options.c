#include <criterion/criterion.h>

#include "cli/options.h"

#include <string.h>

#include "said.h"

static void expect_fault(int argc, const char *const *argv, const char *message, const char *hint) {
    Options options;
    Fault fault;
    fault_init(&fault);
    cr_assert_not(options_parse(argc, (char **)argv, &options, &fault));
    cr_expect(strstr(fault.message, message), "%s", fault.message);
    cr_expect(hint == NULL || (fault.hint && strstr(fault.hint, hint)), "%s",
              fault.hint ? fault.hint : "no hint");
    fault_finish(&fault);
    options_finish(&options);
}
#define EXPECT_FAULT(message, hint, ...)                                      \
    do {                                                                      \
        const char *const line[] = {"rebato", __VA_ARGS__};                   \
        expect_fault((int)(sizeof line / sizeof *line), line, message, hint); \
    } while (0)

Test(options, all_that_is_given_is_kept_in_order) {
    const char *line[] = {"rebato", "draft", "r",       "--on",   "a",     "--on=b", "--set",  "x=1",
                          "-o",     "p.pdf", "-oq.svg", "--json", "--out", "r.png",  "--body", "anna.txt"};
    Options options;
    Fault fault;
    fault_init(&fault);
    cr_assert(options_parse(16, (char **)line, &options, &fault), "%s", fault.message);
    cr_expect_eq(options.command, COMMAND_DRAFT);
    cr_expect_str_eq(options.argument, "r");
    cr_expect_eq(options.necklines.count, 2);
    cr_expect_str_eq(options.necklines.items[1], "b");
    cr_expect_str_eq(options.settings.items[0], "x=1");
    cr_assert_eq(options.files.count, 3);
    cr_expect_str_eq(options.files.items[0], "p.pdf");
    cr_expect_str_eq(options.files.items[1], "q.svg");
    cr_expect_str_eq(options.files.items[2], "r.png");
    cr_expect_str_eq(options.body, "anna.txt");
    cr_expect(options.json);
    options_finish(&options);
}

Test(options, after_two_hyphens_everything_is_an_argument) {
    const char *line[] = {"rebato", "check", "--", "--odd.md"};
    Options options;
    Fault fault;
    fault_init(&fault);
    cr_assert(options_parse(4, (char **)line, &options, &fault));
    cr_expect_str_eq(options.argument, "--odd.md");
    options_finish(&options);
}

Test(options, a_mistyped_command_is_told_the_nearest) {
    EXPECT_FAULT("no command drfat", "rebato draft", "drfat", "x");
    EXPECT_FAULT("no command lists", "rebato list", "lists");
}

Test(options, a_mistyped_option_is_told_the_nearest_of_its_command) {
    EXPECT_FAULT("rebato draft has no option --bloc", "--block", "draft", "r", "--bloc", "b");
    EXPECT_FAULT("rebato draft has no option --papper", "--paper", "draft", "r", "--papper=a3");
    EXPECT_FAULT("rebato list has no option --paper", NULL, "list", "--paper", "a4");
    EXPECT_FAULT("rebato draft has no option -x", NULL, "draft", "r", "-x");
}

Test(options, what_is_missing_or_too_much_is_told) {
    EXPECT_FAULT("needs the name of a recipe", "rebato list", "draft");
    EXPECT_FAULT("does not know what to do with b", NULL, "draft", "a", "b");
    EXPECT_FAULT("--body needs something after it", NULL, "draft", "a", "--body");
    EXPECT_FAULT("--body is empty", NULL, "draft", "a", "--body=");
    EXPECT_FAULT("--json takes no value", NULL, "draft", "a", "--json=yes");
    EXPECT_FAULT("--body is given twice: a and b", NULL, "draft", "r", "--body", "a", "--body", "b");
}

Test(options, every_row_has_words_and_a_command) {
    int count;
    const OptionRow *rows = options_all(&count);
    for (int i = 0; i < count; i++) {
        cr_expect(rows[i].commands != 0, "%s", rows[i].name);
        cr_expect(strlen(rows[i].about) > 10, "%s", rows[i].name);
        cr_expect(strncmp(rows[i].name, "--", 2) == 0, "%s", rows[i].name);
    }
}

Test(options, the_manual_the_completions_and_the_help_know_every_option) {
    int count;
    const OptionRow *rows = options_all(&count);
    Said manual = said("sed 's/\\\\//g' \"$TESTS/../src/cli/rebato.1\"");
    Said bash = said("cat \"$TESTS/../src/cli/rebato.bash\"");
    Said zsh = said("cat \"$TESTS/../src/cli/rebato.zsh\"");
    Said fish = said("cat \"$TESTS/../src/cli/rebato.fish\"");
    Said help = said("for c in draft weave check new list words; do rebato help $c; done");
    for (int i = 0; i < count; i++) {
        char in_fish[32] = "-l ";
        strcat(in_fish, rows[i].name + 2);
        said_out(&manual, rows[i].name);
        said_out(&bash, rows[i].name);
        said_out(&zsh, rows[i].name);
        said_out(&fish, in_fish);
        said_out(&help, rows[i].name);
    }
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++) {
        const char *name = command_row((Command)i)->name;
        said_out(&manual, name);
        said_out(&bash, name);
        said_out(&zsh, name);
        said_out(&fish, name);
    }
    said_finish(&manual);
    said_finish(&bash);
    said_finish(&zsh);
    said_finish(&fish);
    said_finish(&help);
}

Test(options, the_manual_the_completions_and_the_help_know_every_paper) {
    static const char *const papers[] = {"a4", "a3", "a2", "a1", "a0", "letter", "legal", "tabloid", "whole"};
    Said refused = said("rebato draft \"$TESTS/cli/recipes/square.md\" --paper foolscap");
    Said manual = said("grep -A1 'paper \"' \"$TESTS/../src/cli/rebato.1\"");
    Said bash = said("grep paper \"$TESTS/../src/cli/rebato.bash\"");
    Said zsh = said("grep paper \"$TESTS/../src/cli/rebato.zsh\"");
    Said fish = said("grep paper \"$TESTS/../src/cli/rebato.fish\"");
    Said help = said("rebato help draft | grep -A1 -e --paper");
    for (size_t i = 0; i < sizeof papers / sizeof *papers; i++) {
        said_err(&refused, papers[i]);
        said_out(&manual, papers[i]);
        said_out(&bash, papers[i]);
        said_out(&zsh, papers[i]);
        said_out(&fish, papers[i]);
        said_out(&help, papers[i]);
    }
    said_finish(&refused);
    said_finish(&manual);
    said_finish(&bash);
    said_finish(&zsh);
    said_finish(&fish);
    said_finish(&help);
}

Test(options, an_empty_name_is_no_recipe) {
    EXPECT_FAULT("rebato draft needs the name of a recipe", "rebato list", "draft", "");
    EXPECT_FAULT("rebato check needs the name of a recipe", "rebato list", "check", "");
}
