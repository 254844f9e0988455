// Finished sizes: what a recipe tells itself, in a step called so whose list names them and ends each item
// with its value; without such a step what its names let guess. Opening and slit the program knows by itself.
#include <string.h>

#include "base/memory.h"
#include "booklet/composing.h"
#include "pattern/prove.h"
#include "pattern/seam.h"

#define TITLE_MOST 48 // bytes

static int find_value(SpanList spans) {
    for (int i = 0; i < spans.count; i++)
        if (spans.items[i].style & SPAN_VALUE)
            return i;
    return spans.count;
}

// "Neckline, all round: " without what leads over to the value.
static SpanList name_of(Composing *c, SpanList spans) {
    if (spans.count == 0)
        return spans;
    Span *items = arena_take(c->arena, sizeof *items * (size_t)spans.count);
    memcpy(items, spans.items, sizeof *items * (size_t)spans.count);
    const char *text = items[spans.count - 1].text;
    size_t length = strlen(text);
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == ':'))
        length--;
    items[spans.count - 1].text = arena_format(c->arena, "%.*s", (int)length, text);
    return (SpanList){.items = items, .count = spans.count};
}

static void add_item(Composing *c, const Lesson *lesson, const Prose *item, TableMaking *table) {
    if (item->count == 0)
        return;
    const SpanList told = prose_spans(c, lesson, item->items[0].spans);
    const int at = find_value(told);
    table_add(table, (BookCell){.spans = name_of(c, (SpanList){told.items, at}), .authored = true});
    table_add(table, (BookCell){.spans = {told.items + at, told.count - at}, .authored = true});
}

static bool add_told(Composing *c, TableMaking *table, BlockList *words) {
    const Lesson *lesson = &c->lessons[c->last];
    bool any = false;
    for (int step = lesson->first_step + 1; step < lesson->first_step + lesson->step_count; step++) {
        if (!step_is_titled(c, step, "sizes.titles"))
            continue;
        const int number = step - lesson->first_step;
        for (int i = 0; i < lesson->prose_count; i++) {
            const Prose *prose = &lesson->prose[i];
            if (prose->step != number || prose->kind != PROSE_LIST)
                continue;
            any = true;
            for (int k = 0; k < prose->count; k++)
                add_item(c, lesson, &prose->items[k], table);
        }
        add_prose(c, lesson, number, 2, PROSE_UNLISTED, words);
    }
    return any;
}

static void add_size(Composing *c, TableMaking *table, const char *name, bool authored, const char *value) {
    table_add(table, (BookCell){.spans = span_plain(c, name), .authored = authored});
    table_add(table, (BookCell){.spans = span_styled(c, SPAN_VALUE, value)});
}

static bool is_neck_seam(const Composing *c, const Seam *seam) {
    const int chapter = c->pattern->steps.items[seam->step].chapter;
    return chapter == c->last && language_any_begins("sizes.neck_seams", seam->name);
}

// Sewn from halves: a piece on the fold, or cut in pairs.
static bool is_half(const Composing *c, const SeamEdgeList *side) {
    for (int i = 0; i < side->count; i++) {
        const Piece *piece = &c->pattern->pieces.items[side->items[i].piece];
        bool half = piece->pair;
        for (int k = 0; k < piece->edges.count; k++)
            half = half || piece->edges.items[k].fold;
        if (half)
            return true;
    }
    return false;
}

// What a choice is called in the recipe's own words, "height of the stand" of "height of the stand, usually 3
// cm"; its name where they are too many for one.
static const char *choice_title(Composing *c, const Input *input) {
    const size_t length = input->about ? strcspn(input->about, ",;:.(") : 0;
    if (length == 0 || length > TITLE_MOST)
        return say_name(c, input->name);
    return arena_format(c->arena, "%.*s", (int)length, input->about);
}

// By their names: choices and notes that end in "width", "neckline" ..., and the neck seam.
static void add_guessed(Composing *c, TableMaking *table) {
    const Pattern *pattern = c->pattern;
    for (int i = 0; i < pattern->inputs.count; i++) {
        const Input *input = &pattern->inputs.items[i];
        if (input->chapter == c->last && input->choice && input->measure == MEASURE_LENGTH &&
            language_any_ends("sizes.names", say_name(c, input->name)))
            add_size(c, table, choice_title(c, input), true, say_mm(c, input->value));
    }
    for (int i = 0; i < pattern->notes.count; i++) {
        const Note *note = &pattern->notes.items[i];
        if (pattern->steps.items[note->step].chapter == c->last && note->measure == MEASURE_LENGTH &&
            language_any_ends("sizes.names", say_name(c, note->name)))
            add_size(c, table, say_name(c, note->name), true,
                     say_value(c, note->measure, note->value, note->text));
    }
    for (int i = 0; i < pattern->seams.count; i++) {
        const Seam *seam = &pattern->seams.items[i];
        if (is_neck_seam(c, seam))
            add_size(c, table,
                     say(c, is_half(c, &seam->a) ? "sizes.seam_half" : "sizes.seam", seam->name, NULL), false,
                     say_mm(c, seam_side_length(pattern, &seam->a)));
    }
}

static void add_opening(Composing *c, TableMaking *table) {
    const PullOn *pull = &c->pattern->pull_on;
    if (!pull->stated)
        return;
    if (pull->slit > 0)
        add_size(c, table, say(c, "sizes.slit", NULL), false, say_mm(c, pull->slit));
    if (pull->stretch > 0)
        add_size(c, table, say(c, "sizes.stretch", NULL), false,
                 say_numbers(c, arena_format(c->arena, "%.3g %%", 100 * pull->stretch)));
    add_size(c, table, say(c, "sizes.opening", NULL), false, say_mm(c, pull_on_opens(pull)));
    if (pull->head_girth > 0)
        add_size(c, table, say(c, "sizes.head", NULL), false, say_mm(c, pull->head_girth + pull->ease));
}

void add_sizes(Composing *c, BlockList *out) {
    static const BookColumn columns[] = {{.weight = 5}, {.number = true, .weight = 2}};
    BlockList inner = {0}, words = {0};
    TableMaking table = table_begin(columns, 2, false, true);
    if (!add_told(c, &table, &words))
        add_guessed(c, &table);
    add_opening(c, &table);
    table_end(c, &table, say(c, "sizes.title", NULL), &inner);
    for (int i = 0; i < words.count; i++)
        add_block(&inner, words.items[i]);
    mem_free(words.items);
    add_section(c, out, ROLE_PLAIN, 2, NULL, say(c, "sizes.title", NULL), &inner);
}
