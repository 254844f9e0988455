// The front page: what it is, for whom, what was chosen, what comes out, how hard it is, and what to mind.
#include <string.h>

#include "base/measures.h"
#include "base/units.h"
#include "booklet/composing.h"

#define FAILING_NAMED_MOST 5
#define FRONT_DRAFTS_MOST 2

// A measurement of the wearer: what a recipe of the command line asked for, or a used one by a known name.
bool input_is_measurement(const Composing *c, int index) {
    const Input *input = &c->pattern->inputs.items[index];
    if (input->choice || input->missing || input->measure == MEASURE_TEXT)
        return false;
    if (c->pattern->chapters.items[input->chapter].depth > 0 && !measure_known(input->name))
        return false;
    for (int i = 0; i < index; i++)
        if (strcmp(c->pattern->inputs.items[i].name, input->name) == 0 &&
            !c->pattern->inputs.items[i].choice && !c->pattern->inputs.items[i].missing)
            return false;
    return true;
}

static int opening_of(const Composing *c, const Input *input) {
    return c->lessons[input->chapter].first_step;
}

static bool is_foreign(const Composing *c, const Input *input) {
    const char *tag = language_of_step(c, opening_of(c, input));
    return language_find(tag ? tag : c->book->prose_language) != c->language;
}

// What the recipe says of it, whose numbers are the author's own: those of another language stay.
static void add_about(Composing *c, const Input *input, TableMaking *table) {
    const char *about = input->about ? input->about : "";
    table_authored(c, table, is_foreign(c, input) ? about : say_numbers(c, about), opening_of(c, input));
}

// In the recipe's words, if the reader's language is the same; else in the program's, where it knows them.
static void add_taken(Composing *c, const Input *input, TableMaking *table) {
    const char *known = is_foreign(c, input) ? say_taken(c, input->name) : NULL;
    if (known)
        table_text(c, table, known);
    else
        add_about(c, input, table);
}

static void add_measurements(Composing *c, BlockList *out) {
    static const BookColumn columns[] = {{.weight = 3}, {.number = true, .weight = 2}, {.weight = 5}};
    BlockList inner = {0};
    TableMaking table = table_begin(columns, 3, true, true);
    table_text(c, &table, say(c, "measures.name", NULL));
    table_text(c, &table, say(c, "measures.value", NULL));
    table_text(c, &table, say(c, "measures.taken", NULL));
    for (int i = 0; i < c->pattern->inputs.count; i++) {
        const Input *input = &c->pattern->inputs.items[i];
        if (!input_is_measurement(c, i))
            continue;
        table_text(c, &table, say_input(c, input));
        table_text(c, &table, say_value(c, input->measure, input->value, input->text));
        add_taken(c, input, &table);
    }
    table_end(c, &table, say(c, "measures.title", NULL), &inner);
    const char *title =
        c->pattern->body ? say(c, "measures.of", c->pattern->body, NULL) : say(c, "measures.title", NULL);
    add_section(c, out, ROLE_PLAIN, 2, NULL, title, &inner);
}

// A choice that never reaches 3 mm, such as the thickness of cloth, is told to a tenth of a millimetre.
static bool is_thin(const Input *input) {
    return input->measure == MEASURE_LENGTH && input->least <= input->most && input->most < UNITS_THIN_MM;
}

static const char *range_of(Composing *c, const Input *input) {
    if (input->measure == MEASURE_TEXT)
        return input->options ? input->options : "";
    if (input->least > input->most)
        return "";
    if (is_thin(input))
        return say(c, "choices.range", say_thin(c, input->least), say_thin(c, input->most), NULL);
    if (input->measure == MEASURE_LENGTH)
        return say(c, "choices.range", say_mm_beside(c, input->least, input->most),
                   say_mm_beside(c, input->most, input->least), NULL);
    return say(c, "choices.range", say_value(c, input->measure, input->least, NULL),
               say_value(c, input->measure, input->most, NULL), NULL);
}

