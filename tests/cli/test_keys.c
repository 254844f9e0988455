// Every name that jq finds in the JSON is documented, and every documented name is found.
#include <criterion/criterion.h>

#include "cli/keys.h"

#include <string.h>

#include "base/text.h"
#include "said.h"

// The paths of all values that are no object and no list, with the names of measurements and numbers, which
// may be any, as NAME.
#define PATHS                                                                                            \
    " | jq -r '[paths(type != \"object\" and type != \"array\") | map(if type == \"number\" then "       \
    "\"[]\" else \".\" + . end) | join(\"\") | ltrimstr(\".\") | sub(\"^values[.].*\"; \"values.NAME\")" \
    " | sub(\"measurements[.].*\"; \"measurements.NAME\")] | unique | .[]'; "

static bool has_row(KeyGroup group, const char *path, size_t length) {
    int count;
    const KeyRow *rows = keys_all(&count);
    for (int i = 0; i < count; i++)
        if (rows[i].group == group && strlen(rows[i].path) == length &&
            memcmp(rows[i].path, path, length) == 0)
            return true;
    return false;
}

static bool has_line(const char *text, const char *wanted) {
    size_t length;
    const char *line;
    for (int at = 1; (line = text_line(text, at, &length)); at++)
        if (strlen(wanted) == length && memcmp(line, wanted, length) == 0)
            return true;
    return false;
}

// The printed paths are the rows of the group, no more and no fewer.
static void expect_names(const char *printing, KeyGroup group) {
    Said s = said("{ %s } | sort -u", printing);
    size_t length;
    const char *path;
    for (int at = 1; (path = text_line(s.out.data, at, &length)); at++)
        cr_expect(length == 0 || has_row(group, path, length), "not documented: %.*s", (int)length, path);
    int count;
    const KeyRow *rows = keys_all(&count);
    for (int i = 0; i < count; i++)
        cr_expect(rows[i].group != group || has_line(s.out.data, rows[i].path), "never printed: %s\n%s",
                  rows[i].path, s.err.data);
    said_finish(&s);
}

// A note comes of a name that nothing asks for, a remark of a warning.
Test(keys, of_the_report_are_documented_and_there) {
    expect_names("cp \"$TESTS/../stdlib/bodies/women-88.txt\" b.txt; echo 'my_tie = 4 cm' >>b.txt; "
                 "rebato check bands/square-funnel --on necklines/lowered --body b.txt --json" PATHS
                 "printf '# Warned\\n\\nA test.\\n\\n```lua\\nlocal d = draft \"D\"\\nd.A = point(0, "
                 "0)\\nwarn \"mind\"\\n"
                 "```\\n' >w.md; rebato check w.md --json" PATHS "rebato check bands/mandarin --json" PATHS
                 "rebato check flat/peter-pan --json" PATHS,
                 KEY_REPORT);
}

Test(keys, of_a_fault_are_documented_and_there) {
    expect_names(
        "printf 'head_girth = 5.6 cm\\n' >b.txt; rebato check bands/mandarin --body b.txt --json" PATHS
        "rebato check nowhere --json" PATHS,
        KEY_FAULT);
}

Test(keys, of_the_list_are_documented_and_there) {
    expect_names("rebato list --json" PATHS, KEY_LIST);
}

Test(keys, stand_in_the_help_and_in_the_manual_with_their_words) {
    int count;
    const KeyRow *rows = keys_all(&count);
    Said help = said("rebato help report");
    Said manual = said("sed 's/\\\\//g' \"$TESTS/../src/cli/rebato.1\"");
    said_code(&help, 0);
    for (int i = 0; i < count; i++) {
        Buffer title;
        buffer_init(&title);
        buffer_add_format(&title, "\n.BR %s \" (%s)\"\n%s\n", rows[i].path, rows[i].kind, rows[i].about);
        said_out(&manual, title.data);
        buffer_clear(&title);
        buffer_add_format(&title, "  %-28s %-8s %s\n", rows[i].path, rows[i].kind, rows[i].about);
        said_out(&help, title.data);
        cr_expect(title.length <= 101, "too long a line: %s", title.data);
        buffer_finish(&title);
    }
    said_finish(&help);
    said_finish(&manual);
}
