#include "cli/commands.h"

#include <string.h>

#include "base/text.h"
#include "cli/tell.h"
#include "script/words.h"

static void add_row(const WordRow *row, bool example, Buffer *out) {
    buffer_add_format(out, "  %s\n", row->usage);
    tell_wrapped(row->about, 6, 6, out);
    if (!example || !row->example)
        return;
    buffer_add_text(out, "\n  for example\n");
    for (int line = 1;; line++) {
        size_t length;
        const char *text = text_line(row->example, line, &length);
        if (!text)
            return;
        buffer_add_text(out, length > 0 ? "      " : "");
        buffer_add(out, text, length);
        buffer_add_char(out, '\n');
    }
}

static bool first_of_subject(const WordRow *rows, int at) {
    for (int i = 0; i < at; i++)
        if (strcmp(rows[i].subject, rows[at].subject) == 0)
            return false;
    return true;
}

// Subjects in the order in which they first come, rows in their own; all subjects for NULL. False where none
// is called so.
static bool add_subjects(const char *subject, Buffer *out) {
    int count;
    const WordRow *rows = words_all(&count);
    bool any = false;
    for (int i = 0; i < count; i++) {
        if (!first_of_subject(rows, i) || (subject && strcmp(subject, rows[i].subject) != 0))
            continue;
        buffer_add_format(out, "%s%s\n\n", any ? "\n" : "", rows[i].subject);
        any = true;
        for (int k = i; k < count; k++)
            if (strcmp(rows[k].subject, rows[i].subject) == 0)
                add_row(&rows[k], false, out);
    }
    return any;
}

static int fail_word(const char *word) {
    Fault fault;
    fault_init(&fault);
    const char *nearest = words_nearest(word);
    fault_set(&fault, NULL, 0, "the recipe language has no word %s", word);
    if (nearest)
        fault_set_hint(&fault, "did you mean %s?", nearest);
    else
        fault_set_hint(&fault, "rebato words prints them all");
    int code = tell_fault(&fault, NULL, NULL, false);
    fault_finish(&fault);
    return code;
}

int command_words(const Options *options) {
    const char *word = options->argument;
    const WordRow *row = word ? words_find(word) : NULL;
    Buffer text;
    buffer_init(&text);
    bool found = true;
    if (row)
        add_row(row, true, &text);
    else
        found = add_subjects(word, &text);
    int code = found ? tell_text(&text, EXIT_HOLDS) : fail_word(word);
    buffer_finish(&text);
    return code;
}
