// The raw parallel of an open path is cut where it crosses itself and where it comes nearer to the source
// than the distance. What is left is joined up again: where two strands cross, a stretch that comes in along
// one goes on along the other if that is far enough from the source, which leaves out the loop between.
#include <stdlib.h>

#include "base/memory.h"
#include "geometry/stretch.h"
#include "geometry/unloop.h"

// A raw parallel is right to less than this share of the tolerance, so what is nearer than that is no part of
// it.
#define NEAR_SHARE 0.45
// Points are tried at most this share of the distance apart.
#define STEP_SHARE 0.2
#define STEPS_MAX 1000
#define HALVINGS 40

// A place on the raw parallel, and the strand that crosses there: the index of its other place, or -1.
typedef struct Place {
    int chord;
    double fraction;
    int meet;
    int partner;
} Place;

// A stretch that is far enough from the source, between places that may be crossings (their index, or -1).
typedef struct Stretch {
    Place from, to;
    int starts_at, ends_at;
    int next;
    bool follows; // another stretch goes on with this one
} Stretch;

typedef struct Work {
    const Path *raw;
    const Chords *chords, *source;
    double least;
    Place *places;
    int place_count;
    struct {
        Stretch *items;
        int count, capacity;
    } stretches;
} Work;

static int compare_places(const void *left, const void *right) {
    const Place *a = left, *b = right;
    if (a->chord != b->chord)
        return a->chord < b->chord ? -1 : 1;
    if (a->fraction != b->fraction)
        return a->fraction < b->fraction ? -1 : 1;
    return a->meet < b->meet ? -1 : a->meet > b->meet;
}

static Point place_point(const Work *work, Place place) {
    const PathSpot spot = chords_spot(work->chords, place.chord, place.fraction);
    return segment_point(&work->raw->items[spot.index], spot.t);
}

static bool is_good(const Work *work, Place place) {
    return !chords_within(work->source, place_point(work, place), work->least);
}

// The place between a good and a bad one on the same chord up to which the parallel is good.
static Place edge_place(const Work *work, Place good, Place bad) {
    for (int i = 0; i < HALVINGS; i++) {
        Place middle = good;
        middle.fraction = 0.5 * (good.fraction + bad.fraction);
        if (is_good(work, middle))
            good = middle;
        else
            bad = middle;
    }
    return good;
}

typedef struct Walk {
    Place last, from; // the last place tried; where the stretch now open began
    int starts_at;
    bool good;
} Walk;

static void walk_to(Work *work, Walk *walk, Place place) {
    if (walk->last.chord != place.chord) {
        walk_to(work, walk, (Place){.chord = walk->last.chord, .fraction = 1.0});
        walk->last = (Place){.chord = place.chord, .fraction = 0.0};
    }
    const bool good = is_good(work, place);
    if (good && !walk->good) {
        walk->from = edge_place(work, place, walk->last);
        walk->starts_at = -1;
    } else if (!good && walk->good) {
        ARRAY_ADD(&work->stretches, ((Stretch){.from = walk->from,
                                               .to = edge_place(work, walk->last, place),
                                               .starts_at = walk->starts_at,
                                               .ends_at = -1,
                                               .next = -1}));
    }
    walk->good = good;
    walk->last = place;
}

// The good stretches of the piece between two places.
static void add_stretches(Work *work, Place from, int starts_at, Place to, int ends_at, double step) {
    Walk walk = {.last = from, .from = from, .starts_at = starts_at};
    bool first = starts_at >= 0;
    if (!first)
        walk.good = is_good(work, from);
    for (int chord = from.chord; chord <= to.chord; chord++) {
        const double low = chord == from.chord ? from.fraction : 0.0,
                     high = chord == to.chord ? to.fraction : 1.0;
        const double length =
            point_distance(work->chords->at[chord], work->chords->at[chord + 1]) * (high - low);
        const double wanted = ceil(length / step);
        const int steps = wanted < 1.0 ? 1 : wanted > STEPS_MAX ? STEPS_MAX : (int)wanted;
        // The middles of the steps, so that the crossings at the ends, which are always near the limit, do
        // not count.
        for (int i = 0; i < steps; i++) {
            const Place place = {.chord = chord, .fraction = low + (high - low) * (i + 0.5) / steps};
            if (first) {
                walk.good = is_good(work, place);
                walk.last = place;
                first = false;
            } else {
                walk_to(work, &walk, place);
            }
        }
    }
    if (ends_at < 0)
        walk_to(work, &walk, to);
    if (walk.good)
        ARRAY_ADD(
            &work->stretches,
            ((Stretch){
                .from = walk.from, .to = to, .starts_at = walk.starts_at, .ends_at = ends_at, .next = -1}));
}

static void add_places(Work *work, const MeetList *meets) {
    work->place_count = 2 * meets->count;
    if (meets->count == 0)
        return;
    work->places = mem_resize(NULL, sizeof *work->places * (size_t)work->place_count);
    for (int i = 0; i < meets->count; i++) {
        const Meet *m = &meets->items[i];
        work->places[2 * i] = (Place){.chord = m->a, .fraction = m->on_a, .meet = i};
        work->places[2 * i + 1] = (Place){.chord = m->b, .fraction = m->on_b, .meet = i};
    }
    qsort(work->places, (size_t)work->place_count, sizeof *work->places, compare_places);
    int *seen = mem_resize(NULL, sizeof *seen * (size_t)meets->count);
    for (int i = 0; i < meets->count; i++)
        seen[i] = -1;
    for (int i = 0; i < work->place_count; i++) {
        const int meet = work->places[i].meet, other = seen[meet];
        if (other >= 0) {
            work->places[i].partner = other;
            work->places[other].partner = i;
        }
        seen[meet] = i;
    }
    mem_free(seen);
}

