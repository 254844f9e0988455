// Each picture of a step shows the earlier work round it in grey: in a draft of many thousand marks, the
// nearest of it.
#include <math.h>
#include <stdlib.h>

#include "base/memory.h"
#include "sheet/figure_parts.h"

#define EARLIER_MOST 400        // marks of earlier work in one picture
#define EARLIER_PARTS_MOST 4000 // straight lines their paths are made of
#define CURVE_PARTS 10          // a curve is drawn in about as many where words stand in it

static const Draft *draft_of(const Figure *figure) {
    return &figure->pattern->drafts.items[figure->draft];
}

// New work is what the last recipe of the command line marked, and the recipes it used; what it was built on
// is old.
static int first_new_chapter(const Pattern *pattern) {
    for (int i = pattern->chapters.count - 1; i > 0; i--)
        if (pattern->chapters.items[i].depth == 0)
            return i;
    return 0;
}

static bool step_is_new(const Pattern *pattern, int step, int chapter) {
    return step >= 0 && step < pattern->steps.count && pattern->steps.items[step].chapter >= chapter;
}

bool figure_is_new(const Pattern *pattern, int draft) {
    const Draft *d = &pattern->drafts.items[draft];
    const int chapter = first_new_chapter(pattern);
    for (int i = 0; i < d->marks.count; i++)
        if (step_is_new(pattern, d->marks.items[i].step, chapter))
            return true;
    for (int i = 0; i < d->dimensions.count; i++)
        if (step_is_new(pattern, d->dimensions.items[i].step, chapter))
            return true;
    return false;
}

bool figure_step_is_old(const Pattern *pattern, int step) {
    return step >= 0 && step < pattern->steps.count &&
           !step_is_new(pattern, step, first_new_chapter(pattern));
}

static MarkAge age_of(const Figure *figure, int mark, int chapter) {
    if (figure->options->stage != NULL)
        return stage_age(figure->options->stage, mark);
    const int step = draft_of(figure)->marks.items[mark].step;
    const bool stands_in_step = step >= 0 && step < figure->pattern->steps.count;
    return !stands_in_step || step_is_new(figure->pattern, step, chapter) ? MARK_NEW : MARK_OLD;
}

typedef struct Earlier {
    double away; // from the new work
    int mark, parts;
} Earlier;

static int nearer_first(const void *a, const void *b) {
    const Earlier *x = a, *y = b;
    if (x->away != y->away)
        return x->away < y->away ? -1 : 1;
    return y->mark - x->mark; // of two as near the younger
}

static double box_apart(Box a, Box b) {
    const double x = fmax(0, fmax(a.least.x - b.most.x, b.least.x - a.most.x)),
                 y = fmax(0, fmax(a.least.y - b.most.y, b.least.y - a.most.y));
    return hypot(x, y);
}

static int path_parts(const Path *path) {
    int parts = 0;
    for (int i = 0; i < path->count; i++)
        parts += path->items[i].kind == SEGMENT_LINE ? 1 : CURVE_PARTS;
    return parts;
}

static int parts_of(const Figure *figure, const Mark *mark) {
    if (mark->kind == MARK_PATH)
        return path_parts(&mark->path);
    const Piece *piece = figure_piece(figure->pattern, figure->draft, mark);
    int parts = 0;
    for (int i = 0; piece != NULL && i < piece->edges.count; i++)
        parts += path_parts(&piece->edges.items[i].path);
    return parts;
}

static void leave_far_out(Figure *figure) {
    const Stage *stage = figure->options->stage;
    const Draft *draft = draft_of(figure);
    Earlier *all = mem_new(sizeof *all * (size_t)(draft->marks.count + 1));
    int count = 0, parts = 0;
    for (int i = 0; i < draft->marks.count; i++) {
        if (figure->ages[i] != MARK_OLD)
            continue;
        all[count] = (Earlier){.away = box_apart(stage->of->places[i].box, stage->box),
                               .mark = i,
                               .parts = parts_of(figure, &draft->marks.items[i])};
        parts += all[count++].parts;
    }
    if (count > EARLIER_MOST || parts > EARLIER_PARTS_MOST)
        qsort(all, (size_t)count, sizeof *all, nearer_first);
    parts = 0;
    for (int i = 0; i < count; i++) {
        if (i < EARLIER_MOST && parts + all[i].parts <= EARLIER_PARTS_MOST)
            parts += all[i].parts;
        else
            figure->ages[all[i].mark] = MARK_NOT_YET;
    }
    mem_free(all);
}

void figure_find_ages(Figure *figure) {
    const int count = draft_of(figure)->marks.count, chapter = first_new_chapter(figure->pattern);
    figure->ages = mem_new(sizeof *figure->ages * (size_t)(count + 1));
    for (int i = 0; i < count; i++)
        figure->ages[i] = age_of(figure, i, chapter);
    if (figure->options->stage != NULL)
        leave_far_out(figure);
}
