// Walking seams: lengths, ease, notches carried on to the partner.
#ifndef REBATO_PATTERN_SEAM_H
#define REBATO_PATTERN_SEAM_H

#include "pattern/pattern.h"

typedef struct SeamWalk {
    double length_a, length_b;
    double difference; // length_a - length_b - ease
    bool holds;
} SeamWalk;

SeamWalk seam_walk(const Pattern *pattern, const Seam *seam);
double seam_side_length(const Pattern *pattern, const SeamEdgeList *side);

// Puts a group of notches at a distance from the matched first end of side a (negative: from its last end),
// on both sides; on b at the same part of its length where there is ease. The twins of an edge over a fold
// are notched with it, unless they have a seam of their own. GEOM_BEYOND_END.
GeomError seam_notch(Pattern *pattern, int seam, double at, int count);

// Marks on the partner where a run of several edges passes from one to the next (the shoulder on a collar).
void seam_notch_joints(Pattern *pattern, int seam);

// Where a place on one side comes to lie on the other: at the same distance from the matched first end, or at
// the same part of the length where there is ease.
double seam_partner(const Seam *seam, SeamWalk walk, double at, bool from_a);

bool seam_side_has(const SeamEdgeList *side, int piece, int edge);

// From a place on a side to the nearest end of one of its edges, mm.
double seam_nearest_joint(const Pattern *pattern, const SeamEdgeList *side, double at);

typedef struct SeamNotch {
    double at; // from the matched first end
    int count;
    int piece, edge;
    bool own; // this seam put it there
} SeamNotch;
typedef struct SeamNotchList {
    SeamNotch *items;
    int count, capacity;
} SeamNotchList;

// All notches on one side of a seam. The list is the caller's, freed with mem_free(list.items).
void seam_side_notches(const Pattern *pattern, const Seam *seam, bool on_a, SeamNotchList *out);

#endif
