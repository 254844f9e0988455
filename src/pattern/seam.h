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

// Puts a group of notches at a distance from the matched first end of side a, on both sides; on b at the same part of
// its length where there is ease. GEOM_BEYOND_END.
GeomError seam_notch(Pattern *pattern, int seam, double at, int count);

// Marks on the partner where a run of several edges passes from one to the next (the shoulder on a collar).
void seam_notch_joints(Pattern *pattern, int seam);

#endif
