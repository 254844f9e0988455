// Neighbouring chords that run the same way in x and in y form a run of at most RUN_MAX. A run never crosses
// itself, and its box is that of its two ends. The boxes of the runs are the leaves of a binary tree in path
// order: parts of a path that lie near each other are mostly near along it too, so the tree is a good one and
// needs no sorting. To find what meets what, the tree is compared with itself: a pair of nodes is looked into
// only while its boxes touch, which makes n log n of the n^2 pairs of an ordinary outline.
#include "geometry/chords.h"

#include <stdint.h>
#include <stdlib.h>

#include "base/memory.h"

#define RUN_MAX 12
#define CHORDS_PER_SEGMENT_MAX 1000

typedef struct Search {
    const Chords *chords;
    MeetList *meets; // NULL: stop at the first
    bool met;
} Search;

// The chord error of a cubic cut into n equal steps of t is at most |p''| / (8 n^2), and |p''| at most six
// times the larger second difference of the control points.
static int chord_count(const Segment *s, double fit) {
    if (s->kind == SEGMENT_LINE)
        return 1;
    const Point d1 = point_add(point_sub(s->p0, point_scale(s->p1, 2.0)), s->p2);
    const Point d2 = point_add(point_sub(s->p1, point_scale(s->p2, 2.0)), s->p3);
    const double square = fmax(point_dot(d1, d1), point_dot(d2, d2));
    const double n = ceil(sqrt(0.75 * sqrt(square) / fit));
    return n < 1.0 ? 1 : n > CHORDS_PER_SEGMENT_MAX ? CHORDS_PER_SEGMENT_MAX : (int)n;
}

// Whether a path turns back at the joint of two segments. The loop that follows is long and thin: it takes
// finer chords to see where it closes.
static bool turns_back(const Segment *before, const Segment *after) {
    if (before->kind == SEGMENT_LINE && after->kind == SEGMENT_LINE)
        return false;
    return point_dot(segment_direction(before, 1.0), segment_direction(after, 0.0)) < 0.0;
}

static double chord_fit(const Path *path, int index, bool closed) {
    const Segment *s = &path->items[index];
    if (s->kind == SEGMENT_LINE || path->count < 2)
        return CHORD_FIT_MM;
    const Segment *before = index > 0 ? s - 1 : closed ? &path->items[path->count - 1] : NULL;
    const Segment *after = index + 1 < path->count ? s + 1 : closed ? &path->items[0] : NULL;
    const bool back = (before && turns_back(before, s)) || (after && turns_back(s, after));
    return back ? CHORD_FINE_MM : CHORD_FIT_MM;
}

// A fixed number in [-1, 1] for each index (the finaliser of the splitmix64 generator, Steele, Lea and Flood
// 2014).
static double shake(uint64_t index) {
    uint64_t z = (index + 1) * 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    z ^= z >> 31;
    return (double)(int64_t)z * 0x1p-63;
}

static Box box_of(Point a, Point b) {
    return (Box){.least = {a.x < b.x ? a.x : b.x, a.y < b.y ? a.y : b.y},
                 .most = {a.x > b.x ? a.x : b.x, a.y > b.y ? a.y : b.y}};
}

static Box box_both(Box a, Box b) {
    return (Box){
        .least = {a.least.x < b.least.x ? a.least.x : b.least.x,
                  a.least.y < b.least.y ? a.least.y : b.least.y},
        .most = {a.most.x > b.most.x ? a.most.x : b.most.x, a.most.y > b.most.y ? a.most.y : b.most.y}};
}

static bool boxes_touch(const Box *a, const Box *b) {
    return a->least.x <= b->most.x + CHORD_TOUCH_MM && b->least.x <= a->most.x + CHORD_TOUCH_MM &&
           a->least.y <= b->most.y + CHORD_TOUCH_MM && b->least.y <= a->most.y + CHORD_TOUCH_MM;
}

static void add_corners(Chords *chords, const Path *path) {
    Point *at = chords->at;
    for (int i = 0; i < path->count; i++) {
        const Segment *s = &path->items[i];
        const int n = chords->first[i + 1] - chords->first[i];
        *at++ = s->p0;
        if (n == 1)
            continue;
        const Point c = point_scale(point_sub(s->p1, s->p0), 3.0);
        const Point b = point_sub(point_scale(point_sub(s->p2, s->p1), 3.0), c);
        const Point a = point_sub(point_sub(point_sub(s->p3, s->p0), c), b);
        for (int k = 1; k < n; k++) {
            const double t = (double)k / n;
            *at++ =
                point(((a.x * t + b.x) * t + c.x) * t + s->p0.x, ((a.y * t + b.y) * t + c.y) * t + s->p0.y);
        }
    }
    *at = path->items[path->count - 1].p3;
}

