// Life of a question: a sweep along the longer axis pairs up the segments whose boxes touch; each pair is
// asked in segment_meet.c. Then all meetings are sorted along the first path, stretches that follow on from
// segment to segment are joined into one, meetings inside a stretch are dropped, and places found more than
// once (at joints) are made one.
#include "geometry/crossing.h"

#include <stdlib.h>

#include "base/memory.h"
#include "geometry/segment_meet.h"

typedef struct Stretch {
    Crossing from, to; // in order along a
} Stretch;

typedef struct StretchList {
    Stretch *items;
    int count, capacity;
} StretchList;

typedef struct Search {
    const Path *a, *b;
    bool self; // b is a: each pair once, joints left out
    CrossingList *found;
    StretchList stretches;
} Search;

void crossings_finish(CrossingList *list) {
    mem_free(list->items);
    *list = (CrossingList){0};
}

static double place(PathSpot spot) {
    return spot.index + spot.t;
}

static Crossing crossing_of(const Search *s, int i, int j, const SegmentMeet *m) {
    const Point p = segment_point(&s->a->items[i], m->t), q = segment_point(&s->b->items[j], m->u);
    return (Crossing){
        .point = m->gap <= MEET_MM ? p : point_mix(p, q, 0.5), .on_a = {i, m->t}, .on_b = {j, m->u}};
}

// A meeting at the joint of two neighbours, or where an outline closes, is no crossing of a path with itself.
static bool at_joint(const Search *s, const Crossing *c) {
    const int last = s->a->count - 1;
    const bool joined = c->on_b.index == c->on_a.index + 1;
    if (joined && point_same(c->point, s->a->items[c->on_a.index].p3) && c->on_a.t > 0.5 && c->on_b.t < 0.5)
        return true;
    const bool closing = c->on_a.index == 0 && c->on_b.index == last && path_is_closed(s->a);
    return closing && point_same(c->point, path_first(s->a)) && c->on_a.t < 0.5 && c->on_b.t > 0.5;
}

static void found_add(Search *s, Crossing c) {
    if (s->found->count < CROSSINGS_MAX && !(s->self && at_joint(s, &c)))
        ARRAY_ADD(s->found, c);
}

static void ask_pair(Search *s, int i, int j) {
    SegmentMeets meets;
    segment_meets(&s->a->items[i], &s->b->items[j], &meets);
    for (int k = 0; k < meets.count; k++)
        found_add(s, crossing_of(s, i, j, &meets.items[k]));
    if (meets.overlap && s->stretches.count < CROSSINGS_MAX) {
        const Stretch stretch = {crossing_of(s, i, j, &meets.from), crossing_of(s, i, j, &meets.to)};
        ARRAY_ADD(&s->stretches, stretch);
    }
}

static void ask_loop(Search *s, int i) {
    double t, u;
    if (!segment_self_meet(&s->a->items[i], &t, &u))
        return;
    if (s->a->count == 1 && t <= HANDLE_ZERO_MM &&
        u >= 1 - HANDLE_ZERO_MM) // where an outline of one curve closes
        return;
    found_add(s, (Crossing){.point = segment_point(&s->a->items[i], t), .on_a = {i, t}, .on_b = {i, u}});
}

typedef struct Span {
    double from, to; // along the axis of the sweep
    Box box;
    int index;
    bool of_b;
} Span;

static int span_compare(const void *left, const void *right) {
    const Span *l = left, *r = right;
    if (l->from != r->from)
        return l->from < r->from ? -1 : 1;
    if (l->of_b != r->of_b)
        return l->of_b ? 1 : -1;
    return l->index - r->index;
}

static int spans_of(const Path *path, bool of_b, bool along_x, Span *out) {
    int count = 0;
    for (int i = 0; i < path->count; i++) {
        if (!segment_finite(&path->items[i]))
            continue;
        const Box box = segment_hull_box(&path->items[i]);
        out[count++] = (Span){.from = (along_x ? box.least.x : box.least.y) - POINT_SAME_MM,
                              .to = along_x ? box.most.x : box.most.y,
                              .box = box,
                              .index = i,
                              .of_b = of_b};
    }
    return count;
}

