// A raw offset outline has loops where the source turns tighter than the distance. In chords, with every
// meeting a plain crossing of two strands, the outline is taken apart as a knot diagram is (H. Seifert,
// 1934): at each crossing the strand that comes in along one chord leaves along the other. That gives closed
// circles, none of which crosses itself or another. To the right of a circle the winding number is the same
// all along, k, and to its left k + 1.
//
// The borders of the wanted region, between winding number 0 and 1, are the circles with k = 0; those that
// wind counter-clockwise are outer borders, one for each part. So nothing has to be decided by distances: the
// winding number right of the outline is known at its lowest corner, and changes by one at each crossing.
//
// The chords only tell what meets what. The result is made of the raw outline's own curves, cut at the
// crossings, which are polished on the curves.
#include "geometry/unloop.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "geometry/parallel.h"
#include "geometry/stretch.h"

// Cleaning a result again removes what chords and curves saw differently; more often is never needed.
#define ROUNDS_MAX 4
#define SAMPLES_MAX 16
// Folds longer than this many tolerances are wide enough to be seen.
#define FOLD_REACH 20.0

// One strand of a crossing, in order along the outline. The arc of a pass runs from it to the next pass.
typedef struct Pass {
    int chord;
    double fraction;
    int meet;
    int partner;   // the pass of the other strand
    bool leftward; // the other strand passes from right to left
} Pass;

typedef struct Diagram {
    Chords chords;
    MeetList meets;
    Pass *passes;
    int *levels; // of each pass's arc: the winding number right of it
    int count;
} Diagram;

static int compare_passes(const void *left, const void *right) {
    const Pass *a = left, *b = right;
    if (a->chord != b->chord)
        return a->chord < b->chord ? -1 : 1;
    if (a->fraction != b->fraction)
        return a->fraction < b->fraction ? -1 : 1;
    return a->meet < b->meet ? -1 : a->meet > b->meet;
}

static void add_passes(Diagram *diagram) {
    const MeetList *meets = &diagram->meets;
    diagram->count = 2 * meets->count;
    diagram->passes = mem_resize(NULL, sizeof *diagram->passes * (size_t)diagram->count);
    for (int i = 0; i < meets->count; i++) {
        const Meet *m = &meets->items[i];
        diagram->passes[2 * i] =
            (Pass){.chord = m->a, .fraction = m->on_a, .meet = i, .partner = -1, .leftward = m->leftward};
        diagram->passes[2 * i + 1] =
            (Pass){.chord = m->b, .fraction = m->on_b, .meet = i, .partner = -1, .leftward = !m->leftward};
    }
    qsort(diagram->passes, (size_t)diagram->count, sizeof *diagram->passes, compare_passes);
    int *seen = mem_resize(NULL, sizeof *seen * (size_t)meets->count);
    for (int i = 0; i < meets->count; i++)
        seen[i] = -1;
    for (int i = 0; i < diagram->count; i++) {
        const int other = seen[diagram->passes[i].meet];
        if (other >= 0) {
            diagram->passes[i].partner = other;
            diagram->passes[other].partner = i;
        }
        seen[diagram->passes[i].meet] = i;
    }
    mem_free(seen);
}

// The pass whose arc holds the start of a chord: the last one before it.
static int pass_before(const Diagram *diagram, int chord) {
    int found = diagram->count - 1;
    for (int i = 0; i < diagram->count && diagram->passes[i].chord < chord; i++)
        found = i;
    return found;
}

// Walking along a strand, a strand that crosses to the left takes the winding number right of the walker down
// by one: what was to the right of it is behind. At the lowest corner the outside, 0, is below.
static void add_levels(Diagram *diagram) {
    const Chords *chords = &diagram->chords;
    int *levels = diagram->levels = mem_resize(NULL, sizeof *levels * (size_t)diagram->count);
    levels[0] = 0;
    for (int i = 1; i < diagram->count; i++)
        levels[i] = levels[i - 1] - (diagram->passes[i].leftward ? 1 : -1);
    int lowest = 0;
    for (int i = 1; i < chords->count; i++)
        if (chords->at[i].y < chords->at[lowest].y)
            lowest = i;
    const Point before = chords->at[lowest > 0 ? lowest - 1 : chords->count - 1];
    const Point here = chords->at[lowest], after = chords->at[lowest + 1];
    const bool left_turn = point_cross(point_sub(here, before), point_sub(after, here)) > 0.0;
    const int shift = (left_turn ? 0 : -1) - levels[pass_before(diagram, lowest)];
    for (int i = 0; i < diagram->count; i++)
        levels[i] += shift;
}

static void diagram_init(Diagram *diagram, const Path *path) {
    *diagram = (Diagram){0};
    chords_init(&diagram->chords, path, true, true);
    chords_meets(&diagram->chords, &diagram->meets);
    if (diagram->meets.count == 0)
        return;
    add_passes(diagram);
    add_levels(diagram);
}

