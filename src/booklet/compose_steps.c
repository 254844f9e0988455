// A lesson is a recipe that ran, told by its own prose. A recipe that another one used is told inside the
// step that used it, its steps as steps of that one: only those that drew, traced or sewed something, so that
// cases that did not arise are left out. What is used again is not told again: its figures follow, and a link
// to the words. The steps that tell the order of sewing stand apart, under sewing.
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "booklet/composing.h"
#include "sheet/picture.h"

#define STEP_PICTURES_MOST 500 // in one booklet; an honest one has a tenth of it

#define LEVEL_MOST 6

// The names of what a step marked on a draft, up to eight.
static const char *marked(Composing *c, const Draft *draft, int step) {
    Buffer text;
    buffer_init(&text);
    int count = 0;
    for (int i = 0; i < draft->marks.count; i++) {
        const Mark *mark = &draft->marks.items[i];
        if (mark->step != step)
            continue;
        if (++count <= 8)
            buffer_add_format(&text, "%s%s", count > 1 ? ", " : "", say_name(c, mark->name));
    }
    const char *names = keep(c, &text);
    return count > 8 ? say(c, "figure.step_more", names, NULL) : names;
}

static void add_step_figure(Composing *c, int step, BlockList *out) {
    const Pattern *pattern = c->pattern;
    int count = 0;
    for (int i = 0; i < pattern->drafts.count; i++)
        count += picture_has_step(c->book->pictures, step, i);
    const int room = STEP_PICTURES_MOST - c->step_pictures, shown = count < room ? count : room;
    c->step_pictures += shown;
    c->pictures_left_out += count - shown;
    if (shown == 0)
        return;
    BookPicture *picture = add_figure(c, out, shown, (SpanList){0}), *const behind = picture + shown;
    for (int i = 0; i < pattern->drafts.count && picture < behind; i++) {
        const Draft *draft = &pattern->drafts.items[i];
        if (!picture_has_step(c->book->pictures, step, i))
            continue;
        const char *names = marked(c, draft, step);
        *picture++ = (BookPicture){.kind = BOOK_PICTURE_STEP,
                                   .step = step,
                                   .draft = i,
                                   .alt = *names ? say(c, "figure.step_alt", draft->name, names, NULL)
                                                 : say(c, "figure.step_alt_plain", draft->name, NULL)};
    }
}

typedef struct Told {
    const char **items; // in order
    int count, capacity;
} Told;