static void add_runs(Chords *chords) {
    const Point *at = chords->at;
    int runs = 0, start = 0;
    bool right = false, up = false;
    for (int i = 0; i < chords->count; i++) {
        const double dx = at[i + 1].x - at[i].x, dy = at[i + 1].y - at[i].y;
        const bool follows = i > start && i - start < RUN_MAX && (right ? dx >= 0.0 : dx <= 0.0) &&
                             (up ? dy >= 0.0 : dy <= 0.0);
        if (!follows) {
            start = i;
            chords->runs[runs++] = i;
            right = dx >= 0.0;
            up = dy >= 0.0;
        }
    }
    chords->runs[runs] = chords->count;
    chords->run_count = runs;
}

static void add_boxes(Chords *chords) {
    int leaves = 1;
    while (leaves < chords->run_count)
        leaves *= 2;
    chords->leaves = leaves;
    Box *boxes = chords->boxes = mem_resize(NULL, sizeof *boxes * 2 * (size_t)leaves);
    for (int i = 0; i < chords->run_count; i++)
        boxes[leaves + i] = box_of(chords->at[chords->runs[i]], chords->at[chords->runs[i + 1]]);
    for (int i = chords->run_count; i < leaves; i++)
        boxes[leaves + i] = (Box){.least = {INFINITY, INFINITY}, .most = {-INFINITY, -INFINITY}};
    for (int i = leaves - 1; i > 0; i--)
        boxes[i] = box_both(boxes[2 * i], boxes[2 * i + 1]);
}

void chords_init(Chords *chords, const Path *path, bool closed, bool shaken) {
    *chords = (Chords){.segments = path->count, .closed = closed};
    chords->first = mem_resize(NULL, sizeof *chords->first * ((size_t)path->count + 1));
    for (int i = 0; i < path->count; i++) {
        chords->first[i] = chords->count;
        chords->count += chord_count(&path->items[i], chord_fit(path, i, closed));
    }
    chords->first[path->count] = chords->count;
    chords->at = mem_resize(NULL, sizeof *chords->at * ((size_t)chords->count + 1));
    add_corners(chords, path);
    if (shaken)
        for (int i = 0; i <= chords->count; i++) {
            chords->at[i].x += CHORD_TOUCH_MM * shake(2 * (uint64_t)i);
            chords->at[i].y += CHORD_TOUCH_MM * shake(2 * (uint64_t)i + 1);
        }
    if (closed)
        chords->at[chords->count] = chords->at[0];
    chords->runs = mem_resize(NULL, sizeof *chords->runs * ((size_t)chords->count + 1));
    add_runs(chords);
    add_boxes(chords);
}

void chords_finish(Chords *chords) {
    mem_free(chords->at);
    mem_free(chords->first);
    mem_free(chords->runs);
    mem_free(chords->boxes);
    *chords = (Chords){0};
}

