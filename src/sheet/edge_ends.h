// The ends of the edges of all pieces traced on a draft, to tell a line that is one of them.
#ifndef REBATO_SHEET_EDGE_ENDS_H
#define REBATO_SHEET_EDGE_ENDS_H

#include "pattern/pattern.h"

typedef struct EdgeEnd {
    Point at, other; // the two ends of an edge
} EdgeEnd;

typedef struct EdgeEnds {
    EdgeEnd *items; // each edge from both its ends, by rising x of `at`
    int count, capacity;
} EdgeEnds;

void edge_ends_init(EdgeEnds *ends, const Pattern *pattern, int draft);
void edge_ends_finish(EdgeEnds *ends);

// An edge of a piece keeps the name the recipe gave it, not always that of the mark; so the ends are
// compared.
bool edge_ends_has(const EdgeEnds *ends, const Path *path);

#endif
