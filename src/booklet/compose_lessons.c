// A lesson is a recipe that ran, told by its own prose. A recipe that another one used is told inside the
// step that used it, its steps as steps of that one: only those that drew, traced or sewed something, so that
// cases that did not arise are left out. What is used again is not told again: its figures follow, and a link
// to the words. The steps that tell the order of sewing stand apart, under sewing.
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "booklet/anchor.h"
#include "booklet/composing.h"
#include "sheet/picture.h"

#define LEVEL_MOST 6
#define SAME_TITLES 9

static bool draft_works(const Draft *draft, int step) {
    for (int i = 0; i < draft->marks.count; i++)
        if (draft->marks.items[i].step == step)
            return true;
    for (int i = 0; i < draft->dimensions.count; i++)
        if (draft->dimensions.items[i].step == step)
            return true;
    return false;
}

bool step_works(const Composing *c, int step) {
    const Pattern *pattern = c->pattern;
    for (int i = 0; i < pattern->drafts.count; i++)
        if (draft_works(&pattern->drafts.items[i], step))
            return true;
    for (int i = 0; i < pattern->pieces.count; i++)
        if (pattern->pieces.items[i].step == step)
            return true;
    for (int i = 0; i < pattern->seams.count; i++)
        if (pattern->seams.items[i].step == step)
            return true;
    return false;
}

// A title such as "Sew it", in any of the languages: with a numbered list, or at the end.
bool step_sews(const Composing *c, int step) {
    const Step *at = &c->pattern->steps.items[step];
    const Lesson *lesson = &c->lessons[at->chapter];
    const int number = step - lesson->first_step;
    if (number == 0 || !language_any_begins("sewing.titles", at->title))
        return false;
    for (int i = 0; i < lesson->prose_count; i++)
        if (lesson->prose[i].step == number && lesson->prose[i].kind == PROSE_LIST &&
            lesson->prose[i].ordered)
            return true;
    return number == lesson->step_count - 1;
}

bool step_tells_sizes(const Composing *c, int step) {
    const Step *at = &c->pattern->steps.items[step];
    return step > c->lessons[at->chapter].first_step && language_any_begins("sizes.titles", at->title);
}

typedef struct FillContext {
    const Pattern *pattern;
    const Lesson *lesson;
} FillContext;

static const char *fill(void *context, int line, int column) {
    const FillContext *in = context;
    const int first = in->lesson->first_step, behind = first + in->lesson->step_count;
    for (int i = 0; i < in->pattern->filled.count; i++) {
        const Filled *filled = &in->pattern->filled.items[i];
        if (filled->step >= first && filled->step < behind && filled->line == line &&
            filled->column == column)
            return filled->text;
    }
    return NULL;
}

// One and the same text: a recipe that was changed since is another.
static const Recipe *find_recipe(const Composing *c, const Chapter *chapter) {
    const Recipe *recipe = shelf_held(c->shelf, chapter->recipe);
    char hash[32];
    if (recipe)
        snprintf(hash, sizeof hash, "%016llx", (unsigned long long)recipe->hash);
    return recipe && strcmp(hash, chapter->hash) == 0 ? recipe : NULL;
}

static int used_in(const Composing *c, int chapter) {
    return c->pattern->chapters.items[chapter].used_in;
}

static void find_steps(const Pattern *pattern, Lesson *lesson, int chapter) {
    for (int i = 0; i < pattern->steps.count; i++) {
        if (pattern->steps.items[i].chapter != chapter)
            continue;
        if (lesson->step_count++ == 0)
            lesson->first_step = i;
    }
}

static void find_lesson(Composing *c, int chapter) {
    const Pattern *pattern = c->pattern;
    Lesson *lesson = &c->lessons[chapter];
    find_steps(pattern, lesson, chapter);
    lesson->recipe = find_recipe(c, &pattern->chapters.items[chapter]);
    if (lesson->recipe && lesson->step_count != lesson->recipe->step_count + 1)
        lesson->recipe = NULL;
    for (int i = 0; i < lesson->step_count; i++)
        lesson->works = lesson->works || step_works(c, lesson->first_step + i);
}

