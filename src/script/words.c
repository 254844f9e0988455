#include "script/words.h"

#include <string.h>

#include "base/text.h"
#include "script/lib_given.h"
#include "script/library.h"

#define WORDS_MAX 300

// The rows in one run, gathered when they are first asked for.
static WordRow words[WORDS_MAX];
static int word_count;

// Behind the last row of its subject, so that a subject stands together, in the order in which subjects first
// come.
static void add_word(WordRow row) {
    if (word_count == WORDS_MAX)
        return;
    int at = word_count;
    for (int i = 0; i < word_count; i++)
        if (strcmp(words[i].subject, row.subject) == 0)
            at = i + 1;
    memmove(&words[at + 1], &words[at], sizeof *words * (size_t)(word_count - at));
    words[at] = row;
    word_count++;
}

const WordRow *words_all(int *count) {
    if (word_count == 0) {
        for (const Binding *const *rows = library_all; *rows; rows++)
            for (const Binding *binding = *rows; binding->row.name; binding++)
                add_word(binding->row);
        int given_count;
        const WordRow *given = lib_given_rows(&given_count);
        for (int i = 0; i < given_count; i++)
            add_word(given[i]);
    }
    *count = word_count;
    return words;
}

int words_count(void) {
    int count, counted = 0;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++)
        counted += !words_is_given(&rows[i]) && strcmp(rows[i].subject, WORDS_PLAIN) != 0;
    return counted;
}

void words_recipe(const WordRow *row, Buffer *out) {
    buffer_add_format(out, "# %s\n\nAn example of the reference.\n\n```lua\n", row->name);
    if (!strstr(row->example, "needs {"))
        buffer_add_text(out, "needs { bodice = \"a bodice\" }\n");
    buffer_add_format(out, "%s\n```\n", row->example);
}

// What a recipe writes after the dot or colon, or the word itself.
static const char *last_part(const char *name) {
    const char *mark = strpbrk(name, ".:");
    return mark ? mark + 1 : name;
}

const WordRow *words_find(const char *name) {
    int count;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++)
        if (strcmp(rows[i].name, name) == 0)
            return &rows[i];
    for (int i = 0; i < count; i++)
        if (strcmp(last_part(rows[i].name), name) == 0)
            return &rows[i];
    return NULL;
}

const char *words_nearest(const char *name) {
    const char *names[WORDS_MAX];
    int count;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++)
        names[i] = last_part(rows[i].name);
    return text_nearest(last_part(name), names, count);
}
