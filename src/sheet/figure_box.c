#include <math.h>
#include <stdlib.h>

#include "base/memory.h"
#include "geometry/tolerance.h"
#include "sheet/figure.h"

// A line of construction may run on far beyond all else: an axis extended by 40 cm would make the figure
// small. So long straight lines reach no further than FIGURE_FAR_MM beyond the rest.

// A piece marked on the draft is drawn where it was traced; what was made elsewhere from it is not shown.
const Piece *figure_piece(const Pattern *pattern, int draft, const Mark *mark) {
    if (mark->kind != MARK_PIECE || mark->piece < 0 || mark->piece >= pattern->pieces.count)
        return NULL;
    const Piece *piece = &pattern->pieces.items[mark->piece];
    return piece->draft == draft ? piece : NULL;
}

static bool is_far_line(const Path *path) {
    return path->count > 0 && path_is_straight(path) &&
           point_distance(path_first(path), path_last(path)) > FIGURE_FAR_MM;
}

// A place where marks lie or end. Those of one cell are less than POINT_ON_MM apart.
typedef struct End {
    double column, row; // of the cell
    Point at;
    const Mark *mark;
} End;

typedef struct EndList {
    End *items;
    int count, capacity;
} EndList;

#define END_CELL_MM (POINT_ON_MM / 1.5)

static End end_of(Point at, const Mark *mark) {
    return (End){floor(at.x / END_CELL_MM), floor(at.y / END_CELL_MM), at, mark};
}

static int end_order(const void *a, const void *b) {
    const End *x = a, *y = b;
    if (x->column != y->column)
        return x->column < y->column ? -1 : 1;
    return x->row < y->row ? -1 : x->row > y->row;
}

static void find_ends(const Draft *draft, EndList *ends) {
    for (int i = 0; i < draft->marks.count; i++) {
        const Mark *mark = &draft->marks.items[i];
        if (mark->kind == MARK_POINT)
            ARRAY_ADD(ends, end_of(mark->point, mark));
        if (mark->kind != MARK_PATH || mark->path.count == 0)
            continue;
        ARRAY_ADD(ends, end_of(path_first(&mark->path), mark));
        ARRAY_ADD(ends, end_of(path_last(&mark->path), mark));
    }
    if (ends->count > 0)
        qsort(ends->items, (size_t)ends->count, sizeof *ends->items, end_order);
}

static bool meets_in_cell(const EndList *ends, End cell, const Mark *mark, Point at) {
    int low = 0, high = ends->count;
    while (low < high) {
        const int middle = (low + high) / 2;
        if (end_order(&ends->items[middle], &cell) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < ends->count && end_order(&ends->items[low], &cell) == 0; low++)
        if (ends->items[low].mark != mark && point_distance(ends->items[low].at, at) <= POINT_ON_MM)
            return true;
    return false;
}

// No other mark lies or ends there.
static bool is_loose(const EndList *ends, const Mark *mark, Point at) {
    const End own = end_of(at, mark);
    for (int column = -2; column <= 2; column++)
        for (int row = -2; row <= 2; row++)
            if (meets_in_cell(ends, (End){.column = own.column + column, .row = own.row + row}, mark, at))
                return false;
    return true;
}

// Without the loose ends of long lines.
static Box near_box(const Pattern *pattern, int draft) {
    const Draft *d = &pattern->drafts.items[draft];
    Box box = box_empty();
    EndList ends = {.items = NULL};
    for (int i = 0; i < d->marks.count; i++) {
        const Mark *mark = &d->marks.items[i];
        const bool far = mark->kind == MARK_PATH && is_far_line(&mark->path);
        if (mark->kind == MARK_POINT)
            box = box_add(box, mark->point);
        else if (mark->kind == MARK_PATH && mark->path.count > 0 && !far)
            box = box_join(box, path_box(&mark->path));
        if (far && ends.count == 0)
            find_ends(d, &ends);
        for (int k = 0; k < 2 && far; k++) {
            const Point end = k == 0 ? path_first(&mark->path) : path_last(&mark->path);
            if (!is_loose(&ends, mark, end))
                box = box_add(box, end);
        }
        const Piece *piece = figure_piece(pattern, draft, mark);
        for (int k = 0; piece != NULL && k < piece->edges.count; k++)
            box = box_join(box, path_box(&piece->edges.items[k].path));
    }
    mem_free(ends.items);
    for (int i = 0; i < d->dimensions.count; i++)
        box = box_add(box_add(box, d->dimensions.items[i].from), d->dimensions.items[i].to);
    return box;
}

static Box limits_round(Box box) {
    if (box_is_empty(box))
        return box;
    const Point far = point(FIGURE_FAR_MM, FIGURE_FAR_MM);
    return (Box){point_sub(box.least, far), point_add(box.most, far)};
}

Box figure_limits(const Pattern *pattern, int draft) {
    return limits_round(near_box(pattern, draft));
}

// The part t0 to t1 of the line from a to b that lies in the box: each side cuts at
// t = (side - a) / (b - a) (Liang and Barsky 1984).
bool figure_cut_short(Box limits, const Path *path, Point *from, Point *to, bool cut[2]) {
    if (box_is_empty(limits) || !is_far_line(path))
        return false;
    const Point a = path_first(path), b = path_last(path), d = point_sub(b, a);
    const double p[4] = {-d.x, d.x, -d.y, d.y};
    const double q[4] = {a.x - limits.least.x, limits.most.x - a.x, a.y - limits.least.y,
                         limits.most.y - a.y};
    double t0 = 0, t1 = 1;
    for (int i = 0; i < 4; i++) {
        if (p[i] < 0)
            t0 = fmax(t0, q[i] / p[i]);
        else if (p[i] > 0)
            t1 = fmin(t1, q[i] / p[i]);
        else if (q[i] < 0)
            return false;
    }
    if (t0 >= t1 || (t0 == 0 && t1 == 1))
        return false;
    cut[0] = t0 > 0;
    cut[1] = t1 < 1;
    *from = point_mix(a, b, t0);
    *to = point_mix(a, b, t1);
    return true;
}

Box figure_box(const Pattern *pattern, int draft) {
    const Draft *d = &pattern->drafts.items[draft];
    Box box = near_box(pattern, draft);
    const Box limits = limits_round(box);
    for (int i = 0; i < d->marks.count; i++) {
        const Mark *mark = &d->marks.items[i];
        Point from, to;
        bool cut[2];
        if (mark->kind != MARK_PATH || !is_far_line(&mark->path))
            continue;
        box = figure_cut_short(limits, &mark->path, &from, &to, cut) ? box_add(box_add(box, from), to)
                                                                     : box_join(box, path_box(&mark->path));
    }
    return box;
}