// Spans in the order they begin, against the open ones; an open one that has ended is dropped in passing.
static void sweep(Search *s) {
    Box all = box_join(path_box(s->a), path_box(s->b));
    const bool along_x = all.most.x - all.least.x >= all.most.y - all.least.y;
    const size_t room = (size_t)s->a->count + (size_t)s->b->count + 1;
    Span *spans = mem_new(sizeof *spans * room);
    int count = spans_of(s->a, false, along_x, spans);
    if (!s->self)
        count += spans_of(s->b, true, along_x, spans + count);
    qsort(spans, (size_t)count, sizeof *spans, span_compare);
    int *open[2] = {mem_new(sizeof(int) * room), mem_new(sizeof(int) * room)};
    int opened[2] = {0, 0};
    for (int i = 0; i < count; i++) {
        const Span *span = &spans[i];
        const int own = span->of_b ? 1 : 0, other = s->self ? 0 : 1 - own;
        int kept = 0;
        for (int k = 0; k < opened[other]; k++) {
            const Span *before = &spans[open[other][k]];
            if (before->to < span->from)
                continue;
            open[other][kept++] = open[other][k];
            if (!box_touch(before->box, span->box, POINT_SAME_MM))
                continue;
            if (s->self)
                ask_pair(s, before->index < span->index ? before->index : span->index,
                         before->index < span->index ? span->index : before->index);
            else
                ask_pair(s, own ? before->index : span->index, own ? span->index : before->index);
        }
        opened[other] = kept;
        open[own][opened[own]++] = i;
    }
    mem_free(open[0]);
    mem_free(open[1]);
    mem_free(spans);
}

static int crossing_compare(const void *left, const void *right) {
    const Crossing *l = left, *r = right;
    const double by_a = place(l->on_a) - place(r->on_a), by_b = place(l->on_b) - place(r->on_b);
    return by_a < 0 ? -1 : by_a > 0 ? 1 : by_b < 0 ? -1 : by_b > 0;
}

static int stretch_compare(const void *left, const void *right) {
    return crossing_compare(left, right); // from stands first
}

// Joins stretches that follow on; they stay in order along a.
static void join_stretches(Search *s) {
    StretchList *list = &s->stretches;
    if (list->count > 1)
        qsort(list->items, (size_t)list->count, sizeof *list->items, stretch_compare);
    int kept = 0;
    for (int i = 0; i < list->count; i++) {
        const Stretch next = list->items[i];
        int k = kept - 1; // of the last few, one may end where this begins
        while (k >= 0 && k >= kept - 8 && !point_same(list->items[k].to.point, next.from.point))
            k--;
        if (k >= 0 && k >= kept - 8)
            list->items[k].to = next.to;
        else
            list->items[kept++] = next;
    }
    list->count = kept;
}

// The meetings are asked in order along a: the stretches before `first` ended before all that are left.
static bool inside_stretch(const Search *s, const Crossing *c, int *first) {
    while (*first < s->stretches.count && place(s->stretches.items[*first].to.on_a) < place(c->on_a))
        ++*first;
    for (int i = *first; i < s->stretches.count; i++) {
        const Stretch *r = &s->stretches.items[i];
        const double a = place(c->on_a), b0 = place(r->from.on_b), b1 = place(r->to.on_b), b = place(c->on_b);
        const bool closed_round = point_same(r->from.point, r->to.point);
        if (place(r->from.on_a) > a)
            return false; // sorted
        if (a <= place(r->to.on_a) && (closed_round || (b >= fmin(b0, b1) && b <= fmax(b0, b1))) &&
            !point_same(c->point, r->from.point) && !point_same(c->point, r->to.point))
            return true;
    }
    return false;
}

typedef struct Ranked {
    Point point;
    int rank; // in order along a
} Ranked;

static int ranked_compare(const void *left, const void *right) {
    const Ranked *l = left, *r = right;
    return l->point.x < r->point.x ? -1 : l->point.x > r->point.x ? 1 : l->rank - r->rank;
}

