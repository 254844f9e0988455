// A recipe of one's own: the one that comes for the purpose, or any other, under a new title.
#include "cli/commands.h"

#include <ctype.h>
#include <inttypes.h>
#include <string.h>

#include "base/embedded.h"
#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"
#include "cli/target.h"
#include "cli/tell.h"

extern const Embedded new_recipe[]; // written by scripts/embed.py
extern const int new_recipe_count;

// "folder/my-collar.md" for that or "folder/my-collar".
static void add_file(const char *name, Buffer *out) {
    buffer_add_text(out, name);
    if (!text_ends(name, ".md"))
        buffer_add_text(out, ".md");
}

static bool fail_name(const char *name, const char *why, Fault *fault) {
    fault_set(fault, NULL, 0, "%s cannot be the name of a recipe: %s", name, why);
    fault_set_hint(fault, "write it as rebato new my-collar");
    return false;
}

// "My collar" for "folder/my-collar.md".
static bool find_title(const char *file, Buffer *out, Fault *fault) {
    const char *slash = strrchr(file, '/');
    const char *name = slash ? slash + 1 : file;
    const size_t length = strlen(name) - strlen(".md");
    if (!text_is_utf8(name, length))
        return fail_name(file, "it is not UTF-8", fault);
    for (size_t i = 0; i < length; i++) {
        const unsigned char c = (unsigned char)name[i];
        if (c < ' ' || c == 0x7F)
            return fail_name(file, "it has a control character in it", fault);
        if (c != '-' && c != '_' && c != ' ')
            buffer_add_char(out, out->length > 0 ? (char)c : (char)toupper(c));
        else if (out->length > 0 && out->data[out->length - 1] != ' ')
            buffer_add_char(out, ' ');
    }
    if (out->length > 0 && out->data[out->length - 1] == ' ')
        out->data[--out->length] = '\0';
    return out->length > 0 || fail_name(file, "there is no letter in its last part", fault);
}

// What Markdown would take for more than a letter stands behind a backslash (CommonMark 0.30, section 2.4).
static void add_plain(const char *text, Buffer *out) {
    for (const char *c = text; *c; c++) {
        if (strchr("\\`*_[]<>&#!", *c))
            buffer_add_char(out, '\\');
        buffer_add_char(out, *c >= 0 && *c < ' ' ? ' ' : *c);
    }
}

static void add_lines(const char *text, int from, int to, Buffer *out) {
    size_t length;
    const char *line;
    for (int at = from; at <= to && (line = text_line(text, at, &length)); at++) {
        buffer_add(out, line, length);
        buffer_add_char(out, '\n');
    }
}

static const RecipeBlock *title_of(const Recipe *recipe) {
    for (int i = 0; i < recipe->block_count; i++)
        if (recipe->blocks[i].kind == BLOCK_HEADING && recipe->blocks[i].level == 1)
            return &recipe->blocks[i];
    return NULL;
}

// The text of a recipe under another title; named: its prose begins with where it is from.
static void add_recipe(const Recipe *recipe, const char *title, bool named, Buffer *out) {
    const RecipeBlock *heading = title_of(recipe);
    if (heading)
        add_lines(recipe->source, 1, heading->first_line - 1, out);
    buffer_add_text(out, "# ");
    add_plain(title, out);
    buffer_add_char(out, '\n');
    if (named) {
        buffer_add_text(out, "\nBegun from ");
        add_plain(recipe->name, out);
        buffer_add_format(out, ", whose text had the hash %016" PRIx64 ": say here what is yours in it.\n",
                          recipe->hash);
    }
    if (!heading)
        buffer_add_char(out, '\n');
    add_lines(recipe->source, heading ? heading->last_line + 1 : 1, recipe->line_count, out);
}

static bool make_text(const Options *options, Shelf *shelf, const char *title, Buffer *out, Fault *fault) {
    const Recipe *from;
    if (options->from) {
        if (!shelf_find(shelf, options->from, &from, fault))
            return false;
        add_recipe(from, title, true, out);
        return true;
    }
    Recipe recipe;
    if (!recipe_read(new_recipe->name, new_recipe->file, new_recipe->text, new_recipe->length, &recipe,
                     fault))
        return false;
    add_recipe(&recipe, title, false, out);
    recipe_finish(&recipe);
    return true;
}

// As the shell takes it for one word.
static void add_word(const char *word, Buffer *out) {
    bool plain = *word;
    for (const char *c = word; *c; c++)
        plain = plain && (isalnum((unsigned char)*c) || strchr("/._-+,:@%", *c) || *c < 0);
    if (plain) {
        buffer_add_text(out, word);
        return;
    }
    buffer_add_char(out, '\'');
    for (const char *c = word; *c; c++)
        if (*c == '\'')
            buffer_add_text(out, "'\\''");
        else
            buffer_add_char(out, *c);
    buffer_add_char(out, '\'');
}

static void add_next(const char *file, Buffer *out) {
    buffer_add_format(out, "wrote %s\nnow change it in an editor; try it with\n  rebato check ", file);
    add_word(file, out);
    buffer_add_text(out, "\n  rebato draft ");
    add_word(file, out);
    buffer_add_text(out, "\nand look words up with rebato words\n");
}

static bool write_new(const Options *options, Shelf *shelf, const char *file, Fault *fault) {
    Buffer title, text;
    buffer_init(&title);
    buffer_init(&text);
    bool fine = find_title(file, &title, fault) && target_is_writable(file, file, fault) &&
                make_text(options, shelf, title.data, &text, fault) &&
                file_write_new(file, text.data, text.length, fault);
    buffer_finish(&title);
    buffer_finish(&text);
    return fine;
}

int command_new(const Options *options) {
    Shelf shelf;
    Fault fault;
    Buffer file, said;
    shelf_init(&shelf);
    fault_init(&fault);
    buffer_init(&file);
    buffer_init(&said);
    add_file(options->argument, &file);
    int code = EXIT_FAULT;
    if (write_new(options, &shelf, file.data, &fault)) {
        add_next(file.data, &said);
        code = tell_text(&said, EXIT_HOLDS);
    } else {
        tell_fault(&fault, shelf_source(&shelf, fault.file), &shelf.notes, false);
    }
    buffer_finish(&said);
    buffer_finish(&file);
    fault_finish(&fault);
    shelf_finish(&shelf);
    return code;
}
