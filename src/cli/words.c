// The reference of the language, from the rows of its words; and their examples, drawn.
#include "cli/commands.h"

#include <string.h>

#include "base/text.h"
#include "cli/book.h"
#include "cli/example.h"
#include "cli/target.h"
#include "cli/tell.h"

static void add_row(const WordRow *row, Buffer *out) {
    buffer_add_format(out, "  %s\n", row->usage);
    tell_wrapped(row->about, 6, 6, out);
}

static void add_indented(const char *text, Buffer *out) {
    size_t length;
    const char *line;
    for (int at = 1; (line = text_line(text, at, &length)); at++)
        if (length > 0)
            buffer_add_format(out, "      %.*s\n", (int)length, line);
}

static void add_example(const WordRow *row, const Example *example, Buffer *out) {
    buffer_add_text(out, "\n  for example\n");
    add_indented(row->example, out);
    if (example->told.length > 0) {
        buffer_add_text(out, "\n  which tells\n");
        add_indented(example->told.data, out);
    }
}

// All subjects for NULL. False where none is called so.
static bool add_subjects(const char *subject, Buffer *out) {
    int count;
    const WordRow *rows = words_all(&count);
    const char *last = NULL;
    for (int i = 0; i < count; i++) {
        if (subject && strcmp(subject, rows[i].subject) != 0)
            continue;
        if (!last || strcmp(last, rows[i].subject) != 0)
            buffer_add_format(out, "%s%s\n\n", last ? "\n" : "", rows[i].subject);
        last = rows[i].subject;
        add_row(&rows[i], out);
    }
    return last;
}

static bool fail_word(const char *word, Fault *fault) {
    const char *nearest = words_nearest(word);
    fault_set(fault, NULL, 0, "the recipe language has no word %s", word);
    if (nearest)
        fault_set_hint(fault, "did you mean %s?", nearest);
    else
        fault_set_hint(fault, "rebato words prints them all");
    return false;
}

static const char *last_part(const WordRow *row) {
    const char *mark = strpbrk(row->name, ".:");
    return mark ? mark + 1 : row->name;
}

// The last part of its name, where that finds it.
static const char *name_to_type(const WordRow *row) {
    return words_find(last_part(row)) == row ? last_part(row) : row->name;
}

static void add_names(Buffer *out) {
    int count;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++)
        buffer_add_format(out, "%s\n", name_to_type(&rows[i]));
}

static bool tell_reference(const char *subject, Buffer *out, Fault *fault) {
    if (!add_subjects(subject, out))
        return fail_word(subject, fault);
    if (!subject)
        buffer_add_format(
            out, "\n%d words of the language, besides what is kept of Lua and what a recipe is given.\n",
            words_count());
    return true;
}

// As asked, or whole and at a quarter.
static Options for_example(const Options *options) {
    Options own = *options;
    own.paper = own.paper ? own.paper : "whole";
    own.scale = own.scale ? own.scale : "1:4";
    return own;
}

static bool draw_example(const Example *example, const Options *options, Buffer *out, Fault *fault) {
    if (!example->draws) {
        buffer_add_text(out, "\n  It draws nothing, so no file is written.\n");
        return true;
    }
    const Options own = for_example(options);
    TargetList targets;
    bool fine = targets_plan(&own, &targets, fault) && targets_draw(&targets, &example->run, fault) &&
                targets_write(&targets, fault);
    if (fine) {
        buffer_add_char(out, '\n');
        targets_tell(&targets, out);
    }
    targets_finish(&targets);
    return fine;
}

static void add_how_to_see(const WordRow *row, Buffer *out) {
    buffer_add_format(out, "\n  To see it: rebato words %s -o %s.svg\n", name_to_type(row), last_part(row));
}

static bool tell_word(const WordRow *row, const Options *options, Units units, Buffer *out, Fault *fault) {
    Example example;
    bool fine = example_run(row, units, &example, fault);
    if (fine) {
        add_row(row, out);
        add_example(row, &example, out);
        if (options->files.count > 0)
            fine = draw_example(&example, options, out, fault);
        else if (example.draws)
            add_how_to_see(row, out);
    }
    example_finish(&example);
    return fine;
}

static bool is_subject(const char *word) {
    int count;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++)
        if (strcmp(rows[i].subject, word) == 0)
            return true;
    return false;
}

// All words, or those of a subject, as a PDF.
static bool write_book(const Options *options, Units units, Buffer *out, Fault *fault) {
    if (options->argument && !is_subject(options->argument))
        return fail_word(options->argument, fault);
    TargetList targets;
    bool fine = targets_plan(options, &targets, fault);
    targets.sheet.units = units;
    for (int i = 0; fine && i < targets.count; i++)
        fine = book_target(options->argument, &targets.sheet, &targets.items[i], fault);
    fine = fine && targets_write(&targets, fault);
    if (fine)
        targets_tell(&targets, out);
    targets_finish(&targets);
    return fine;
}

int command_words(const Options *options) {
    const WordRow *row = options->argument ? words_find(options->argument) : NULL;
    Buffer text;
    Fault fault;
    Units units;
    buffer_init(&text);
    fault_init(&fault);
    bool fine = run_units(options->units, &units, &fault);
    if (fine && options->names)
        add_names(&text);
    else if (fine && row)
        fine = tell_word(row, options, units, &text, &fault);
    else if (fine && options->files.count > 0)
        fine = write_book(options, units, &text, &fault);
    else if (fine)
        fine = tell_reference(options->argument, &text, &fault);
    int code = fine ? tell_text(&text, EXIT_HOLDS) : tell_fault(&fault, NULL, NULL, false);
    buffer_finish(&text);
    fault_finish(&fault);
    return code;
}