// All choices of the recipe that was asked for; of those before it in the chain what somebody chose.
static void add_choices(Composing *c, BlockList *out) {
    static const BookColumn columns[] = {
        {.weight = 2}, {.number = true, .weight = 2}, {.weight = 3}, {.weight = 5}};
    BlockList inner = {0};
    TableMaking table = table_begin(columns, 4, true, true);
    table_text(c, &table, say(c, "choices.name", NULL));
    table_text(c, &table, say(c, "choices.value", NULL));
    table_text(c, &table, say(c, "choices.limits", NULL));
    table_text(c, &table, say(c, "choices.about", NULL));
    for (int i = 0; i < c->pattern->inputs.count; i++) {
        const Input *input = &c->pattern->inputs.items[i];
        const bool own = input->chapter == c->last;
        const bool chosen = c->pattern->chapters.items[input->chapter].depth == 0 && !input->is_default;
        if (!input->choice || input->missing || !(own || chosen))
            continue;
        const char *value = is_thin(input) ? say_thin(c, input->value)
                                           : say_value(c, input->measure, input->value, input->text);
        table_authored(c, &table, say_name(c, input->name), opening_of(c, input));
        if (input->is_default && input->measure == MEASURE_TEXT)
            table_authored(c, &table, value, opening_of(c, input));
        else
            table_text(c, &table, input->is_default ? value : say(c, "choices.chosen", value, NULL));
        if (input->measure == MEASURE_TEXT)
            table_authored(c, &table, range_of(c, input), opening_of(c, input));
        else
            table_text(c, &table, range_of(c, input));
        add_about(c, input, &table);
    }
    table_end(c, &table, say(c, "choices.title", NULL), &inner);
    add_section(c, out, ROLE_PLAIN, 2, NULL, say(c, "choices.title", NULL), &inner);
}

static void add_cautions(Composing *c, BlockList *out) {
    const Pattern *pattern = c->pattern;
    for (int i = 0; i < pattern->remarks.count; i++) {
        if (pattern->remarks.items[i].kind != REMARK_CAUTION || c->told[i])
            continue;
        bool same = false;
        for (int k = 0; k < i; k++)
            same = same || strcmp(pattern->remarks.items[k].text, pattern->remarks.items[i].text) == 0;
        c->told[i] = true;
        if (!same)
            add_notice(c, out, TONE_CAUTION, say_numbers(c, pattern->remarks.items[i].text),
                       pattern->remarks.items[i].step);
    }
}

static void add_failing(Composing *c, BlockList *out) {
    const int failing = proofs_failing(c->pattern);
    if (failing == 0)
        return;
    const char *names = NULL;
    int told = 0;
    for (int i = 0; i < c->pattern->proofs.count && told < FAILING_NAMED_MOST; i++) {
        const Proof *proof = &c->pattern->proofs.items[i];
        if (proof->holds || proof->accepted)
            continue;
        names = told++ ? say(c, "list.apart", names, proof_name(c, proof), NULL) : proof_name(c, proof);
    }
    add_notice(c, out, TONE_FAILED,
               arena_format(c->arena, "%s %s%s", say_count(c, "front.failing", failing), names,
                            failing > told ? " \u2026" : "."),
               -1);
}

static void add_pieces_picture(Composing *c, BlockList *out) {
    BookPicture *picture = add_figure(c, out, 1, span_plain(c, say(c, "figure.all", NULL)));
    Buffer names;
    buffer_init(&names);
    for (int i = 0; i < c->pattern->pieces.count; i++)
        buffer_add_format(&names, "%s%s", i ? ", " : "", c->pattern->pieces.items[i].name);
    *picture =
        (BookPicture){.kind = BOOK_PICTURE_ALL, .alt = say(c, "figure.all_alt", keep(c, &names), NULL)};
}

// Of a recipe without pieces, such as a block, the drafts it made last.
static void add_drafts_picture(Composing *c, BlockList *out) {
    const int drafts = c->pattern->drafts.count;
    const int count = drafts < FRONT_DRAFTS_MOST ? drafts : FRONT_DRAFTS_MOST;
    if (count == 0)
        return;
    BookPicture *picture = add_figure(c, out, count, span_plain(c, say(c, "figure.drafts", NULL)));
    for (int i = drafts - count; i < drafts; i++)
        *picture++ =
            (BookPicture){.kind = BOOK_PICTURE_DRAFT,
                          .draft = i,
                          .alt = say(c, "figure.step_alt_plain", c->pattern->drafts.items[i].name, NULL)};
}

void add_front(Composing *c, BlockList *out) {
    BlockList inner = {0};
    const Lesson *lesson = &c->lessons[c->last];
    BookBlock title = block_heading(1, NULL, span_plain(c, c->pattern->title));
    title.authored = true;
    add_block(&inner, title);
    add_prose(c, lesson, 0, 1, PROSE_SUMMARY, &inner);
    add_failing(c, &inner);
    if (c->pattern->pieces.count > 0)
        add_pieces_picture(c, &inner);
    else
        add_drafts_picture(c, &inner);
    add_cautions(c, &inner);
    add_sizes(c, &inner);
    add_measurements(c, &inner);
    add_choices(c, &inner);
    add_hardness(c, &inner);
    add_holding(c, out, (BookBlock){.kind = BOOK_SECTION, .role = ROLE_FRONT}, &inner);
}
