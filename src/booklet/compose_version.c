// What it takes to draft the same again: the line, the measurements and the recipes with their fingerprints.
#include <string.h>

#include "booklet/composing.h"

// NAME=VALUE as a shell takes it.
static void add_word(Buffer *out, const char *text) {
    if (text[strcspn(text, " '\"$&|;<>()\\`*?[]#~!{}\t\n")] == '\0') {
        buffer_add_text(out, text);
        return;
    }
    buffer_add_char(out, '\'');
    for (; *text; text++)
        if (*text == '\'')
            buffer_add_text(out, "'\\''");
        else
            buffer_add_char(out, *text);
    buffer_add_char(out, '\'');
}

static void add_setting(Composing *c, const Input *input, Buffer *out) {
    buffer_add_text(out, " --set ");
    const char *text = input->measure == MEASURE_TEXT     ? input->text
                       : input->measure == MEASURE_LENGTH ? arena_format(c->arena, "%.10gmm", input->value)
                       : input->measure == MEASURE_YEARS ? arena_format(c->arena, "%.10g years", input->value)
                                                         : arena_format(c->arena, "%.10g", input->value);
    add_word(out, arena_format(c->arena, "%s=%s", input->name, text ? text : ""));
}

// A recipe's name; of a file its last part, since where it lies on the author's machine is nobody's business.
static const char *recipe_name(const Composing *c, int chapter) {
    const char *name = c->pattern->chapters.items[chapter].recipe;
    const Recipe *recipe = c->lessons[chapter].recipe;
    const char *slash = strrchr(name, '/');
    return slash && (!recipe || shelf_is_on_disk(c->shelf, recipe)) ? slash + 1 : name;
}

// A file, so that the same is drafted when the program's own sets have changed.
static const char *body_file(Composing *c) {
    return arena_format(c->arena, "%s.txt", c->pattern->body ? c->pattern->body : "measures");
}

// The line that drafts it anew: the chain, the body and the choices that were made.
static const char *command_of(Composing *c) {
    const Pattern *pattern = c->pattern;
    Buffer out;
    buffer_init(&out);
    buffer_add_text(&out, "rebato draft ");
    add_word(&out, recipe_name(c, c->last));
    bool first = true;
    for (int i = 0; i < pattern->chapters.count; i++) {
        if (pattern->chapters.items[i].depth > 0 || i == c->last)
            continue;
        buffer_add_text(&out, first ? " --block " : " --on ");
        add_word(&out, recipe_name(c, i));
        first = false;
    }
    if (pattern->body) {
        buffer_add_text(&out, " --body ");
        add_word(&out, body_file(c));
    }
    for (int i = 0; i < pattern->inputs.count; i++) {
        const Input *input = &pattern->inputs.items[i];
        if (pattern->chapters.items[input->chapter].depth == 0 && input->choice && !input->is_default)
            add_setting(c, input, &out);
    }
    if (pattern->units == UNITS_INCH)
        buffer_add_text(&out, " --units in");
    buffer_add_char(&out, '\n');
    return keep(c, &out);
}

static void add_recipes(Composing *c, BlockList *out) {
    static const BookColumn columns[] = {{.weight = 3}, {.weight = 4}, {.weight = 3}};
    TableMaking table = table_begin(columns, 3, true, true);
    table_text(c, &table, say(c, "version.recipe", NULL));
    table_text(c, &table, say(c, "version.recipe_title", NULL));
    table_text(c, &table, say(c, "version.hash", NULL));
    for (int i = 0; i < c->pattern->chapters.count; i++) {
        const Chapter *chapter = &c->pattern->chapters.items[i];
        bool told = false;
        for (int k = 0; k < i; k++)
            told = told || (strcmp(c->pattern->chapters.items[k].recipe, chapter->recipe) == 0 &&
                            strcmp(c->pattern->chapters.items[k].hash, chapter->hash) == 0);
        if (told)
            continue;
        table_text(c, &table, recipe_name(c, i));
        table_authored(c, &table, chapter->title, c->lessons[i].first_step);
        table_add(&table, (BookCell){.spans = span_styled(c, SPAN_CODE, chapter->hash)});
    }
    table_end(c, &table, say(c, "version.recipes", NULL), out);
}

static void add_measures(Composing *c, BlockList *out) {
    Buffer text;
    buffer_init(&text);
    const Pattern *pattern = c->pattern;
    for (int i = 0; i < pattern->inputs.count; i++) {
        const Input *input = &pattern->inputs.items[i];
        if (input_is_measurement(c, i))
            buffer_add_format(&text, "%s = %.10g %s\n", input->name, input->value,
                              input->measure == MEASURE_YEARS    ? "years"
                              : input->measure == MEASURE_LENGTH ? "mm"
                                                                 : "");
    }
    if (text.length > 0) {
        add_paragraph(c, out, say(c, "version.measures", body_file(c), NULL));
        add_block(out, (BookBlock){.kind = BOOK_CODE, .text = arena_text(c->arena, text.data)});
    }
    buffer_finish(&text);
}

void add_version(Composing *c, BlockList *out) {
    BlockList inner = {0};
    add_paragraph(c, &inner, say(c, "version.says", c->options->version, NULL));
    add_block(&inner, (BookBlock){.kind = BOOK_CODE, .text = command_of(c)});
    add_measures(c, &inner);
    add_recipes(c, &inner);
    add_section(c, out, ROLE_VERSION, 2, "version", say(c, "part.version", NULL), &inner);
}