// Of meetings within POINT_SAME_MM of each other the first along a stays.
static void make_single(CrossingList *list) {
    if (list->count < 2)
        return;
    Ranked *ranked = mem_new(sizeof *ranked * (size_t)list->count);
    bool *drop = mem_new(sizeof *drop * (size_t)list->count);
    for (int i = 0; i < list->count; i++)
        ranked[i] = (Ranked){list->items[i].point, i};
    qsort(ranked, (size_t)list->count, sizeof *ranked, ranked_compare);
    for (int i = 0; i < list->count; i++) {
        for (int k = i + 1; k < list->count && ranked[k].point.x - ranked[i].point.x <= POINT_SAME_MM; k++) {
            if (drop[ranked[i].rank])
                break;
            if (point_same(ranked[i].point, ranked[k].point))
                drop[ranked[i].rank > ranked[k].rank ? ranked[i].rank : ranked[k].rank] = true;
        }
    }
    int kept = 0;
    for (int i = 0; i < list->count; i++) {
        if (!drop[i])
            list->items[kept++] = list->items[i];
    }
    list->count = kept;
    mem_free(drop);
    mem_free(ranked);
}

static bool near_segment(const Path *path, int index, Point p) {
    const Segment *s = &path->items[index];
    return point_same(segment_point(s, segment_nearest(s, p)), p);
}

// Whether a stays within POINT_SAME_MM of b from one meeting to the next, over one joint at most.
static bool runs_between(const Search *s, const Crossing *from, const Crossing *to) {
    static const double PLACES[3] = {0.5, 0.21, 0.83};
    double span = place(to->on_a) - place(from->on_a);
    if (span < 0 && path_is_closed(s->a))
        span += s->a->count;
    if (!(span >= 0 && span <= 1))
        return false;
    for (int i = 0; i < 3; i++) {
        const double at = place(from->on_a) + span * PLACES[i], whole = floor(at);
        const Point p = segment_point(&s->a->items[(int)whole % s->a->count], at - whole);
        if (!near_segment(s->b, from->on_b.index, p) && !near_segment(s->b, to->on_b.index, p))
            return false;
    }
    return true;
}

static bool ends_stretch(const Search *s, const Crossing *c) {
    for (int i = 0; i < s->stretches.count; i++) {
        const Stretch *r = &s->stretches.items[i];
        if (point_same(c->point, r->from.point) || point_same(c->point, r->to.point))
            return true;
    }
    return false;
}

// A touch may cross once before a joint and once after it: that is one meeting.
static void join_touches(Search *s) {
    CrossingList *list = s->found;
    int kept = list->count > 0 ? 1 : 0;
    for (int i = 1; i < list->count; i++) {
        const Crossing next = list->items[i];
        if (!runs_between(s, &list->items[kept - 1], &next) || ends_stretch(s, &next))
            list->items[kept++] = next;
    }
    if (kept > 1 && runs_between(s, &list->items[kept - 1], &list->items[0]) &&
        !ends_stretch(s, &list->items[kept - 1]))
        kept--;
    list->count = kept;
}

static void search(const Path *a, const Path *b, bool self, CrossingList *list) {
    list->count = 0;
    Search s = {.a = a, .b = b, .self = self, .found = list};
    sweep(&s);
    for (int i = 0; self && i < a->count; i++)
        ask_loop(&s, i);
    if (list->count > 1)
        qsort(list->items, (size_t)list->count, sizeof *list->items, crossing_compare);
    join_stretches(&s);
    int kept = 0, first = 0;
    for (int i = 0; i < list->count && s.stretches.count > 0; i++) {
        if (!inside_stretch(&s, &list->items[i], &first))
            list->items[kept++] = list->items[i];
    }
    list->count = s.stretches.count > 0 ? kept : list->count;
    make_single(list);
    join_touches(&s);
    mem_free(s.stretches.items);
}

void path_crossings(const Path *a, const Path *b, CrossingList *list) {
    search(a, b, false, list);
}

void path_self_crossings(const Path *path, CrossingList *list) {
    search(path, path, true, list);
}

GeomError path_meet(const Path *a, const Path *b, Point *out) {
    CrossingList list = {0};
    path_crossings(a, b, &list);
    const GeomError error = list.count > 0 ? GEOM_OK : GEOM_NO_MEET;
    if (!error)
        *out = list.items[0].point;
    crossings_finish(&list);
    return error;
}