// Stretches that end at a crossing go on along the other strand, else straight on.
static void join_stretches(Work *work) {
    int *starts = mem_resize(NULL, sizeof *starts * ((size_t)work->place_count + 1));
    for (int i = 0; i < work->place_count; i++)
        starts[i] = -1;
    for (int i = 0; i < work->stretches.count; i++)
        if (work->stretches.items[i].starts_at >= 0)
            starts[work->stretches.items[i].starts_at] = i;
    for (int turning = 1; turning >= 0; turning--) {
        for (int i = 0; i < work->stretches.count; i++) {
            Stretch *stretch = &work->stretches.items[i];
            if (stretch->ends_at < 0 || stretch->next >= 0)
                continue;
            const int next = starts[turning ? work->places[stretch->ends_at].partner : stretch->ends_at];
            if (next < 0 || work->stretches.items[next].follows)
                continue;
            stretch->next = next;
            work->stretches.items[next].follows = true;
        }
    }
    mem_free(starts);
}

static double stretch_length(const Work *work, const Stretch *stretch) {
    Point at = place_point(work, stretch->from);
    double length = 0.0;
    for (int i = stretch->from.chord + 1; i <= stretch->to.chord; i++) {
        length += point_distance(at, work->chords->at[i]);
        at = work->chords->at[i];
    }
    return length + point_distance(at, place_point(work, stretch->to));
}

// The first stretch of the longest row, or -1. A row that closes on itself is cut open at its first stretch.
static int longest_row(Work *work) {
    const int count = work->stretches.count;
    bool *seen = mem_new(sizeof *seen * (size_t)count + 1);
    double longest = 0.0;
    int found = -1;
    for (int closed = 0; closed < 2; closed++) {
        for (int i = 0; i < count; i++) {
            if (seen[i] || (!closed && work->stretches.items[i].follows))
                continue;
            double length = 0.0;
            for (int at = i; at >= 0 && !seen[at]; at = work->stretches.items[at].next) {
                seen[at] = true;
                length += stretch_length(work, &work->stretches.items[at]);
            }
            if (length > longest + POINT_SAME_MM) {
                longest = length;
                found = i;
            }
        }
    }
    mem_free(seen);
    return longest > POINT_SAME_MM ? found : -1;
}

// The point where a stretch joins its neighbour; its spot on the raw path is polished with the crossing.
static Point joint(const Work *work, int place, PathSpot *spot) {
    const Place *here = &work->places[place], *there = &work->places[here->partner];
    PathSpot other = chords_spot(work->chords, there->chord, there->fraction);
    return meet_polish(work->raw, spot, &other);
}

static void extract_row(const Work *work, int first, Path *out) {
    int at = first;
    do {
        const Stretch *stretch = &work->stretches.items[at];
        PathSpot from = chords_spot(work->chords, stretch->from.chord, stretch->from.fraction);
        PathSpot to = chords_spot(work->chords, stretch->to.chord, stretch->to.fraction);
        Point begin = segment_point(&work->raw->items[from.index], from.t);
        Point end = segment_point(&work->raw->items[to.index], to.t);
        if (stretch->starts_at >= 0)
            begin = joint(work, stretch->starts_at, &from);
        if (stretch->ends_at >= 0)
            end = joint(work, stretch->ends_at, &to);
        if (out->count > 0)
            begin = out->items[out->count - 1].p3;
        if (from.index < to.index || (from.index == to.index && from.t < to.t))
            stretch_add(work->raw, from, begin, to, end, out);
        at = stretch->next;
    } while (at >= 0 && at != first);
}

// Whether a stretch is the whole raw parallel.
static bool is_whole(const Work *work, int index) {
    const Stretch *stretch = &work->stretches.items[index];
    return stretch->from.chord == 0 && stretch->from.fraction == 0.0 &&
           stretch->to.chord == work->chords->count - 1 && stretch->to.fraction == 1.0;
}

GeomError unloop_open(Path *raw, const Path *source, double distance, double tolerance) {
    if (source->count == 1 && source->items[0].kind == SEGMENT_LINE)
        return GEOM_OK;
    Chords chords, source_chords;
    chords_init(&chords, raw, false, true);
    chords_init(&source_chords, source, false, false);
    MeetList meets = {0};
    chords_meets(&chords, &meets);
    Work work = {.raw = raw,
                 .chords = &chords,
                 .source = &source_chords,
                 .least = distance - NEAR_SHARE * tolerance - CHORD_FIT_MM};
    add_places(&work, &meets);
    Place from = {.chord = 0, .fraction = 0.0};
    for (int i = 0; i <= work.place_count; i++) {
        const bool last = i == work.place_count;
        const Place to = last ? (Place){.chord = chords.count - 1, .fraction = 1.0} : work.places[i];
        add_stretches(&work, from, i - 1, to, last ? -1 : i, STEP_SHARE * distance);
        from = to;
    }
    join_stretches(&work);
    const int row = longest_row(&work);
    const bool whole = row >= 0 && meets.count == 0 && is_whole(&work, row);
    Path kept = {0};
    if (row >= 0 && !whole)
        extract_row(&work, row, &kept);
    mem_free(work.places);
    mem_free(work.stretches.items);
    mem_free(meets.items);
    chords_finish(&source_chords);
    chords_finish(&chords);
    if (whole)
        return GEOM_OK;
    if (kept.count == 0) {
        path_finish(&kept);
        return GEOM_VANISHES;
    }
    path_finish(raw);
    *raw = kept;
    return GEOM_OK;
}