static bool anchor_taken(const Composing *c, const char *anchor) {
    static const char *const others[] = {"contents", "draft",   "cutting", "sewing",
                                         "proofs",   "version", "ground"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (strcmp(anchor, others[i]) == 0)
            return true;
    for (int i = 0; i < c->pattern->steps.count; i++)
        if (c->anchors[i] && strcmp(c->anchors[i], anchor) == 0)
            return true;
    return false;
}

// The step that tells how the recipe that was asked for is sewn: the first of them, or -1.
static int sewing_step(const Composing *c) {
    const Lesson *lesson = &c->lessons[c->last];
    for (int i = lesson->first_step; i < lesson->first_step + lesson->step_count; i++)
        if (step_sews(c, i))
            return i;
    return -1;
}

static void name_anchors(Composing *c) {
    for (int i = 0; i < c->pattern->steps.count; i++) {
        char own[ANCHOR_MAX];
        anchor_of(c->pattern->steps.items[i].title, own);
        const char *anchor = *own ? arena_text(c->arena, own) : arena_format(c->arena, "step-%d", i);
        // Few have the same title; where many do, the number of the step keeps the search short.
        for (int number = 2; anchor_taken(c, anchor); number += number < SAME_TITLES ? 1 : i + 1)
            anchor = arena_format(c->arena, "%s-%d", *own ? own : "step", number);
        c->anchors[i] = anchor;
    }
    if (sewing_step(c) >= 0)
        c->anchors[sewing_step(c)] = "sewing"; // told under that heading
}

// The prose of a recipe is read once, with the values of the lesson that tells it.
static void read_lesson(Composing *c, int chapter) {
    Lesson *lesson = &c->lessons[chapter];
    FillContext context = {.pattern = c->pattern, .lesson = lesson};
    if (lesson->recipe && lesson->told_by == chapter)
        lesson->prose_count = prose_read(lesson->recipe, fill, &context, c->arena, &lesson->prose);
}

void lessons_find(Composing *c) {
    const int count = c->pattern->chapters.count;
    c->lessons = arena_take(c->arena, sizeof *c->lessons * (size_t)(count + 1));
    c->anchors = arena_take(c->arena, sizeof *c->anchors * (size_t)(c->pattern->steps.count + 1));
    c->last = -1;
    for (int i = 0; i < count; i++) {
        find_lesson(c, i);
        if (c->pattern->chapters.items[i].depth == 0)
            c->last = i;
    }
    for (int i = count - 1; i >= 0; i--) // those used stand behind those that use them
        if (used_in(c, i) >= 0 && c->lessons[i].works)
            c->lessons[c->pattern->steps.items[used_in(c, i)].chapter].works = true;
    for (int i = 0; i < count; i++) {
        Lesson *lesson = &c->lessons[i];
        lesson->told_by = i;
        for (int k = 0; k < i && lesson->told_by == i && i != c->last; k++)
            if (c->lessons[k].works && c->lessons[k].recipe && c->lessons[k].recipe == lesson->recipe)
                lesson->told_by = k;
        read_lesson(c, i);
    }
    name_anchors(c);
}

void lessons_stated(Composing *c) {
    for (int i = 0; i < c->pattern->chapters.count; i++) {
        Lesson *lesson = &c->lessons[i];
        const char *tag = lesson->recipe ? prose_stated(lesson->recipe, "language", c->arena) : NULL;
        const char *code = lesson->recipe ? prose_stated(lesson->recipe, "code", c->arena) : NULL;
        lesson->shows_code = c->options->with_code || (code && strcmp(code, "shown") == 0);
        tag = tag && language_tag_is_sound(tag) ? tag : "en";
        if (i == c->last)
            c->book->prose_language = tag;
        lesson->language = tag;
    }
    for (int i = 0; i < c->pattern->chapters.count; i++)
        if (strcmp(c->lessons[i].language, c->book->prose_language) == 0)
            c->lessons[i].language = NULL;
}

// The names of what a step marked on a draft, up to six.
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
    if (count > 8)
        buffer_add_text(&text, ", \u2026");
    return keep(c, &text);
}

static void add_step_figure(Composing *c, int step, BlockList *out) {
    const Pattern *pattern = c->pattern;
    int count = 0;
    for (int i = 0; i < pattern->drafts.count; i++)
        count += picture_has_step(pattern, step, i);
    if (count == 0)
        return;
    BookPicture *picture = add_figure(c, out, count, (SpanList){0});
    for (int i = 0; i < pattern->drafts.count; i++) {
        const Draft *draft = &pattern->drafts.items[i];
        if (!picture_has_step(pattern, step, i))
            continue;
        const char *names = marked(c, draft, step);
        *picture++ = (BookPicture){.kind = BOOK_PICTURE_STEP,
                                   .step = step,
                                   .draft = i,
                                   .alt = *names ? say(c, "figure.step_alt", draft->name, names, NULL)
                                                 : say(c, "figure.step_alt_plain", draft->name, NULL)};
    }
}