static void diagram_finish(Diagram *diagram) {
    chords_finish(&diagram->chords);
    mem_free(diagram->meets.items);
    mem_free(diagram->passes);
    mem_free(diagram->levels);
    *diagram = (Diagram){0};
}

static int pass_next(const Diagram *diagram, int pass) {
    return diagram->passes[pass + 1 < diagram->count ? pass + 1 : 0].partner;
}

// Sums over the corners of one circle.
typedef struct Tally {
    Point origin, at;
    double twice_area, length;
    int corners;
} Tally;

static void tally_add(Tally *tally, Point p) {
    tally->twice_area += point_cross(point_sub(tally->at, tally->origin), point_sub(p, tally->origin));
    tally->length += point_distance(tally->at, p);
    tally->at = p;
    tally->corners++;
}

// The corners of the arc of a pass, from after its own crossing to the next one.
static void tally_arc(const Diagram *diagram, int pass, Tally *tally) {
    const Chords *chords = &diagram->chords;
    const Pass *from = &diagram->passes[pass];
    const bool wraps = pass + 1 == diagram->count;
    const Pass *to = &diagram->passes[wraps ? 0 : pass + 1];
    const int last = to->chord + (wraps ? chords->count : 0);
    for (int i = from->chord + 1; i <= last; i++)
        tally_add(tally, chords->at[i >= chords->count ? i - chords->count : i]);
    tally_add(tally, chords_point(chords, to->chord, to->fraction));
}

static Tally circle_tally(const Diagram *diagram, int first) {
    const Pass *start = &diagram->passes[first];
    const Point origin = chords_point(&diagram->chords, start->chord, start->fraction);
    Tally tally = {.origin = origin, .at = origin};
    int pass = first;
    do {
        tally_arc(diagram, pass, &tally);
        pass = pass_next(diagram, pass);
    } while (pass != first);
    return tally;
}

// Whether the middles of up to SAMPLES_MAX chords of a circle, evenly taken, may be on the border.
static bool circle_kept(const Diagram *diagram, int first, int corners, UnloopKeep keep,
                        const void *context) {
    const Chords *chords = &diagram->chords;
    const int step = corners / SAMPLES_MAX + 1;
    int seen = 0, pass = first;
    do {
        const Pass *from = &diagram->passes[pass];
        const bool wraps = pass + 1 == diagram->count;
        const Pass *to = &diagram->passes[wraps ? 0 : pass + 1];
        const int last = to->chord + (wraps ? chords->count : 0);
        Point at = chords_point(chords, from->chord, from->fraction);
        for (int i = from->chord + 1; i <= last + 1; i++) {
            const Point next = i > last ? chords_point(chords, to->chord, to->fraction)
                                        : chords->at[i >= chords->count ? i - chords->count : i];
            if (seen++ % step == 0 && !keep(context, point_mix(at, next, 0.5)))
                return false;
            at = next;
        }
        pass = pass_next(diagram, pass);
    } while (pass != first);
    return true;
}

// Cuts the raw outline at the crossings of one circle and joins the stretches.
static void circle_extract(const Diagram *diagram, const Path *raw, int first, Path *out) {
    const Pass *passes = diagram->passes;
    typedef struct Cut {
        PathSpot leave, arrive; // the crossing on the strand that leaves it, and on the one that comes in
        Point at;
        int pass; // the pass that leaves
    } Cut;
    struct {
        Cut *items;
        int count, capacity;
    } cuts = {0};
    int pass = first;
    do {
        const Pass *leave = &passes[pass], *arrive = &passes[leave->partner];
        Cut cut = {.leave = chords_spot(&diagram->chords, leave->chord, leave->fraction),
                   .arrive = chords_spot(&diagram->chords, arrive->chord, arrive->fraction),
                   .pass = pass};
        cut.at = meet_polish(raw, &cut.leave, &cut.arrive);
        ARRAY_ADD(&cuts, cut);
        pass = pass_next(diagram, pass);
    } while (pass != first);

    for (int i = 0; i < cuts.count; i++) {
        const Cut *from = &cuts.items[i], *to = &cuts.items[i + 1 < cuts.count ? i + 1 : 0];
        const PathSpot a = from->leave, b = to->arrive;
        // Polishing may have swapped two crossings that are one for all purposes: then nothing is between
        // them.
        const bool wraps = from->pass + 1 == diagram->count;
        if (!wraps && (a.index > b.index || (a.index == b.index && a.t >= b.t)))
            continue;
        stretch_add(raw, a, out->count > 0 ? out->items[out->count - 1].p3 : from->at, b, to->at, out);
    }
    if (out->count > 0)
        segment_pull_last(&out->items[out->count - 1], out->items[0].p0);
    mem_free(cuts.items);
}

