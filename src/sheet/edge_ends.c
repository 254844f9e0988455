#include "sheet/edge_ends.h"

#include <stdlib.h>

#include "base/memory.h"
#include "geometry/tolerance.h"

static int order_of(double a, double b) {
    return a < b ? -1 : a > b;
}

static int end_order(const void *a, const void *b) {
    const EdgeEnd *x = a, *y = b;
    return order_of(x->at.x, y->at.x);
}

void edge_ends_init(EdgeEnds *ends, const Pattern *pattern, int draft) {
    *ends = (EdgeEnds){.items = NULL};
    for (int i = 0; i < pattern->pieces.count; i++) {
        const Piece *piece = &pattern->pieces.items[i];
        for (int k = 0; k < piece->edges.count && piece->draft == draft; k++) {
            const Point first = path_first(&piece->edges.items[k].path),
                        last = path_last(&piece->edges.items[k].path);
            ARRAY_ADD(ends, ((EdgeEnd){first, last}));
            ARRAY_ADD(ends, ((EdgeEnd){last, first}));
        }
    }
    if (ends->count > 0)
        qsort(ends->items, (size_t)ends->count, sizeof *ends->items, end_order);
}

void edge_ends_finish(EdgeEnds *ends) {
    mem_free(ends->items);
    *ends = (EdgeEnds){.items = NULL};
}

bool edge_ends_has(const EdgeEnds *ends, const Path *path) {
    const Point first = path_first(path), last = path_last(path);
    int low = 0, high = ends->count;
    while (low < high) {
        const int middle = (low + high) / 2;
        if (ends->items[middle].at.x < first.x - POINT_SAME_MM)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < ends->count && ends->items[low].at.x <= first.x + POINT_SAME_MM; low++)
        if (point_same(ends->items[low].at, first) && point_same(ends->items[low].other, last))
            return true;
    return false;
}
