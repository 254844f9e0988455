// The order of a booklet: the front, the contents; the necklines cut before the collar and the collar itself,
// step by step; cutting, sewing, proofs; then the block it all stands on, which a cutter often has already;
// and at the end what it takes to draft the same again.
#include "booklet/compose.h"

#include <string.h>

#include "base/memory.h"
#include "booklet/composing.h"

static void add_lessons(Composing *c, bool blocks, BlockList *out) {
    for (int i = 0; i < c->pattern->chapters.count; i++)
        if (c->pattern->chapters.items[i].depth == 0 && lesson_is_block(c, i) == blocks)
            add_lesson(c, i, blocks, out);
}

static const char *plain_text(Composing *c, SpanList spans) {
    Buffer text;
    buffer_init(&text);
    for (int i = 0; i < spans.count; i++)
        buffer_add_text(&text, strcmp(spans.items[i].text, "\n") == 0 ? " " : spans.items[i].text);
    return keep(c, &text);
}

typedef struct Entries {
    BookEntry *items;
    int count, capacity;
} Entries;

static void find_entries(Composing *c, const BookBlock *blocks, int count, int depth, Entries *out) {
    for (int i = 0; i < count; i++) {
        const BookBlock *block = &blocks[i];
        if (block->kind != BOOK_SECTION || block->role == ROLE_FRONT || block->role == ROLE_CONTENTS)
            continue;
        if (block->anchor) {
            const BookBlock *heading = &block->items[0];
            BookEntry entry = {.depth = depth,
                               .authored = heading->authored,
                               .language = heading->language,
                               .number = heading->number,
                               .title = plain_text(c, heading->spans),
                               .anchor = block->anchor};
            ARRAY_ADD(out, entry);
        }
        find_entries(c, block->items, block->count, depth + (block->anchor ? 1 : 0), out);
    }
}

static void settle_spans(const Entries *entries, SpanList spans) {
    for (int i = 0; i < spans.count; i++) {
        Span *span = (Span *)&spans.items[i]; // the book's own
        if (!span->link || span->link[0] != '#')
            continue;
        bool there = false;
        for (int k = 0; k < entries->count && !there; k++)
            there = strcmp(entries->items[k].anchor, span->link + 1) == 0;
        if (!there)
            span->link = NULL;
    }
}

// Takes links away that lead to a section that was left out.
static void settle_links(const Entries *entries, BookBlock *blocks, int count) {
    for (int i = 0; i < count; i++) {
        settle_spans(entries, blocks[i].spans);
        const BookTable *table = blocks[i].table;
        for (int k = 0; table && k < table->row_count * table->column_count; k++)
            settle_spans(entries, table->cells[k].spans);
        settle_links(entries, blocks[i].items, blocks[i].count);
    }
}

static void add_contents(Composing *c, BlockList *out) {
    BlockList inner = {0};
    add_block(&inner, (BookBlock){.kind = BOOK_CONTENTS});
    add_section(c, out, ROLE_CONTENTS, 2, "contents", say(c, "contents", NULL), &inner);
}

// What is left to mind, told nowhere yet, from a step that is not told: under the title and what is not
// proven, before all that a cutter looks up.
static void add_rest_of_remarks(Composing *c, BookBlock *front) {
    BlockList inner = {0};
    int at = 0;
    for (; at < front->count && front->items[at].kind != BOOK_FIGURE && front->items[at].kind != BOOK_SECTION;
         at++)
        add_block(&inner, front->items[at]);
    add_remarks(c, -1, &inner);
    for (; at < front->count; at++)
        add_block(&inner, front->items[at]);
    BlockList one = {0};
    add_holding(c, &one, *front, &inner);
    *front = one.items[0];
    mem_free(one.items);
}

void book_compose(const Pattern *pattern, const Shelf *shelf, const ComposeOptions *options, Book *out,
                  Buffer *notes) {
    *out = (Book){.pattern = pattern,
                  .title = pattern->title,
                  .paper_width = options->paper_width,
                  .paper_height = options->paper_height};
    Composing c = {.pattern = pattern,
                   .shelf = shelf,
                   .options = options,
                   .book = out,
                   .arena = &out->arena,
                   .notes = notes,
                   .image_room = {.bytes = IMAGES_BYTES_MOST, .pixels = IMAGES_PIXELS_MOST},
                   .language = options->language ? options->language : language_english()};
    arena_init(c.arena);
    out->pictures = pictures_new(pattern);
    c.told = arena_take(c.arena, sizeof *c.told * (size_t)(pattern->remarks.count + 1));
    lessons_find(&c);
    lessons_stated(&c);
    if (!options->language && language_find(out->prose_language))
        c.language = language_find(out->prose_language);
    out->language = c.language;
    out->subject = pattern->chapters.items[c.last].summary;

    BlockList blocks = {0};
    add_front(&c, &blocks);
    add_contents(&c, &blocks);
    add_lessons(&c, false, &blocks);
    add_cutting(&c, &blocks);
    add_sewing(&c, &blocks);
    add_proofs(&c, &blocks);
    add_lessons(&c, true, &blocks);
    add_version(&c, &blocks);
    add_rest_of_remarks(&c, &blocks.items[0]);
    if (c.pictures_left_out > 0)
        buffer_add_format(notes, "the lesson shows the first %d pictures of its steps and leaves %d out\n",
                          c.step_pictures, c.pictures_left_out);

    out->count = blocks.count;
    out->blocks = arena_take(c.arena, sizeof *out->blocks * (size_t)blocks.count);
    memcpy(out->blocks, blocks.items, sizeof *out->blocks * (size_t)blocks.count);
    mem_free(blocks.items);
    Entries entries = {0};
    find_entries(&c, out->blocks, out->count, 0, &entries);
    settle_links(&entries, out->blocks, out->count);
    BookEntry *kept = arena_take(c.arena, sizeof *kept * (size_t)(entries.count + 1));
    if (entries.count)
        memcpy(kept, entries.items, sizeof *kept * (size_t)entries.count);
    out->entries = kept;
    out->entry_count = entries.count;
    mem_free(entries.items);
}
