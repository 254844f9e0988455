// What a hand lays on what as it pins a seam: notches on notches, and notches on the joints between the edges
// of the other side, as the notch of a collar on the shoulder seam.
#ifndef REBATO_PATTERN_SEAM_MATCH_H
#define REBATO_PATTERN_SEAM_MATCH_H

#include "pattern/seam.h"

typedef struct SeamMatch {
    double at_a, at_b;    // from the matched first end
    int notch_a, notch_b; // in the lists of seam_side_notches, or -1
    int joint_a, joint_b; // the edge that ends there, or -1
} SeamMatch;

typedef struct SeamMatchList {
    SeamMatch *items;
    int count, capacity;
} SeamMatchList;

// In no order that means anything; joints that meet joints are among them. The list is the caller's, freed
// with mem_free(list.items).
void seam_matches(const Pattern *pattern, const Seam *seam, SeamMatchList *out);

int seam_matched_notches(const Pattern *pattern, const Seam *seam); // those with a notch in them

#endif
