// How much there is to set in type: letters, and the runs and blocks they stand in.
#ifndef REBATO_BOOKLET_BULK_H
#define REBATO_BOOKLET_BULK_H

#include "booklet/document.h"

// A page holds about 3 KB and 60 runs: so much makes more than a hundred of them, in seconds.
#define BULK_BYTES_MOST (512 * 1024)
#define BULK_RUNS_MOST 20000
// Of one paragraph, cell or line of code, set as one: pango's widths, in 1/1024 points, end at 2 million
// points, which is 80 KB of the largest letters of all.
#define BULK_BLOCK_MOST (64 * 1024)

typedef struct Bulk {
    size_t bytes;
    size_t block; // of the longest paragraph, cell or line of code
    long runs;    // spans, blocks, cells and lines of code
} Bulk;

void bulk_add(Bulk *bulk, const BookBlock *blocks, int count);
bool bulk_fits_pages(const Bulk *bulk); // each of its blocks too

#endif
