// The notes of a step that are measures of its drawing. A note is a number with a name and no place; a place
// is found where the step drew one line of that length, or one new point stands at that distance from one
// other and from no second one: there a hand measured it off.
#include <math.h>
#include <string.h>
#include <strings.h>

#include "sheet/stage.h"

#define SAME_LENGTH_MM 0.005 // a note and a line that are one and the same measure

static const Draft *draft_of(const Stage *stage) {
    return &stage->pattern->drafts.items[stage->draft];
}

static bool holds_first_word(const char *name, const char *of) {
    const size_t length = strcspn(of, " ,");
    for (; length > 0 && *name != '\0'; name++)
        if (strncasecmp(name, of, length) == 0)
            return true;
    return false;
}

// A note named after another draft, "back along" where this one is the front.
static bool is_noted_elsewhere(const Stage *stage, const Note *note) {
    const Pattern *pattern = stage->pattern;
    if (holds_first_word(note->name, draft_of(stage)->name))
        return false;
    for (int i = 0; i < pattern->drafts.count; i++)
        if (holds_first_word(note->name, pattern->drafts.items[i].name))
            return true;
    return false;
}

static bool is_noted_here(const Stage *stage, const Note *note) {
    return note->step == stage->step && note->measure == MEASURE_LENGTH && note->value > POINT_SAME_MM &&
           !is_noted_elsewhere(stage, note);
}

const Note *stage_note_of(const Stage *stage, double length) {
    const Note *found = NULL;
    for (int i = 0; i < stage->pattern->notes.count; i++) {
        const Note *note = &stage->pattern->notes.items[i];
        if (!is_noted_here(stage, note) || fabs(note->value - length) > SAME_LENGTH_MM)
            continue;
        if (found != NULL)
            return NULL;
        found = note;
    }
    return found;
}

static bool is_drawn(const Stage *stage, double length) {
    const Draft *d = draft_of(stage);
    for (int i = 0; i < d->marks.count; i++) {
        const Mark *mark = &d->marks.items[i];
        if (mark->kind == MARK_PATH && mark->path.count > 0 && stage_age(stage, i) == MARK_NEW &&
            fabs(path_length(&mark->path) - length) <= SAME_LENGTH_MM)
            return true;
    }
    for (int i = 0; i < d->dimensions.count; i++)
        if (stage_measures(stage, i) &&
            fabs(point_distance(d->dimensions.items[i].from, d->dimensions.items[i].to) - length) <=
                SAME_LENGTH_MM)
            return true;
    return false;
}

bool stage_noted_line(const Stage *stage, int index, Line *out) {
    const Note *note = &stage->pattern->notes.items[index];
    const Draft *d = draft_of(stage);
    if (!is_noted_here(stage, note) || stage_note_of(stage, note->value) != note ||
        is_drawn(stage, note->value))
        return false;
    int count = 0;
    for (int i = 0; i < d->marks.count; i++)
        for (int k = 0; k < d->marks.count && d->marks.items[i].kind == MARK_POINT; k++) {
            const Mark *fresh = &d->marks.items[i], *other = &d->marks.items[k];
            if (i == k || other->kind != MARK_POINT ||
                fabs(point_distance(fresh->point, other->point) - note->value) > SAME_LENGTH_MM)
                continue;
            const MarkAge age = stage_age(stage, k);
            if (stage_age(stage, i) != MARK_NEW || age == MARK_NOT_YET || (age == MARK_NEW && k > i))
                continue;
            *out = (Line){other->point, fresh->point};
            count++;
        }
    return count == 1;
}
