#include "booklet/bulk.h"

#include <string.h>

static void add_spans(Bulk *bulk, SpanList spans) {
    bulk->runs += 1 + spans.count;
    for (int i = 0; i < spans.count; i++)
        bulk->bytes += strlen(spans.items[i].text);
}

static void add_text(Bulk *bulk, const char *text) {
    for (; *text != '\0'; text++) {
        bulk->bytes++;
        bulk->runs += *text == '\n';
    }
}

void bulk_add(Bulk *bulk, const BookBlock *blocks, int count) {
    for (int i = 0; i < count; i++) {
        const BookBlock *block = &blocks[i];
        const BookTable *table = block->table;
        add_spans(bulk, block->spans);
        if (block->text != NULL)
            add_text(bulk, block->text);
        for (int k = 0; table != NULL && k < table->row_count * table->column_count; k++)
            add_spans(bulk, table->cells[k].spans);
        bulk_add(bulk, block->items, block->count);
    }
}

bool bulk_fits_pages(const Bulk *bulk) {
    return bulk->bytes <= BULK_BYTES_MOST && bulk->runs <= BULK_RUNS_MOST;
}
