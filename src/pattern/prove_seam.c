#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/mend.h"
#include "pattern/proving.h"
#include "pattern/seam.h"

#define NOTCH_MEETS_MM 0.1
#define ALLOWANCE_SAME_MM 0.05
#define OVERLAP_MM 1.0 // edges that lie beside each other for less are neighbours, not partners
#define SMOOTH_WITHIN 2.0
#define STRAIGHT_ON_DEGREES 1.0

static const Edge *edge_of(const Pattern *pattern, SeamEdge place) {
    return &pattern->pieces.items[place.piece].edges.items[place.edge];
}

static const char *piece_name(const Pattern *pattern, SeamEdge place) {
    return pattern->pieces.items[place.piece].name;
}

// The index in the outline of the edge whose end is the corner at an end of the seam, walked along one side.
static int corner_index(const Pattern *pattern, const SeamEdgeList *side, PathEnd end) {
    const SeamEdge place = side->items[end == PATH_FIRST ? 0 : side->count - 1];
    const bool with_outline = place.backward == edge_of(pattern, place)->backward;
    const int count = pattern->pieces.items[place.piece].edges.count;
    const bool at_end = (end == PATH_LAST) == with_outline;
    return at_end ? place.edge : (place.edge + count - 1) % count;
}

// The edge of the piece that is not sewn and meets the side at that end.
static const Edge *neighbour(const Pattern *pattern, const SeamEdgeList *side, PathEnd end) {
    const SeamEdge place = side->items[end == PATH_FIRST ? 0 : side->count - 1];
    const Piece *piece = &pattern->pieces.items[place.piece];
    const int corner = corner_index(pattern, side, end);
    return &piece->edges.items[corner == place.edge ? (corner + 1) % piece->edges.count : corner];
}

static void mend_length(Pattern *pattern, const Seam *seam, SeamWalk walk, Proof *proof) {
    const bool a_long = walk.difference > 0;
    const SeamEdgeList *side = a_long ? &seam->a : &seam->b, *other = a_long ? &seam->b : &seam->a;
    const double meant = walk.length_a - walk.length_b;
    const MendPart parts[] = {{.name = edge_of(pattern, side->items[0])->name},
                              {.name = piece_name(pattern, side->items[0])},
                              {.mm = fabs(walk.difference)},
                              {.name = edge_of(pattern, other->items[0])->name},
                              {.name = piece_name(pattern, other->items[0])},
                              {.name = neighbour(pattern, side, PATH_LAST)->name},
                              {.mm = fabs(meant)},
                              {.name = piece_name(pattern, meant > 0 ? seam->a.items[0] : seam->b.items[0])}};
    proof_mend(pattern, proof, "mend.seam", parts, sizeof parts / sizeof *parts);
}

static void prove_length(Pattern *pattern, const Seam *seam) {
    const SeamWalk walk = seam_walk(pattern, seam);
    const SeamEdge place = seam->a.items[0];
    Proof proof = {.step = seam->step,
                   .measure = MEASURE_LENGTH,
                   .found = walk.length_a,
                   .wanted = walk.length_b + seam->ease,
                   .relation = "equal",
                   .tolerance = seam->tolerance,
                   .holds = walk.holds,
                   .piece = place.piece,
                   .edge = place.edge};
    if (!walk.holds)
        mend_length(pattern, seam, walk, &proof);
    proof_add(pattern, proof, "seam: %s", seam->name);
}

// The notch or, for a single one, the joint of edges that is to meet a notch of the other side: how far it is
// off, mm.
static double notch_miss(const Pattern *pattern, const Seam *seam, SeamWalk walk, const SeamNotch *notch,
                         bool on_a, const SeamNotchList *others) {
    const double at = seam_partner(seam, walk, notch->at, on_a);
    double miss = INFINITY;
    for (int i = 0; i < others->count; i++)
        if (others->items[i].count == notch->count)
            miss = fmin(miss, fabs(others->items[i].at - at));
    if (notch->count == 1)
        miss = fmin(miss, seam_nearest_joint(pattern, on_a ? &seam->b : &seam->a, at));
    // With no partner at all it misses by as much as the seam is long.
    return fmin(miss, fmax(walk.length_a, walk.length_b));
}

static void prove_notches(Pattern *pattern, const Seam *seam) {
    SeamNotchList on_a = {0}, on_b = {0};
    seam_side_notches(pattern, seam, true, &on_a);
    seam_side_notches(pattern, seam, false, &on_b);
    bool any = false;
    for (int i = 0; i < on_a.count + on_b.count && !any; i++)
        any = i < on_a.count ? on_a.items[i].own : on_b.items[i - on_a.count].own;
    if (any) {
        const SeamWalk walk = seam_walk(pattern, seam);
        double worst = -1;
        SeamNotch where = {0};
        for (int i = 0; i < on_a.count + on_b.count; i++) {
            const bool a = i < on_a.count;
            const SeamNotch *notch = a ? &on_a.items[i] : &on_b.items[i - on_a.count];
            const double miss = notch_miss(pattern, seam, walk, notch, a, a ? &on_b : &on_a);
            if (!notch->own || miss <= worst)
                continue;
            worst = miss;
            where = *notch;
        }
        Proof proof = {.step = seam->step,
                       .measure = MEASURE_LENGTH,
                       .found = worst,
                       .wanted = NOTCH_MEETS_MM,
                       .relation = "at most",
                       .holds = worst <= NOTCH_MEETS_MM,
                       .piece = where.piece,
                       .edge = where.edge};
        if (!proof.holds)
            proof_mend(pattern, &proof, "mend.notch",
                       (MendPart[]){{.mm = where.at}, {.name = pattern->pieces.items[where.piece].name}}, 2);
        proof_add(pattern, proof, "notches: %s", seam->name);
    }
    mem_free(on_a.items);
    mem_free(on_b.items);
}

