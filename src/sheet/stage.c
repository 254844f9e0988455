#include "sheet/stage.h"

#include <math.h>

#include "base/memory.h"
#include "sheet/figure.h"

static const Draft *draft_of(const Stages *stages) {
    return &stages->pattern->drafts.items[stages->draft];
}

static Box mark_box(const Stages *stages, const Mark *mark) {
    if (mark->kind == MARK_POINT)
        return (Box){mark->point, mark->point};
    Point from, to;
    bool cut[2];
    if (mark->kind == MARK_PATH && mark->path.count > 0)
        return figure_cut_short(stages->limits, &mark->path, &from, &to, cut) ? box_add((Box){from, from}, to)
                                                                              : path_box(&mark->path);
    Box box = box_empty();
    const Piece *piece = figure_piece(stages->pattern, stages->draft, mark);
    for (int k = 0; piece != NULL && k < piece->edges.count; k++)
        box = box_join(box, path_box(&piece->edges.items[k].path));
    return box;
}

static bool is_measure(const Dimension *dimension) {
    return point_distance(dimension->from, dimension->to) > POINT_SAME_MM;
}

// Marks stand in the order they were made in, across the recipes that were used on the way, so all that
// stand before the last one of the step are there. A step that only measures comes behind the marks of the
// steps before it.
static int marks_shown(const Draft *draft, int step, int last) {
    for (int i = draft->marks.count; last == 0 && i > 0; i--)
        if (draft->marks.items[i - 1].step <= step)
            last = i;
    return last > 0 ? last : draft->marks.count;
}

// What a step did on the draft, while the stages are found.
typedef struct Doing {
    bool works;
    int last; // of its marks, and one more
} Doing;

static void find_stages(Stages *stages) {
    const Draft *draft = draft_of(stages);
    const int steps = stages->pattern->steps.count;
    Doing *doing = mem_new(sizeof *doing * (size_t)(steps + 1));
    for (int i = 0; i < draft->marks.count; i++) {
        const Mark *mark = &draft->marks.items[i];
        if (mark->step < 0 || mark->step >= steps)
            continue;
        doing[mark->step].last = i + 1;
        if (mark->kind != MARK_PIECE || figure_piece(stages->pattern, stages->draft, mark) != NULL)
            doing[mark->step].works = true;
    }
    for (int i = 0; i < draft->dimensions.count; i++) {
        const Dimension *dimension = &draft->dimensions.items[i];
        if (dimension->step >= 0 && dimension->step < steps && is_measure(dimension))
            doing[dimension->step].works = true;
    }
    for (int step = 0; step < steps; step++)
        if (doing[step].works)
            ARRAY_ADD(&stages->list, ((Stage){.of = stages,
                                              .step = step,
                                              .shown = marks_shown(draft, step, doing[step].last),
                                              .box = box_empty()}));
    mem_free(doing);
}

static Stage *stage_at(const Stages *stages, int step) {
    int low = 0, high = stages->list.count;
    while (low < high) {
        const int middle = (low + high) / 2;
        if (stages->list.items[middle].step < step)
            low = middle + 1;
        else
            high = middle;
    }
    return low < stages->list.count && stages->list.items[low].step == step ? &stages->list.items[low] : NULL;
}

const Stage *stages_at(const Stages *stages, int step) {
    return stage_at(stages, step);
}

static void find_boxes(Stages *stages) {
    const Draft *draft = draft_of(stages);
    for (int i = 0; i < draft->marks.count; i++) {
        Stage *stage = stage_at(stages, draft->marks.items[i].step);
        if (stage != NULL && !stages->places[i].carried)
            stage->box = box_join(stage->box, stages->places[i].box);
    }
    for (int i = 0; i < draft->dimensions.count; i++) {
        const Dimension *dimension = &draft->dimensions.items[i];
        Stage *stage = stage_at(stages, dimension->step);
        if (stage != NULL && is_measure(dimension))
            stage->box = box_add(box_add(stage->box, dimension->from), dimension->to);
    }
    for (int i = 0; i < stages->list.count; i++) {
        Stage *stage = &stages->list.items[i];
        for (int k = 0; k < stage->lines.count; k++)
            stage->box =
                box_add(box_add(stage->box, stage->lines.items[k].line.from), stage->lines.items[k].line.to);
        if (box_is_empty(stage->box))
            stage->box = stage_all(stage);
    }
}

#define CONTEXT_POINTS 2
#define CONTEXT_REACH_MM 150.0 // or as far as the work is large
#define CONTEXTS_MOST 2000000  // marks looked at; in more the work stands for itself

// Points nearest to the work, none of them twice.
typedef struct Nearest {
    Point at[CONTEXT_POINTS];
    double away[CONTEXT_POINTS];
    int count;
} Nearest;

