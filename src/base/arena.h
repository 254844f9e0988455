// An arena: memory handed out in order and given back all at once. A pattern keeps everything it owns in one.
#ifndef REBATO_BASE_ARENA_H
#define REBATO_BASE_ARENA_H

#include <stddef.h>

typedef struct ArenaBlock ArenaBlock;

typedef struct Arena {
    ArenaBlock *last;
    size_t bytes; // handed out so far
} Arena;

void arena_init(Arena *arena);
void arena_finish(Arena *arena); // accepts a zeroed arena

void *arena_take(Arena *arena, size_t size);            // zeroed, aligned for any type
const char *arena_text(Arena *arena, const char *text); // NULL gives NULL
const char *arena_text_n(Arena *arena, const char *text, size_t length);
const char *arena_format(Arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