static double sewn_allowance(const Edge *edge) {
    return edge->fold ? 0 : edge->allowance;
}

static bool on_paper(const Pattern *pattern, const SeamEdgeList *side) {
    for (int i = 0; i < side->count; i++)
        if (piece_is_template(&pattern->pieces.items[side->items[i].piece]))
            return true;
    return false;
}

// Walks both sides together, stretch by stretch, and proves that the stretches sewn to each other have one
// allowance. A template to trace is net: the cutter's own block has the allowance.
static void prove_allowance(Pattern *pattern, const Seam *seam) {
    if (on_paper(pattern, &seam->a) || on_paper(pattern, &seam->b))
        return;
    const SeamWalk walk = seam_walk(pattern, seam);
    const double scale = walk.length_b > 0 ? walk.length_a / walk.length_b : 1;
    SeamEdge worst_a = seam->a.items[0], worst_b = seam->b.items[0];
    double worst = -1, a_from = 0, b_from = 0;
    for (int i = 0, k = 0; i < seam->a.count && k < seam->b.count;) {
        const Edge *a = edge_of(pattern, seam->a.items[i]), *b = edge_of(pattern, seam->b.items[k]);
        const double a_to = a_from + path_length(&a->path), b_to = b_from + path_length(&b->path) * scale;
        const double apart = fabs(sewn_allowance(a) - sewn_allowance(b));
        if (fmin(a_to, b_to) - fmax(a_from, b_from) > OVERLAP_MM && apart > worst) {
            worst = apart;
            worst_a = seam->a.items[i];
            worst_b = seam->b.items[k];
        }
        const bool a_first = a_to <= b_to;
        if (a_first || k == seam->b.count - 1) {
            i++;
            a_from = a_to;
        }
        if (!a_first || i == seam->a.count) {
            k++;
            b_from = b_to;
        }
    }
    const double a = sewn_allowance(edge_of(pattern, worst_a)), b = sewn_allowance(edge_of(pattern, worst_b));
    Proof proof = {.step = seam->step,
                   .measure = MEASURE_LENGTH,
                   .found = a,
                   .wanted = b,
                   .relation = "equal",
                   .tolerance = ALLOWANCE_SAME_MM,
                   .holds = fabs(a - b) <= ALLOWANCE_SAME_MM,
                   .piece = worst_a.piece,
                   .edge = worst_a.edge};
    if (!proof.holds)
        proof_mend(pattern, &proof, "mend.allowance",
                   (MendPart[]){{.name = edge_of(pattern, worst_a)->name},
                                {.name = piece_name(pattern, worst_a)},
                                {.mm = a},
                                {.name = edge_of(pattern, worst_b)->name},
                                {.name = piece_name(pattern, worst_b)},
                                {.mm = b}},
                   6);
    proof_add(pattern, proof, "allowance: %s", seam->name);
}

static double side_corner(const Pattern *pattern, const SeamEdgeList *side, PathEnd end) {
    const SeamEdge place = side->items[end == PATH_FIRST ? 0 : side->count - 1];
    return piece_corner_angle(&pattern->pieces.items[place.piece], corner_index(pattern, side, end));
}

// Where the seam runs straight on into a twin over a fold there is no corner to prove.
static bool runs_on(const Pattern *pattern, const SeamEdgeList *side, PathEnd end) {
    const SeamEdge place = side->items[end == PATH_FIRST ? 0 : side->count - 1];
    return strcmp(neighbour(pattern, side, end)->root, edge_of(pattern, place)->root) == 0 &&
           fabs(side_corner(pattern, side, end) - 180) <= STRAIGHT_ON_DEGREES;
}

static void prove_corner(Pattern *pattern, const Seam *seam, PathEnd end) {
    if (runs_on(pattern, &seam->a, end) || runs_on(pattern, &seam->b, end))
        return;
    const double a = side_corner(pattern, &seam->a, end), b = side_corner(pattern, &seam->b, end);
    const SeamEdge place = seam->a.items[end == PATH_FIRST ? 0 : seam->a.count - 1];
    Proof proof = {.step = seam->step,
                   .measure = MEASURE_ANGLE,
                   .found = a + b,
                   .wanted = 180,
                   .relation = "equal",
                   .tolerance = SMOOTH_WITHIN,
                   .holds = fabs(a + b - 180) <= SMOOTH_WITHIN,
                   .piece = place.piece,
                   .edge = place.edge};
    if (!proof.holds)
        proof_mend(pattern, &proof, a + b < 180 ? "mend.smooth_peak" : "mend.smooth_dip",
                   (MendPart[]){{.name = neighbour(pattern, &seam->a, end)->name},
                                {.name = piece_name(pattern, seam->a.items[0])},
                                {.name = neighbour(pattern, &seam->b, end)->name},
                                {.name = piece_name(pattern, seam->b.items[0])}},
                   4);
    proof_add(pattern, proof, "smooth: %s, %s end", seam->name, end == PATH_FIRST ? "first" : "last");
}

void prove_seam(Pattern *pattern, int index) {
    const Seam *seam = &pattern->seams.items[index];
    prove_length(pattern, seam);
    prove_allowance(pattern, seam);
    prove_notches(pattern, seam);
    if (seam->smooth_first)
        prove_corner(pattern, seam, PATH_FIRST);
    if (seam->smooth_last)
        prove_corner(pattern, seam, PATH_LAST);
}
