#include "booklet/bulk.h"

#include <string.h>

static void add_block(Bulk *bulk, size_t bytes) {
    bulk->runs++;
    bulk->bytes += bytes;
    bulk->block = bytes > bulk->block ? bytes : bulk->block;
}

static void add_spans(Bulk *bulk, SpanList spans) {
    size_t bytes = 0;
    for (int i = 0; i < spans.count; i++)
        bytes += strlen(spans.items[i].text);
    bulk->runs += spans.count;
    add_block(bulk, bytes);
}

static void add_text(Bulk *bulk, const char *text) {
    while (*text != '\0') {
        const size_t line = strcspn(text, "\n"), ended = text[line] == '\n';
        add_block(bulk, line + ended);
        text += line + ended;
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
    return bulk->bytes <= BULK_BYTES_MOST && bulk->block <= BULK_BLOCK_MOST && bulk->runs <= BULK_RUNS_MOST;
}
