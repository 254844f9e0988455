// A lesson is a recipe that ran, told by its own prose: read once, with the values of its run, and its steps
// named so that a link leads to them.
#include <stdio.h>
#include <string.h>

#include "booklet/anchor.h"
#include "booklet/composing.h"

#define SAME_TITLES 9

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
    if (anchor_is_own(anchor))
        return true;
    for (int i = 0; i < c->pattern->steps.count; i++)
        if (c->anchors[i] && strcmp(c->anchors[i], anchor) == 0)
            return true;
    return false;
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
    lesson->titles = arena_take(c->arena, sizeof *lesson->titles * (size_t)(lesson->step_count + 1));
    for (int i = 0; i < lesson->step_count; i++) {
        char title[ANCHOR_MAX];
        anchor_of(c->pattern->steps.items[lesson->first_step + i].title, title);
        lesson->titles[i] = arena_text(c->arena, title);
    }
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
        if (c->pattern->chapters.items[i].used_in >= 0 && c->lessons[i].works)
            c->lessons[c->pattern->steps.items[c->pattern->chapters.items[i].used_in].chapter].works = true;
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

static void note_unknown(Composing *c, const char *tag) {
    buffer_add_format(c->notes, "no words for the language '%s': there are ", tag);
    for (int i = 0; language_at(i); i++)
        buffer_add_format(c->notes, "%s%s", i ? ", " : "", language_tag(language_at(i)));
    buffer_add_text(c->notes, "\n");
}

void lessons_stated(Composing *c) {
    for (int i = 0; i < c->pattern->chapters.count; i++) {
        Lesson *lesson = &c->lessons[i];
        const char *tag = lesson->recipe ? prose_stated(lesson->recipe, "language", c->arena) : NULL;
        const char *code = lesson->recipe ? prose_stated(lesson->recipe, "code", c->arena) : NULL;
        lesson->shows_code = c->options->with_code || (code && strcmp(code, "shown") == 0);
        tag = tag && language_tag_is_sound(tag) ? tag : "en";
        if (i == c->last) {
            c->book->prose_language = tag;
            if (!c->options->language && !language_find(tag))
                note_unknown(c, tag);
        }
        lesson->language = tag;
    }
    for (int i = 0; i < c->pattern->chapters.count; i++)
        if (strcmp(c->lessons[i].language, c->book->prose_language) == 0)
            c->lessons[i].language = NULL;
}