// The notes in the margin that a step made, in one line.
static void add_margin(Composing *c, int step, BlockList *out) {
    const Pattern *pattern = c->pattern;
    struct {
        Span *items;
        int count, capacity;
    } spans = {0};
    for (int i = 0; i < pattern->notes.count; i++) {
        const Note *note = &pattern->notes.items[i];
        if (note->step != step)
            continue;
        const char *name = say_name(c, note->name);
        const char *begins = spans.count ? ";" : say(c, "step.margin", NULL);
        Span before = {.style = SPAN_EMPHASIS, .text = arena_format(c->arena, "%s %s", begins, name)};
        Span between = {.text = " "};
        Span value = {.style = SPAN_VALUE, .text = say_value(c, note->measure, note->value, note->text)};
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

static bool uses_works(const Composing *c, int step) {
    for (int i = 0; i < c->pattern->chapters.count; i++)
        if (used_in(c, i) == step && c->lessons[i].works)
            return true;
    return false;
}

static bool step_is_told(const Composing *c, int step) {
    return step_works(c, step) || uses_works(c, step);
}

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
        if (used_in(c, i) == step && c->lessons[i].works)
            add_used(c, i, level, numbering, out);
}

// What belongs to a step: its prose, what to mind, its numbers, its figures.
static void add_step_body(Composing *c, int step, Telling telling, int level, BlockList *out) {
    const Lesson *lesson = &c->lessons[c->pattern->steps.items[step].chapter];
    const int number = step - lesson->first_step;
    if (telling == TELL_WHOLE || (telling == TELL_USED && number > 0))
        add_prose(c, lesson, number, level, number == 0 ? PROSE_REST : PROSE_ALL, out);
    add_margin(c, step, out);
    add_failed_of_step(c, step, out);
    add_remarks(c, step, out);
    add_step_figure(c, step, out);
}

// Nothing where the step is no more than its heading.
static void add_step(Composing *c, int step, Telling telling, int level, Numbering *numbering,
                     BlockList *out) {
    BlockList inner = {0};
    level = level > LEVEL_MOST ? LEVEL_MOST : level;
    BookBlock heading = block_heading(level, NULL, span_plain(c, c->pattern->steps.items[step].title));
    heading.authored = true;
    heading.language = c->lessons[c->pattern->steps.items[step].chapter].language;
    add_block(&inner, heading);
    add_step_body(c, step, telling, level, &inner);
    const bool own = numbering && !numbering->within;
    if (inner.count == 1 && !uses_works(c, step)) {
        mem_free(inner.items);
        return;
    }
    inner.items[0].number = numbering && telling != TELL_AGAIN ? next_number(c, numbering) : NULL;
    const BookBlock section = {.kind = BOOK_SECTION, .role = ROLE_STEP, .anchor = c->anchors[step]};
    if (own) { // holds the steps of what it used
        Numbering below = {.within = inner.items[0].number};
        add_all_used(c, step, level + 1, &below, &inner);
        add_holding(c, out, section, &inner);
    } else {
        add_holding(c, out, section, &inner);
        add_all_used(c, step, level, numbering, out);
    }
}

static void add_steps(Composing *c, int chapter, Telling telling, int level, Numbering *numbering,
                      BlockList *out) {
    const Lesson *lesson = &c->lessons[chapter];
    add_step_body(c, lesson->first_step, telling, level - 1, out);
    add_all_used(c, lesson->first_step, level, numbering, out);
    for (int i = 1; i < lesson->step_count; i++) {
        const int step = lesson->first_step + i;
        if (step_sews(c, step) || step_tells_sizes(c, step))
            continue;
        if (telling == TELL_WHOLE || step_is_told(c, step))
            add_step(c, step, telling, level, numbering, out);
    }
}

void add_lesson(Composing *c, int chapter, bool block, BlockList *out) {
    BlockList inner = {0};
    const Lesson *lesson = &c->lessons[chapter];
    const Chapter *at = &c->pattern->chapters.items[chapter];
    const bool main = chapter == c->last;
    if (!main && lesson->recipe)
        add_prose(c, lesson, 0, 2, PROSE_SUMMARY, &inner);
    Numbering numbering = {0};
    add_steps(c, chapter, lesson->told_by == chapter ? TELL_WHOLE : TELL_AGAIN, 3, &numbering, &inner);
    add_section(c, out, ROLE_PART, 2, main ? "draft" : c->anchors[lesson->first_step],
                main    ? say(c, "part.draft", NULL)
                : block ? say(c, "part.block", at->title, NULL)
                        : say(c, "part.before", at->title, NULL),
                &inner);
}

void add_sewing_steps(Composing *c, BlockList *out) {
    const int own = sewing_step(c);
    if (own >= 0) {
        add_step_body(c, own, TELL_WHOLE, 2, out);
        add_all_used(c, own, 3, NULL, out);
    }
    for (int pass = 0; pass < 2; pass++) // what was asked for first, what it used behind it
        for (int i = 0; i < c->pattern->steps.count; i++) {
            const int chapter = c->pattern->steps.items[i].chapter;
            const Lesson *lesson = &c->lessons[chapter];
            const bool first = chapter == c->last;
            if (i == own || first != (pass == 0) || !step_sews(c, i) || lesson->told_by != chapter ||
                (!lesson->works && chapter != c->last))
                continue;
            add_step(c, i, TELL_WHOLE, 3, NULL, out);
        }
}
