#include "booklet/bulk.h"

#include <criterion/criterion.h>

#include "booked.h"

static void fits(const char *name, const Booked *b) {
    Bulk bulk = {0};
    bulk_add(&bulk, b->book.blocks, b->book.count);
    cr_expect(bulk.bytes * 5 < BULK_BYTES_MOST && bulk.runs * 5 < BULK_RUNS_MOST, "%s: %zu bytes, %ld runs",
              name, bulk.bytes, bulk.runs);
}

Test(bulk, every_recipe_of_the_shelf_is_far_from_too_long, .timeout = 300) {
    booked_each(fits);
}

Test(bulk, letters_runs_cells_and_lines_of_code_are_counted) {
    const Span spans[] = {{.text = "ab"}, {.text = "c"}};
    const BookCell cells[] = {{.spans = {.items = spans, .count = 2}}, {.spans = {0}}};
    const BookTable table = {.cells = cells, .row_count = 1, .column_count = 2};
    const BookBlock blocks[] = {{.kind = BOOK_PARAGRAPH, .spans = {.items = spans, .count = 2}},
                                {.kind = BOOK_CODE, .text = "x\ny\n"},
                                {.kind = BOOK_TABLE, .table = &table}};
    Bulk bulk = {0};
    bulk_add(&bulk, blocks, 3);
    cr_expect_eq(bulk.bytes, 3 + 4 + 3);
    cr_expect_eq(bulk.runs, 3 + (1 + 2) + (1 + 3 + 1));
    cr_expect(bulk_fits_pages(&bulk));
    cr_expect_eq(bulk.block, 3);
    bulk.runs = BULK_RUNS_MOST + 1;
    cr_expect_not(bulk_fits_pages(&bulk));
    bulk.runs = 0;
    bulk.block = BULK_BLOCK_MOST + 1;
    cr_expect_not(bulk_fits_pages(&bulk));
}