// Twice the area of the triangle a, b, c: positive when c lies to the left of a-b.
static double left_of(Point a, Point b, Point c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// Both values on the same side, and further from zero than the margin.
static bool one_side(double u, double v, double margin) {
    return (u > margin && v > margin) || (u < -margin && v < -margin);
}

static bool are_neighbours(const Chords *chords, int i, int j) {
    return j - i == 1 || i - j == 1 || (chords->closed && abs(j - i) == chords->count - 1);
}

static void search_pair(Search *search, int i, int j) {
    if (are_neighbours(search->chords, i, j))
        return;
    if (i > j) {
        const int swap = i;
        i = j;
        j = swap;
    }
    const Point *at = search->chords->at;
    const Point a0 = at[i], a1 = at[i + 1], b0 = at[j], b1 = at[j + 1];
    const double o0 = left_of(a0, a1, b0), o1 = left_of(a0, a1, b1);
    const bool exact = search->meets != NULL;
    const double near_a = exact ? 0.0 : CHORD_TOUCH_MM * (fabs(a1.x - a0.x) + fabs(a1.y - a0.y));
    if (exact ? (o0 >= 0.0) == (o1 >= 0.0) : one_side(o0, o1, near_a))
        return;
    const double p0 = left_of(b0, b1, a0), p1 = left_of(b0, b1, a1);
    const double near_b = exact ? 0.0 : CHORD_TOUCH_MM * (fabs(b1.x - b0.x) + fabs(b1.y - b0.y));
    if (exact ? (p0 >= 0.0) == (p1 >= 0.0) : one_side(p0, p1, near_b))
        return;
    search->met = true;
    if (exact)
        ARRAY_ADD(
            search->meets,
            ((Meet){.a = i, .b = j, .on_a = p0 / (p0 - p1), .on_b = o0 / (o0 - o1), .leftward = o1 > o0}));
}

static void search_runs(Search *search, int a, int b) {
    const Chords *chords = search->chords;
    const Box *box_a = &chords->boxes[chords->leaves + a], *box_b = &chords->boxes[chords->leaves + b];
    for (int i = chords->runs[a]; i < chords->runs[a + 1]; i++) {
        const Box chord_a = box_of(chords->at[i], chords->at[i + 1]);
        if (!boxes_touch(&chord_a, box_b))
            continue;
        for (int j = chords->runs[b]; j < chords->runs[b + 1]; j++) {
            const Box chord_b = box_of(chords->at[j], chords->at[j + 1]);
            if (!boxes_touch(&chord_b, box_a) || !boxes_touch(&chord_a, &chord_b))
                continue;
            search_pair(search, i, j);
            if (search->met && !search->meets)
                return;
        }
    }
}

static void search_nodes(Search *search, int a, int b) {
    const Chords *chords = search->chords;
    if (!boxes_touch(&chords->boxes[a], &chords->boxes[b]))
        return;
    if (a >= chords->leaves) { // both are leaves, since they are on one level
        search_runs(search, a - chords->leaves, b - chords->leaves);
        return;
    }
    for (int i = 0; i < 4; i++) {
        search_nodes(search, 2 * a + i / 2, 2 * b + i % 2);
        if (search->met && !search->meets)
            return;
    }
}

// Within a run nothing crosses, so a pair is first met at the node where the two branches part.
static void search_all(Search *search) {
    for (int i = search->chords->leaves - 1; i > 0; i--) {
        search_nodes(search, 2 * i, 2 * i + 1);
        if (search->met && !search->meets)
            return;
    }
}

bool chords_apart(const Chords *chords) {
    Search search = {.chords = chords};
    search_all(&search);
    return !search.met;
}

void chords_meets(const Chords *chords, MeetList *meets) {
    Search search = {.chords = chords, .meets = meets};
    search_all(&search);
}

double chords_area(const Chords *chords) {
    const Point origin = chords->at[0];
    double twice = 0.0;
    for (int i = 1; i < chords->count; i++)
        twice += point_cross(point_sub(chords->at[i], origin), point_sub(chords->at[i + 1], origin));
    return 0.5 * twice;
}

PathSpot chords_spot(const Chords *chords, int chord, double fraction) {
    int low = 0, high = chords->segments;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (chords->first[middle] <= chord)
            low = middle;
        else
            high = middle;
    }
    const int first = chords->first[low], n = chords->first[low + 1] - first;
    return (PathSpot){.index = low, .t = (chord - first + fraction) / n};
}

Point chords_point(const Chords *chords, int chord, double fraction) {
    return point_mix(chords->at[chord], chords->at[chord + 1], fraction);
}

static double box_gap_square(const Box *box, Point p) {
    const double dx = p.x < box->least.x ? box->least.x - p.x : p.x > box->most.x ? p.x - box->most.x : 0.0;
    const double dy = p.y < box->least.y ? box->least.y - p.y : p.y > box->most.y ? p.y - box->most.y : 0.0;
    return dx * dx + dy * dy;
}

static double chord_gap_square(Point a, Point b, Point p) {
    const Point along = point_sub(b, a), to = point_sub(p, a);
    const double square = point_dot(along, along);
    double t = square > 0.0 ? point_dot(to, along) / square : 0.0;
    t = t < 0.0 ? 0.0 : t > 1.0 ? 1.0 : t;
    const Point off = point_sub(to, point_scale(along, t));
    return point_dot(off, off);
}

static bool node_within(const Chords *chords, int node, Point p, double square) {
    if (box_gap_square(&chords->boxes[node], p) >= square)
        return false;
    if (node < chords->leaves)
        return node_within(chords, 2 * node, p, square) || node_within(chords, 2 * node + 1, p, square);
    const int run = node - chords->leaves;
    for (int i = chords->runs[run]; i < chords->runs[run + 1]; i++)
        if (chord_gap_square(chords->at[i], chords->at[i + 1], p) < square)
            return true;
    return false;
}

bool chords_within(const Chords *chords, Point p, double distance) {
    return distance > 0.0 && node_within(chords, 1, p, distance * distance);
}
