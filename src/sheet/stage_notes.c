// The notes of a step that are measures of its drawing. A note is a number with a name and no place; a place
// is found where the step drew one line of that length, or one new point stands at that distance from one
// other and from no second one: there a hand measured it off.
#include <stdlib.h>

#include "base/memory.h"
#include "sheet/stage.h"

#define SAME_LENGTH_MM 0.005 // a note and a line that are one and the same measure
#define PAIRS_MOST 20000     // of points; among more, a length has no place of its own

static const Draft *draft_of(const Stage *stage) {
    return &stage->of->pattern->drafts.items[stage->of->draft];
}

static int note_order(const void *a, const void *b) {
    const Note *x = *(const Note *const *)a, *y = *(const Note *const *)b;
    if (x->value != y->value)
        return x->value < y->value ? -1 : 1;
    return x < y ? -1 : x > y;
}

// The first note of that length or longer.
static int note_from(const Stage *stage, double length) {
    int low = 0, high = stage->notes.count;
    while (low < high) {
        const int middle = (low + high) / 2;
        if (stage->notes.items[middle]->value < length)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

// The one note of the step with that length, or NULL; NULL too where there are several.
static const Note *note_of(const Stage *stage, double length) {
    const int at = note_from(stage, length - SAME_LENGTH_MM);
    const Note *const *items = stage->notes.items;
    if (at == stage->notes.count || items[at]->value - length > SAME_LENGTH_MM)
        return NULL;
    const bool several = at + 1 < stage->notes.count && items[at + 1]->value - length <= SAME_LENGTH_MM;
    return several ? NULL : items[at];
}

// How often a length is found: drawn as a line already, or more than once, is no place for it.
typedef struct Counts {
    int *found;
    bool *drawn;
    Line *lines; // where it was found last
} Counts;

static int line_order(const void *a, const void *b) {
    const Note *x = ((const StageLine *)a)->note, *y = ((const StageLine *)b)->note;
    return x < y ? -1 : x > y;
}

static void count_drawn(const Stage *stage, const Counts *counts, double length) {
    for (int k = note_from(stage, length - SAME_LENGTH_MM);
         k < stage->notes.count && stage->notes.items[k]->value - length <= SAME_LENGTH_MM; k++)
        counts->drawn[k] = true;
}

static void count_all_drawn(const Stage *stage, const Counts *counts) {
    const Draft *draft = draft_of(stage);
    for (int i = 0; i < stage->shown; i++) {
        const Mark *mark = &draft->marks.items[i];
        if (mark->kind == MARK_PATH && mark->path.count > 0 && stage_age(stage, i) == MARK_NEW)
            count_drawn(stage, counts, path_length(&mark->path));
    }
    for (int i = 0; i < draft->dimensions.count; i++)
        if (stage_measures(stage, i))
            count_drawn(stage, counts,
                        point_distance(draft->dimensions.items[i].from, draft->dimensions.items[i].to));
}

static void count_pair(const Stage *stage, const Counts *counts, Point other, Point fresh) {
    const double length = point_distance(fresh, other);
    for (int k = note_from(stage, length - SAME_LENGTH_MM);
         k < stage->notes.count && stage->notes.items[k]->value - length <= SAME_LENGTH_MM; k++) {
        counts->lines[k] = (Line){other, fresh};
        counts->found[k]++;
    }
}

// Each new point with each that is there and not younger.
static void count_pairs(const Stage *stage, const Counts *counts) {
    const Draft *draft = draft_of(stage);
    double points = 0, fresh_points = 0;
    for (int i = 0; i < stage->shown; i++)
        if (draft->marks.items[i].kind == MARK_POINT) {
            points++;
            fresh_points += stage_age(stage, i) == MARK_NEW;
        }
    if (points * fresh_points > PAIRS_MOST)
        return;
    for (int i = 0; i < stage->shown; i++) {
        const Mark *fresh = &draft->marks.items[i];
        if (fresh->kind != MARK_POINT || stage_age(stage, i) != MARK_NEW)
            continue;
        for (int k = 0; k < stage->shown; k++)
            if (k != i && draft->marks.items[k].kind == MARK_POINT &&
                (stage_age(stage, k) == MARK_OLD || k < i))
                count_pair(stage, counts, draft->marks.items[k].point, fresh->point);
    }
}

static void find_lines(Stage *stage) {
    const size_t size = (size_t)stage->notes.count;
    const Counts counts = {.found = mem_new(sizeof *counts.found * size),
                           .drawn = mem_new(sizeof *counts.drawn * size),
                           .lines = mem_new(sizeof *counts.lines * size)};
    count_all_drawn(stage, &counts);
    count_pairs(stage, &counts);
    for (int k = 0; k < stage->notes.count; k++) {
        const Note *note = stage->notes.items[k];
        if (counts.found[k] == 1 && !counts.drawn[k] && note_of(stage, note->value) == note)
            ARRAY_ADD(&stage->lines, ((StageLine){note, counts.lines[k]}));
    }
    if (stage->lines.count > 0)
        qsort(stage->lines.items, (size_t)stage->lines.count, sizeof *stage->lines.items, line_order);
    mem_free(counts.found);
    mem_free(counts.drawn);
    mem_free(counts.lines);
}

void stages_find_notes(Stages *stages, const Names *names) {
    const Pattern *pattern = stages->pattern;
    for (int i = 0; i < pattern->notes.count; i++) {
        const Note *note = &pattern->notes.items[i];
        Stage *stage = (Stage *)stages_at(stages, note->step); // of this list
        if (stage != NULL && note->measure == MEASURE_LENGTH && note->value > POINT_SAME_MM &&
            !names_note_elsewhere(names, i, stages->draft))
            ARRAY_ADD(&stage->notes, note);
    }
    for (int i = 0; i < stages->list.count; i++) {
        Stage *stage = &stages->list.items[i];
        if (stage->notes.count == 0)
            continue;
        qsort(stage->notes.items, (size_t)stage->notes.count, sizeof *stage->notes.items, note_order);
        find_lines(stage);
    }
}
