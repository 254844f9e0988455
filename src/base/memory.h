// Memory that never comes back empty-handed: when there is none, the program ends with one sentence.
#ifndef REBATO_BASE_MEMORY_H
#define REBATO_BASE_MEMORY_H

#include <stddef.h>

// Zeroed memory; the caller owns it and gives it back with mem_free.
void *mem_new(size_t size);

// As realloc; what is new is not zeroed.
void *mem_resize(void *old, size_t size);

// A copy of text, or NULL for NULL.
char *mem_text(const char *text);

void mem_free(void *old);

// Adds item to a growing array, a struct with the fields items, count and capacity.
#define ARRAY_ADD(array, item)                                                                               \
    do {                                                                                                     \
        if ((array)->count == (array)->capacity) {                                                           \
            (array)->capacity = (array)->capacity ? (array)->capacity * 2 : 8;                               \
            (array)->items = mem_resize((array)->items, sizeof *(array)->items * (size_t)(array)->capacity); \
        }                                                                                                    \
        (array)->items[(array)->count++] = (item);                                                           \
    } while (0)

#endif
