#include "base/buffer.h"

#include <assert.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"

#define CAPACITY_FIRST 64u

void buffer_init(Buffer *buffer) {
    *buffer = (Buffer){.data = mem_new(CAPACITY_FIRST), .capacity = CAPACITY_FIRST};
}

void buffer_finish(Buffer *buffer) {
    mem_free(buffer->data);
    *buffer = (Buffer){0};
}

void buffer_clear(Buffer *buffer) {
    buffer->length = 0;
    if (buffer->data)
        buffer->data[0] = '\0';
}

// Room for more bytes and the NUL that ends them.
static void make_room(Buffer *buffer, size_t more) {
    assert(more < SIZE_MAX / 4 && buffer->length < SIZE_MAX / 4);
    size_t wanted = buffer->length + more + 1;
    if (wanted <= buffer->capacity)
        return;
    size_t capacity = buffer->capacity ? buffer->capacity : CAPACITY_FIRST;
    while (capacity < wanted)
        capacity *= 2;
    buffer->data = mem_resize(buffer->data, capacity);
    buffer->capacity = capacity;
}

void buffer_add(Buffer *buffer, const void *bytes, size_t length) {
    make_room(buffer, length);
    if (length)
        memcpy(buffer->data + buffer->length, bytes, length);
    buffer->length += length;
    buffer->data[buffer->length] = '\0';
}

void buffer_add_text(Buffer *buffer, const char *text) {
    buffer_add(buffer, text, strlen(text));
}

void buffer_add_char(Buffer *buffer, char c) {
    buffer_add(buffer, &c, 1);
}

void buffer_add_format(Buffer *buffer, const char *format, ...) {
    assert(format);
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    assert(length >= 0);
    make_room(buffer, (size_t)length);
    vsnprintf(buffer->data + buffer->length, (size_t)length + 1, format, again);
    va_end(again);
    buffer->length += (size_t)length;
}

void buffer_fill(Buffer *buffer, const char *words, const char *const *filled, int count) {
    for (const char *at = words; *at; at++) {
        if (at[0] != '{' || at[1] < '1' || at[1] > '9' || at[2] != '}') {
            buffer_add_char(buffer, *at);
            continue;
        }
        assert(at[1] - '1' < count);
        buffer_add_text(buffer, filled[at[1] - '1']);
        at += 2;
    }
}