// A link next to a cusp can be left as a fold too thin for the chords to see: the path goes back along it and
// on again. Where its neighbours cross they are cut; a link shorter than the tolerance is left out in any
// case, and what follows is pulled along its own tangent to where it began.
static void drop_folds(Path *path, double tolerance) {
    int i = 0;
    while (i < path->count && path->count > 3) {
        Segment *s = &path->items[i];
        Segment *before = &path->items[i > 0 ? i - 1 : path->count - 1];
        Segment *after = &path->items[i + 1 < path->count ? i + 1 : 0];
        const Point back = point_sub(s->p3, s->p0);
        const double length = point_size(back);
        const bool fold = s->kind == SEGMENT_LINE && length <= FOLD_REACH * tolerance &&
                          point_dot(segment_direction(before, 1.0), back) < 0.0 &&
                          point_dot(segment_direction(after, 0.0), back) < 0.0;
        if (!fold || (!cut_at_crossing(before, after, length, 1.0) &&
                      !cut_at_crossing(before, after, length, -1.0) && length > tolerance)) {
            i++;
            continue;
        }
        segment_pull_first(after, before->p3);
        memmove(s, s + 1, sizeof *s * (size_t)(path->count - i - 1));
        path->count--;
    }
}

// The pass where the largest part begins, or -1.
static int largest_part(const Diagram *diagram, double tolerance, UnloopKeep keep, const void *context,
                        int *parts) {
    bool *seen = mem_new(sizeof *seen * (size_t)diagram->count);
    double largest = 0.0;
    int found = -1;
    *parts = 0;
    for (int i = 0; i < diagram->count; i++) {
        if (seen[i])
            continue;
        int pass = i;
        do {
            seen[pass] = true;
            pass = pass_next(diagram, pass);
        } while (pass != i);
        if (diagram->levels[i] != 0)
            continue;
        const Tally tally = circle_tally(diagram, i);
        const double area = 0.5 * tally.twice_area;
        if (area <= tolerance * tally.length ||
            (keep && !circle_kept(diagram, i, tally.corners, keep, context)))
            continue;
        ++*parts;
        if (area > largest) {
            largest = area;
            found = i;
        }
    }
    mem_free(seen);
    return found;
}

static bool outline_kept(const Chords *chords, UnloopKeep keep, const void *context) {
    if (chords_area(chords) <= 0.0)
        return false;
    const int step = chords->count / SAMPLES_MAX + 1;
    for (int i = 0; keep && i < chords->count; i += step)
        if (!keep(context, chords_point(chords, i, 0.5)))
            return false;
    return true;
}

GeomError unloop(Path *raw, double tolerance, UnloopKeep keep, const void *context, int *parts) {
    int count = 1;
    Path work = {0};
    for (int round = 0; round < ROUNDS_MAX; round++) {
        const Path *path = round == 0 ? raw : &work;
        Chords chords;
        chords_init(&chords, path, true, false);
        const bool apart = chords_apart(&chords);
        const bool kept = !apart || round > 0 || outline_kept(&chords, keep, context);
        chords_finish(&chords);
        if (!kept)
            return GEOM_VANISHES;
        if (apart)
            break;

        Diagram diagram;
        diagram_init(&diagram, path);
        if (diagram.meets.count == 0) {
            const bool alone = round > 0 || outline_kept(&diagram.chords, keep, context);
            diagram_finish(&diagram);
            if (!alone)
                return GEOM_VANISHES;
            break;
        }
        int found_parts;
        const int found = largest_part(&diagram, tolerance, round == 0 ? keep : NULL, context, &found_parts);
        if (found < 0) {
            diagram_finish(&diagram);
            if (round > 0)
                break;
            return GEOM_VANISHES;
        }
        if (round == 0)
            count = found_parts;
        Path next = {0};
        circle_extract(&diagram, path, found, &next);
        diagram_finish(&diagram);
        if (next.count == 0) { // all of it shorter than POINT_SAME_MM
            path_finish(&work);
            return GEOM_VANISHES;
        }
        path_finish(&work);
        work = next;
    }
    if (work.count > 0) {
        drop_folds(&work, tolerance);
        path_finish(raw);
        *raw = work;
    }
    if (parts)
        *parts = count;
    return GEOM_OK;
}

bool outline_crosses_itself(const Path *path, double tolerance) {
    Diagram diagram;
    diagram_init(&diagram, path);
    bool *seen = mem_new(sizeof *seen * (size_t)diagram.count + 1);
    int wide = 0;
    for (int i = 0; i < diagram.count; i++) {
        if (seen[i])
            continue;
        int pass = i;
        do {
            seen[pass] = true;
            pass = pass_next(&diagram, pass);
        } while (pass != i);
        const Tally tally = circle_tally(&diagram, i);
        if (0.5 * fabs(tally.twice_area) > tolerance * tally.length)
            wide++;
    }
    mem_free(seen);
    diagram_finish(&diagram);
    return wide > 1;
}
