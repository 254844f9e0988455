// A growing run of bytes, always ended by a NUL so that it can be read as text.
#ifndef REBATO_BASE_BUFFER_H
#define REBATO_BASE_BUFFER_H

#include <stddef.h>

typedef struct Buffer {
    char *data; // never NULL after buffer_init
    size_t length;
    size_t capacity;
} Buffer;

void buffer_init(Buffer *buffer);
void buffer_finish(Buffer *buffer);
void buffer_clear(Buffer *buffer);
void buffer_add(Buffer *buffer, const void *bytes, size_t length);
void buffer_add_text(Buffer *buffer, const char *text);
void buffer_add_char(Buffer *buffer, char c);
void buffer_add_format(Buffer *buffer, const char *format, ...) __attribute__((format(printf, 2, 3)));

// Adds words with filled[0] for each {1}, filled[1] for {2} ... up to {9}.
void buffer_fill(Buffer *buffer, const char *words, const char *const *filled, int count);

#endif