static int by_text(const void *left, const void *right) {
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

// What the prose of a step tells, as it is written there.
static Told told_in_prose(Composing *c, int step) {
    Told told = {0};
    const Pattern *pattern = c->pattern;
    for (int i = 0; i < pattern->filled.count; i++)
        if (pattern->filled.items[i].step == step)
            ARRAY_ADD(&told, say_numbers(c, pattern->filled.items[i].text));
    if (told.count > 1)
        qsort(told.items, (size_t)told.count, sizeof *told.items, by_text);
    return told;
}

static bool is_told(const Told *told, const char *value) {
    return told->count > 0 && bsearch(&value, told->items, (size_t)told->count, sizeof value, by_text);
}

// The numbers that a step worked out and its prose does not tell, in one line.
static void add_margin(Composing *c, int step, BlockList *out) {
    const Pattern *pattern = c->pattern;
    struct {
        Span *items;
        int count, capacity;
    } spans = {0};
    const Told told = told_in_prose(c, step);
    for (int i = 0; i < pattern->notes.count; i++) {
        const Note *note = &pattern->notes.items[i];
        if (note->step != step)
            continue;
        const char *shown = say_numbers(c, say_value(c, note->measure, note->value, note->text));
        if (is_told(&told, shown))
            continue;
        const char *name = say_name(c, note->name);
        Span before = {.style = SPAN_EMPHASIS,
                       .text = say(c, spans.count ? "step.margin_next" : "step.margin", name, NULL)};
        Span between = {.text = " "};
        Span value = {.style = SPAN_VALUE, .text = shown};
        ARRAY_ADD(&spans, before);
        ARRAY_ADD(&spans, between);
        ARRAY_ADD(&spans, value);
    }
    if (spans.count > 0) {
        Span *kept = arena_take(c->arena, sizeof *kept * (size_t)spans.count);
        memcpy(kept, spans.items, sizeof *kept * (size_t)spans.count);
        BookBlock line = block_paragraph((SpanList){.items = kept, .count = spans.count});
        add_block(out, line);
    }
    mem_free(spans.items);
    mem_free(told.items);
}

typedef enum Telling { TELL_WHOLE, TELL_USED, TELL_AGAIN } Telling;

// The steps of the recipe are numbered 1, 2, 3; those of the recipes that a step used follow it as 1.1, 1.2,
// however deep they were used.
typedef struct Numbering {
    const char *within; // "1", or NULL for the recipe's own
    int count;
} Numbering;

static const char *next_number(Composing *c, Numbering *numbering) {
    const int number = ++numbering->count;
    return numbering->within ? arena_format(c->arena, "%s.%d", numbering->within, number)
                             : arena_format(c->arena, "%d", number);
}

static void add_steps(Composing *c, int chapter, Telling telling, int level, Numbering *numbering,
                      BlockList *out);

// Where the words of a recipe stand that is used again.
static const char *anchor_of_lesson(const Composing *c, const Lesson *lesson) {
    for (int i = lesson->first_step + 1; i < lesson->first_step + lesson->step_count; i++)
        if (step_is_told(c, i))
            return c->anchors[i];
    return c->anchors[lesson->first_step];
}

// A recipe that the step used: its steps as they are, or, told before, only what is new in their figures.
static void add_used(Composing *c, int chapter, int level, Numbering *numbering, BlockList *out) {
    const Chapter *at = &c->pattern->chapters.items[chapter];
    const Lesson *lesson = &c->lessons[chapter];
    if (lesson->told_by == chapter) {
        add_steps(c, chapter, TELL_USED, level, numbering, out);
        return;
    }
    BlockList inner = {0};
    add_block(&inner, block_paragraph(span_link(c, say(c, "used.again", at->title, NULL),
                                                anchor_of_lesson(c, &c->lessons[lesson->told_by]))));
    add_steps(c, chapter, TELL_AGAIN, level + 1, numbering, &inner);
    add_section(c, out, ROLE_USED, level, c->anchors[lesson->first_step],
                say(c, "used.title", at->title, NULL), &inner);
}

static void add_all_used(Composing *c, int step, int level, Numbering *numbering, BlockList *out) {
    for (int i = 0; i < c->pattern->chapters.count; i++)
        if (c->pattern->chapters.items[i].used_in == step && c->lessons[i].works)
            add_used(c, i, level, numbering, out);
}

// What belongs to a step: its prose, what to mind, its numbers, its figures.
static void add_step_words(Composing *c, int step, Telling telling, int level, BlockList *out) {
    const Lesson *lesson = &c->lessons[c->pattern->steps.items[step].chapter];
    const int number = step - lesson->first_step;
    if (telling == TELL_WHOLE || (telling == TELL_USED && number > 0))
        add_prose(c, lesson, number, level, number == 0 ? PROSE_REST : PROSE_ALL, out);
    add_margin(c, step, out);
    add_failed_of_step(c, step, out);
    add_remarks(c, step, out);
}

// Whether a step was made by a recipe that another step used.
static bool is_within(const Composing *c, int step, int other) {
    const Pattern *pattern = c->pattern;
    for (int used = step; used >= 0;
         used = pattern->chapters.items[pattern->steps.items[used].chapter].used_in)
        if (used == other)
            return used != step;
    return false;
}

// Marks stand in the order they were made: whether all a step made itself came before what it used.
static bool draws_first(const Composing *c, int step) {
    bool first = false;
    for (int i = 0; i < c->pattern->drafts.count; i++) {
        const Draft *draft = &c->pattern->drafts.items[i];
        bool drawn = false, used = false;
        for (int k = 0; k < draft->marks.count; k++) {
            const int by = draft->marks.items[k].step;
            if (by == step && used)
                return false;
            drawn = drawn || by == step;
            used = used || (by != step && is_within(c, by, step));
        }
        first = first || (drawn && used);
    }
    return first;
}

// What a step draws by itself it draws on what the recipes it used left, so it stands behind their steps,
// unless it was drawn first.
static void add_figure_and_used(Composing *c, int step, int level, Numbering *numbering, BlockList *out) {
    const bool first = !step_uses(c, step) || draws_first(c, step);
    if (first)
        add_step_figure(c, step, out);
    const int before = out->count;
    add_all_used(c, step, level, numbering, out);
    if (first)
        return;
    if (out->count == before) {
        add_step_figure(c, step, out);
        return;
    }
    BlockList result = {0};
    add_step_figure(c, step, &result);
    if (result.count == 0)
        return;
    add_section(c, out, ROLE_STEP, level, arena_format(c->arena, "then-%d", step),
                say(c, "step.result", c->pattern->steps.items[step].title, NULL), &result);
    out->items[out->count - 1].items[0].number = numbering ? next_number(c, numbering) : NULL;
}

// Nothing where the step is no more than its heading. A step of the recipe itself holds those of what it
// used; a step of these has the next ones beside it.
static void add_step(Composing *c, int step, Telling telling, int level, Numbering *numbering,
                     BlockList *out) {
    BlockList inner = {0}, after = {0};
    level = level > LEVEL_MOST ? LEVEL_MOST : level;
    BookBlock heading = block_heading(level, NULL, span_plain(c, c->pattern->steps.items[step].title));
    heading.authored = true;
    heading.language = c->lessons[c->pattern->steps.items[step].chapter].language;
    add_block(&inner, heading);
    add_step_words(c, step, telling, level, &inner);
    if (inner.count == 1 && !step_is_told(c, step)) {
        mem_free(inner.items);
        return;
    }
    inner.items[0].number = numbering && telling != TELL_AGAIN ? next_number(c, numbering) : NULL;
    const bool own = numbering && !numbering->within;
    Numbering below = {.within = inner.items[0].number};
    if (own || !step_uses(c, step))
        add_figure_and_used(c, step, level + 1, &below, &inner);
    else
        add_figure_and_used(c, step, level, numbering, &after);
    add_holding(c, out, (BookBlock){.kind = BOOK_SECTION, .role = ROLE_STEP, .anchor = c->anchors[step]},
                &inner);
    for (int i = 0; i < after.count; i++)
        add_block(out, after.items[i]);
    mem_free(after.items);
}

static void add_steps(Composing *c, int chapter, Telling telling, int level, Numbering *numbering,
                      BlockList *out) {
    const Lesson *lesson = &c->lessons[chapter];
    add_step_words(c, lesson->first_step, telling, level - 1, out);
    add_figure_and_used(c, lesson->first_step, level, numbering, out);
    for (int i = 1; i < lesson->step_count; i++) {
        const int step = lesson->first_step + i;
        if (step_stands_apart(c, step))
            continue;
        if (telling == TELL_WHOLE || step_is_told(c, step))
            add_step(c, step, telling, level, numbering, out);
    }
}

// Where a cutter begins who has no block yet.
static void add_block_first(Composing *c, BlockList *out) {
    for (int i = 0; i < c->pattern->chapters.count; i++) {
        const Chapter *at = &c->pattern->chapters.items[i];
        if (at->depth == 0 && i != c->last && lesson_is_block(c, i))
            add_block(out, block_paragraph(span_link(c, say(c, "draft.block_first", at->title, NULL),
                                                     c->anchors[c->lessons[i].first_step])));
    }
}

void add_lesson(Composing *c, int chapter, bool block, BlockList *out) {
    BlockList inner = {0};
    const Lesson *lesson = &c->lessons[chapter];
    const Chapter *at = &c->pattern->chapters.items[chapter];
    const bool main = chapter == c->last;
    if (main)
        add_block_first(c, &inner);
    else if (lesson->recipe)
        add_prose(c, lesson, 0, 2, PROSE_SUMMARY, &inner);
    Numbering numbering = {0};
    add_steps(c, chapter, lesson->told_by == chapter ? TELL_WHOLE : TELL_AGAIN, 3, &numbering, &inner);
    add_section(c, out, ROLE_PART, 2, main ? "draft" : c->anchors[lesson->first_step],
                main    ? say(c, "part.draft", NULL)
                : block ? say(c, "part.block", at->title, NULL)
                        : say(c, "part.before", at->title, NULL),
                &inner);
}

// The order of the recipe itself; without one what the recipes it used tell of it.
void add_sewing_steps(Composing *c, BlockList *out) {
    const int own = sewing_step(c);
    const bool ordered = own >= 0 && step_lists_order(c, own);
    if (own >= 0) {
        add_step_words(c, own, TELL_WHOLE, 2, out);
        add_figure_and_used(c, own, 3, NULL, out);
    }
    for (int pass = 0; pass < 2; pass++) // what was asked for first, what it used behind it
        for (int i = 0; i < c->pattern->steps.count; i++) {
            const int chapter = c->pattern->steps.items[i].chapter;
            const Lesson *lesson = &c->lessons[chapter];
            const bool first = chapter == c->last;
            if (i == own || first != (pass == 0) || !step_sews(c, i) || lesson->told_by != chapter ||
                (!lesson->works && chapter != c->last))
                continue;
            if (first || !ordered)
                add_step(c, i, TELL_WHOLE, 3, NULL, out);
            else
                add_failed_of_step(c, i, out);
        }
}
