#include "script/post.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"

enum { FIELD_FILE, FIELD_STEP, FIELD_MESSAGE, FIELD_HINT, FIELDS };
#define FIELD_BYTES_MAX 4096

static void clean(const char *text, size_t length, bool lines, char *out, size_t size) {
    size_t used = 0;
    size_t at = 0;
    while (at < length && used + 8 < size) {
        const unsigned char byte = (unsigned char)text[at];
        if (byte < 0x20 || byte == 0x7F) {
            out[used++] = lines && byte == '\n' ? '\n' : ' ';
            at++;
            continue;
        }
        size_t bytes = byte < 0x80 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
        if (bytes > length - at || !text_is_utf8(text + at, bytes)) {
            out[used++] = '?';
            at++;
            continue;
        }
        memcpy(out + used, text + at, bytes);
        used += bytes;
        at += bytes;
    }
    if (at < length) {
        memcpy(out + used, "...", 3);
        used += 3;
    }
    out[used] = '\0';
}

void text_clean(const char *text, size_t length, char *out, size_t size) {
    clean(text, length, false, out, size);
}

void text_clean_lines(const char *text, size_t length, char *out, size_t size) {
    clean(text, length, true, out, size);
}

// The line, then each text as its length, a line end and its bytes; a text that is not there has the length
// -1.
void fault_pack(const Fault *fault, Buffer *out) {
    const char *const fields[FIELDS] = {[FIELD_FILE] = fault->file,
                                        [FIELD_STEP] = fault->step,
                                        [FIELD_MESSAGE] = fault->message,
                                        [FIELD_HINT] = fault->hint};
    buffer_add_format(out, "%d\n", fault->line);
    for (int i = 0; i < FIELDS; i++) {
        if (!fields[i]) {
            buffer_add_text(out, "-1\n");
            continue;
        }
        size_t length = strlen(fields[i]);
        if (length > FIELD_BYTES_MAX)
            length = FIELD_BYTES_MAX;
        buffer_add_format(out, "%zu\n", length);
        buffer_add(out, fields[i], length);
    }
}

// A whole number and the line end after it; moves *at past them.
static bool read_number(const char **at, const char *end, long *out) {
    char digits[16];
    size_t count = 0;
    const char *from = *at;
    while (from + count < end && from[count] != '\n' && count < sizeof digits - 1) {
        digits[count] = from[count];
        count++;
    }
    if (from + count >= end || from[count] != '\n' || count == 0)
        return false;
    digits[count] = '\0';
    char *stop;
    *out = strtol(digits, &stop, 10);
    *at = from + count + 1;
    return *stop == '\0' && *out >= -1 && *out <= 100000000;
}

bool fault_unpack(const char *bytes, size_t length, Fault *fault) {
    const char *at = bytes, *end = bytes + length;
    char texts[FIELDS][FIELD_BYTES_MAX + 16];
    bool there[FIELDS];
    long line;
    if (!read_number(&at, end, &line) || line < 0)
        return false;
    for (int i = 0; i < FIELDS; i++) {
        long size;
        if (!read_number(&at, end, &size) || size > FIELD_BYTES_MAX || size > end - at)
            return false;
        there[i] = size >= 0;
        clean(at, there[i] ? (size_t)size : 0, i == FIELD_HINT, texts[i], sizeof texts[i]);
        at += there[i] ? size : 0;
    }
    if (at != end || !there[FIELD_MESSAGE])
        return false;
    fault_set(fault, there[FIELD_FILE] ? texts[FIELD_FILE] : NULL, (int)line, "%s", texts[FIELD_MESSAGE]);
    if (there[FIELD_STEP])
        fault_set_step(fault, texts[FIELD_STEP]);
    if (there[FIELD_HINT])
        fault_set_hint(fault, "%s", texts[FIELD_HINT]);
    return true;
}
