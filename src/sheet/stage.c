#include "sheet/stage.h"

#include <string.h>

#include "sheet/figure.h"

static const Draft *draft_of(const Stage *stage) {
    return &stage->pattern->drafts.items[stage->draft];
}

bool stage_works(const Pattern *pattern, int step, int draft) {
    const Draft *d = &pattern->drafts.items[draft];
    const Stage stage = {.pattern = pattern, .draft = draft, .step = step, .shown = d->marks.count};
    for (int i = 0; i < d->marks.count; i++)
        if (d->marks.items[i].step == step &&
            (d->marks.items[i].kind != MARK_PIECE || figure_piece(pattern, draft, &d->marks.items[i])))
            return true;
    for (int i = 0; i < d->dimensions.count; i++)
        if (stage_measures(&stage, i))
            return true;
    return false;
}

// Marks stand in the order they were made in, across the recipes that were used on the way, so all that
// stand before the last one of the step are there. A step that only measures comes behind the marks of the
// steps before it.
void stage_init(Stage *stage, const Pattern *pattern, int step, int draft) {
    *stage = (Stage){.pattern = pattern, .draft = draft, .step = step};
    const Draft *d = draft_of(stage);
    for (int i = 0; i < d->marks.count; i++)
        if (d->marks.items[i].step == step)
            stage->shown = i + 1;
    for (int i = 0; i < d->marks.count && stage->shown == 0; i++)
        if (d->marks.items[d->marks.count - 1 - i].step <= step)
            stage->shown = d->marks.count - i;
    if (stage->shown == 0)
        stage->shown = d->marks.count;
}

static bool same_path(const Path *a, const Path *b) {
    if (a->count != b->count)
        return false;
    for (int i = 0; i < a->count; i++)
        if (!point_same(a->items[i].p0, b->items[i].p0) || !point_same(a->items[i].p1, b->items[i].p1) ||
            !point_same(a->items[i].p2, b->items[i].p2) || !point_same(a->items[i].p3, b->items[i].p3))
            return false;
    return true;
}

static bool is_carried(const Stage *stage, const Mark *mark) {
    for (int i = 0; i < stage->draft; i++) {
        const Mark *old = mark->name ? draft_find_mark(&stage->pattern->drafts.items[i], mark->name) : NULL;
        if (old == NULL || old->kind != mark->kind)
            continue;
        if (mark->kind == MARK_POINT ? point_same(old->point, mark->point)
                                     : mark->kind == MARK_PATH && same_path(&old->path, &mark->path))
            return true;
    }
    return false;
}

MarkAge stage_age(const Stage *stage, int mark) {
    const Draft *d = draft_of(stage);
    if (mark >= stage->shown)
        return MARK_NOT_YET;
    if (d->marks.items[mark].step != stage->step || is_carried(stage, &d->marks.items[mark]))
        return MARK_OLD;
    return MARK_NEW;
}

bool stage_measures(const Stage *stage, int dimension) {
    const Dimension *d = &draft_of(stage)->dimensions.items[dimension];
    return d->step == stage->step && point_distance(d->from, d->to) > POINT_SAME_MM;
}

static Box mark_box(const Stage *stage, const Mark *mark, Box limits) {
    if (mark->kind == MARK_POINT)
        return (Box){mark->point, mark->point};
    Point from, to;
    bool cut[2];
    if (mark->kind == MARK_PATH && mark->path.count > 0)
        return figure_cut_short(limits, &mark->path, &from, &to, cut) ? box_add((Box){from, from}, to)
                                                                      : path_box(&mark->path);
    Box box = box_empty();
    const Piece *piece = figure_piece(stage->pattern, stage->draft, mark);
    for (int k = 0; piece != NULL && k < piece->edges.count; k++)
        box = box_join(box, path_box(&piece->edges.items[k].path));
    return box;
}

static Box box_of(const Stage *stage, MarkAge least) {
    const Draft *d = draft_of(stage);
    const Box limits = figure_limits(stage->pattern, stage->draft);
    Box box = box_empty();
    for (int i = 0; i < d->marks.count; i++)
        if (stage_age(stage, i) >= least)
            box = box_join(box, mark_box(stage, &d->marks.items[i], limits));
    for (int i = 0; i < d->dimensions.count; i++)
        if (stage_measures(stage, i))
            box = box_add(box_add(box, d->dimensions.items[i].from), d->dimensions.items[i].to);
    return box;
}

Box stage_box(const Stage *stage) {
    Box box = box_of(stage, MARK_NEW);
    Line line;
    for (int i = 0; i < stage->pattern->notes.count; i++)
        if (stage_noted_line(stage, i, &line))
            box = box_add(box_add(box, line.from), line.to);
    return box_is_empty(box) ? stage_all(stage) : box;
}

Box stage_all(const Stage *stage) {
    return box_of(stage, MARK_OLD);
}
