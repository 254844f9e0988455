#include "base/memory.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void *or_end(void *got) {
    if (got)
        return got;
    fputs("rebato: there is not enough memory\n", stderr);
    exit(EXIT_FAILURE);
}

void *mem_new(size_t size) {
    return or_end(calloc(1, size ? size : 1));
}

void *mem_resize(void *old, size_t size) {
    return or_end(realloc(old, size ? size : 1));
}

char *mem_text(const char *text) {
    if (!text)
        return NULL;
    size_t size = strlen(text) + 1;
    return memcpy(mem_new(size), text, size);
}

void mem_free(void *old) {
    free(old);
}
