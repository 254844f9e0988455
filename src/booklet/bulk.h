// How much there is to set in type: letters, and the runs and blocks they stand in.
#ifndef REBATO_BOOKLET_BULK_H
#define REBATO_BOOKLET_BULK_H

#include "booklet/document.h"

// A page holds about 3 KB and 60 runs: so much makes more than a hundred of them, in seconds.
#define BULK_BYTES_MOST (512 * 1024)
#define BULK_RUNS_MOST 20000

typedef struct Bulk {
    size_t bytes;
    long runs; // spans, blocks, cells and lines of code
} Bulk;

void bulk_add(Bulk *bulk, const BookBlock *blocks, int count);
bool bulk_fits_pages(const Bulk *bulk);

#endif
