// What a step of a lesson is: whether it drew or reckoned something and so is told, and whether it stands
// apart, told under sewing, cutting or on the front page.
#include "booklet/composing.h"

static bool draft_works(const Draft *draft, int step) {
    for (int i = 0; i < draft->marks.count; i++)
        if (draft->marks.items[i].step == step)
            return true;
    for (int i = 0; i < draft->dimensions.count; i++)
        if (draft->dimensions.items[i].step == step)
            return true;
    return false;
}

bool lesson_is_block(const Composing *c, int chapter) {
    const Lesson *lesson = &c->lessons[chapter];
    return chapter != c->last && lesson->recipe && !recipe_needs(lesson->recipe, "bodice");
}

// A number that was worked out, as a hand would on paper.
static bool step_reckons(const Pattern *pattern, int step) {
    for (int i = 0; i < pattern->notes.count; i++)
        if (pattern->notes.items[i].step == step && pattern->notes.items[i].measure != MEASURE_TEXT)
            return true;
    return false;
}

bool step_works(const Composing *c, int step) {
    const Pattern *pattern = c->pattern;
    if (step_reckons(pattern, step))
        return true;
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

bool step_is_titled(const Composing *c, int step, const char *titles) {
    const Step *at = &c->pattern->steps.items[step];
    return step > c->lessons[at->chapter].first_step && language_any_begins(titles, at->title);
}

bool step_lists_order(const Composing *c, int step) {
    const Lesson *lesson = &c->lessons[c->pattern->steps.items[step].chapter];
    for (int i = 0; i < lesson->prose_count; i++)
        if (lesson->prose[i].step == step - lesson->first_step && lesson->prose[i].kind == PROSE_LIST &&
            lesson->prose[i].ordered)
            return true;
    return false;
}

// A title such as "Sew it", in any of the languages: with a numbered list, or at the end.
bool step_sews(const Composing *c, int step) {
    const Step *at = &c->pattern->steps.items[step];
    const Lesson *lesson = &c->lessons[at->chapter];
    return step_is_titled(c, step, "sewing.titles") &&
           (step_lists_order(c, step) || step == lesson->first_step + lesson->step_count - 1);
}

bool step_stands_apart(const Composing *c, int step) {
    return step_sews(c, step) || step_is_titled(c, step, "sizes.titles") ||
           step_is_titled(c, step, "buying.titles");
}

bool step_uses(const Composing *c, int step) {
    for (int i = 0; i < c->pattern->chapters.count; i++)
        if (c->pattern->chapters.items[i].used_in == step && c->lessons[i].works)
            return true;
    return false;
}

bool step_is_told(const Composing *c, int step) {
    return step_works(c, step) || step_uses(c, step);
}

// The step that tells how the recipe that was asked for is sewn: the first of them, or -1.
int sewing_step(const Composing *c) {
    const Lesson *lesson = &c->lessons[c->last];
    for (int i = lesson->first_step; i < lesson->first_step + lesson->step_count; i++)
        if (step_sews(c, i))
            return i;
    return -1;
}
