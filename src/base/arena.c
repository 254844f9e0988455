#include "base/arena.h"

#include <assert.h>
#include <stdalign.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"

#define BLOCK_FIRST 4096u
#define BLOCK_MOST (256u * 1024u)

struct ArenaBlock {
    ArenaBlock *before;
    size_t size; // of bytes
    size_t used;
    alignas(max_align_t) unsigned char bytes[];
};

void arena_init(Arena *arena) {
    *arena = (Arena){0};
}

void arena_finish(Arena *arena) {
    while (arena->last) {
        ArenaBlock *before = arena->last->before;
        mem_free(arena->last);
        arena->last = before;
    }
    arena->bytes = 0;
}

// Blocks double up to a limit, so a small pattern stays small and a large one takes few blocks.
static void add_block(Arena *arena, size_t least) {
    size_t size = arena->last ? arena->last->size * 2 : BLOCK_FIRST;
    if (size > BLOCK_MOST)
        size = BLOCK_MOST;
    if (size < least)
        size = least;
    ArenaBlock *block = mem_new(sizeof *block + size);
    block->before = arena->last;
    block->size = size;
    arena->last = block;
}

void *arena_take(Arena *arena, size_t size) {
    const size_t grain = alignof(max_align_t);
    assert(size < SIZE_MAX / 2);
    size = (size + grain - 1) / grain * grain;
    if (!arena->last || arena->last->size - arena->last->used < size)
        add_block(arena, size);
    void *taken = arena->last->bytes + arena->last->used;
    arena->last->used += size;
    arena->bytes += size;
    return taken;
}

const char *arena_text(Arena *arena, const char *text) {
    return text ? arena_text_n(arena, text, strlen(text)) : NULL;
}

const char *arena_text_n(Arena *arena, const char *text, size_t length) {
    char *copy = arena_take(arena, length + 1);
    if (length)
        memcpy(copy, text, length);
    return copy;
}

const char *arena_format(Arena *arena, const char *format, ...) {
    assert(format);
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    assert(length >= 0);
    char *text = arena_take(arena, (size_t)length + 1);
    vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    return text;
}
