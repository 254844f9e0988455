#include "pattern/seam_match.h"

#include <math.h>

#include "base/memory.h"
#include "geometry/tolerance.h"

#define NEAR_MM 3.0 // what lies this near the place where it should lie is meant to lie there

typedef struct Matching {
    const Pattern *pattern;
    const Seam *seam;
    SeamWalk walk;
    SeamNotchList a, b;
    SeamMatchList *out;
} Matching;

static bool notch_is_matched(const Matching *matching, bool on_a, int notch) {
    for (int i = 0; i < matching->out->count; i++) {
        const SeamMatch *match = &matching->out->items[i];
        if ((on_a ? match->notch_a : match->notch_b) == notch)
            return true;
    }
    return false;
}

// As far from an end as the other one: so are notches set between which all of the ease lies.
static bool is_level(const Matching *matching, const SeamNotch *mine, const SeamNotch *other) {
    const double before = other->at - mine->at;
    const double behind = matching->walk.length_b - matching->walk.length_a - before;
    return fmin(fabs(before), fabs(behind)) <= POINT_ON_MM;
}

// Groups of as many notches first, then the nearest.
static void match_notch(const Matching *matching, int notch) {
    const SeamNotch *mine = &matching->a.items[notch];
    const double wanted = seam_partner(matching->seam, matching->walk, mine->at, true);
    int best = -1;
    double least = INFINITY;
    for (int k = 0; k < matching->b.count; k++) {
        const SeamNotch *other = &matching->b.items[k];
        const double off = is_level(matching, mine, other) ? 0 : fabs(other->at - wanted);
        const double away = off + (other->count == mine->count ? 0 : NEAR_MM);
        if (off > NEAR_MM || away >= least || notch_is_matched(matching, false, k))
            continue;
        best = k;
        least = away;
    }
    if (best >= 0)
        ARRAY_ADD(matching->out, ((SeamMatch){mine->at, matching->b.items[best].at, notch, best, -1, -1}));
}

// The joint next to a place of a side, as the edge that ends there; -1 where there is none near it.
static int joint_near(const Pattern *pattern, const SeamEdgeList *side, double wanted, double *at) {
    double reached = 0;
    for (int i = 0; i + 1 < side->count; i++) {
        const SeamEdge *place = &side->items[i];
        reached += path_length(&pattern->pieces.items[place->piece].edges.items[place->edge].path);
        if (fabs(reached - wanted) > NEAR_MM)
            continue;
        *at = reached;
        return i;
    }
    return -1;
}

static void match_to_joint(const Matching *matching, bool on_a, int notch) {
    const double mine = (on_a ? &matching->a : &matching->b)->items[notch].at;
    const SeamEdgeList *other = on_a ? &matching->seam->b : &matching->seam->a;
    const double wanted = seam_partner(matching->seam, matching->walk, mine, on_a);
    double at;
    const int joint = joint_near(matching->pattern, other, wanted, &at);
    if (joint < 0)
        return;
    const SeamMatch match =
        on_a ? (SeamMatch){mine, at, notch, -1, -1, joint} : (SeamMatch){at, mine, -1, notch, joint, -1};
    ARRAY_ADD(matching->out, match);
}

static void match_joints(const Matching *matching) {
    const SeamEdgeList *side = &matching->seam->a;
    double reached = 0;
    for (int i = 0; i + 1 < side->count; i++) {
        const SeamEdge *place = &side->items[i];
        reached += path_length(&matching->pattern->pieces.items[place->piece].edges.items[place->edge].path);
        double at;
        const int joint = joint_near(matching->pattern, &matching->seam->b,
                                     seam_partner(matching->seam, matching->walk, reached, true), &at);
        if (joint >= 0)
            ARRAY_ADD(matching->out, ((SeamMatch){reached, at, -1, -1, i, joint}));
    }
}

void seam_matches(const Pattern *pattern, const Seam *seam, SeamMatchList *out) {
    out->count = 0;
    Matching matching = {.pattern = pattern, .seam = seam, .walk = seam_walk(pattern, seam), .out = out};
    seam_side_notches(pattern, seam, true, &matching.a);
    seam_side_notches(pattern, seam, false, &matching.b);
    for (int i = 0; i < matching.a.count; i++)
        match_notch(&matching, i);
    for (int i = 0; i < matching.a.count; i++)
        if (!notch_is_matched(&matching, true, i))
            match_to_joint(&matching, true, i);
    for (int i = 0; i < matching.b.count; i++)
        if (!notch_is_matched(&matching, false, i))
            match_to_joint(&matching, false, i);
    match_joints(&matching);
    mem_free(matching.a.items);
    mem_free(matching.b.items);
}

int seam_matched_notches(const Pattern *pattern, const Seam *seam) {
    SeamMatchList matches = {.items = NULL};
    seam_matches(pattern, seam, &matches);
    int count = 0;
    for (int i = 0; i < matches.count; i++)
        count += matches.items[i].notch_a >= 0 || matches.items[i].notch_b >= 0;
    mem_free(matches.items);
    return count;
}