static void nearest_add(Nearest *nearest, Point at, double away) {
    for (int i = 0; i < nearest->count; i++)
        if (point_same(nearest->at[i], at))
            return;
    int place = nearest->count;
    while (place > 0 && nearest->away[place - 1] > away)
        place--;
    if (place == CONTEXT_POINTS)
        return;
    nearest->count += nearest->count < CONTEXT_POINTS ? 1 : 0;
    for (int i = nearest->count - 1; i > place; i--) {
        nearest->at[i] = nearest->at[i - 1];
        nearest->away[i] = nearest->away[i - 1];
    }
    nearest->at[place] = at;
    nearest->away[place] = away;
}

static void add_old(const Stage *stage, MarkKind kind, Nearest *nearest) {
    const Draft *draft = draft_of(stage->of);
    const Box limits = stage->of->limits;
    for (int i = 0; i < stage->shown; i++) {
        const Mark *mark = &draft->marks.items[i];
        if (mark->kind != kind || stage_age(stage, i) != MARK_OLD ||
            (kind == MARK_PATH && mark->path.count == 0))
            continue;
        const Point ends[2] = {kind == MARK_POINT ? mark->point : path_first(&mark->path),
                               kind == MARK_POINT ? mark->point : path_last(&mark->path)};
        for (int k = 0; k < 2; k++)
            if (box_distance(limits, ends[k]) <= 0)
                nearest_add(nearest, ends[k], box_distance(stage->box, ends[k]));
    }
}

static void find_contexts(Stages *stages) {
    const Draft *draft = draft_of(stages);
    const bool few = (double)stages->list.count * draft->marks.count <= CONTEXTS_MOST;
    for (int i = 0; i < stages->list.count; i++) {
        Stage *stage = &stages->list.items[i];
        stage->context = stage->box;
        if (!few || box_is_empty(stage->box))
            continue;
        Nearest nearest = {.count = 0};
        add_old(stage, MARK_POINT, &nearest);
        if (nearest.count < CONTEXT_POINTS)
            add_old(stage, MARK_PATH, &nearest);
        const double reach = fmax(CONTEXT_REACH_MM, fmax(stage->box.most.x - stage->box.least.x,
                                                         stage->box.most.y - stage->box.least.y));
        for (int k = 0; k < nearest.count; k++)
            if (nearest.away[k] <= reach)
                stage->context = box_add(stage->context, nearest.at[k]);
        for (int k = 0; k < stage->shown; k++)
            stage->named += draft->marks.items[k].name != NULL && stage_age(stage, k) == MARK_NEW;
    }
}

void stages_init(Stages *stages, const Names *names, int draft) {
    *stages = (Stages){.pattern = names->pattern, .draft = draft};
    Fault fault;
    fault_init(&fault);
    stages->drawable = figure_check(names->pattern, draft, &fault);
    fault_finish(&fault);
    stages->limits = figure_limits(names->pattern, draft);
    edge_ends_init(&stages->edges, names->pattern, draft);
    const Draft *d = draft_of(stages);
    stages->places = mem_new(sizeof *stages->places * (size_t)(d->marks.count + 1));
    for (int i = 0; i < d->marks.count; i++)
        stages->places[i] = (StagePlace){.box = mark_box(stages, &d->marks.items[i]),
                                         .carried = names_carried(names, draft, i)};
    find_stages(stages);
    stages_find_notes(stages, names);
    find_boxes(stages);
    find_contexts(stages);
}

void stages_finish(Stages *stages) {
    for (int i = 0; i < stages->list.count; i++) {
        mem_free(stages->list.items[i].notes.items);
        mem_free(stages->list.items[i].lines.items);
    }
    mem_free(stages->list.items);
    mem_free(stages->places);
    edge_ends_finish(&stages->edges);
    *stages = (Stages){.pattern = NULL};
}

MarkAge stage_age(const Stage *stage, int mark) {
    if (mark >= stage->shown)
        return MARK_NOT_YET;
    if (draft_of(stage->of)->marks.items[mark].step != stage->step || stage->of->places[mark].carried)
        return MARK_OLD;
    return MARK_NEW;
}

bool stage_measures(const Stage *stage, int dimension) {
    const Dimension *d = &draft_of(stage->of)->dimensions.items[dimension];
    return d->step == stage->step && is_measure(d);
}

Box stage_all(const Stage *stage) {
    const Draft *draft = draft_of(stage->of);
    Box box = box_empty();
    for (int i = 0; i < stage->shown; i++)
        box = box_join(box, stage->of->places[i].box);
    for (int i = 0; i < draft->dimensions.count; i++)
        if (stage_measures(stage, i))
            box = box_add(box_add(box, draft->dimensions.items[i].from), draft->dimensions.items[i].to);
    return box;
}
