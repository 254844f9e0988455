// Names that are nearly right are found by the distance of Damerau and Levenshtein in its restricted form
// (optimal string alignment): the fewest letters to put in, take out, change, or swap with their neighbour.
#include "base/text.h"

#include <assert.h>
#include <string.h>
#include <strings.h>

#define NAME_MOST 64 // longer names are not compared: nobody slips in one letter of a hundred

static char lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static int least(int a, int b) {
    return a < b ? a : b;
}

// A difference of case alone costs nothing here; the caller has already met the name that is equal.
static int distance(const char *a, int a_length, const char *b, int b_length) {
    int rows[3][NAME_MOST + 1];
    int *before = rows[0], *last = rows[1], *now = rows[2];
    for (int j = 0; j <= b_length; j++)
        last[j] = j;
    for (int i = 1; i <= a_length; i++) {
        now[0] = i;
        for (int j = 1; j <= b_length; j++) {
            char p = lower(a[i - 1]), q = lower(b[j - 1]);
            now[j] = least(last[j - 1] + (p != q), least(last[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && p == lower(b[j - 2]) && lower(a[i - 2]) == q)
                now[j] = least(now[j], before[j - 2] + 1);
        }
        int *oldest = before;
        before = last;
        last = now;
        now = oldest;
    }
    return last[b_length];
}

int text_slips(const char *one, const char *other) {
    size_t one_length = strlen(one), other_length = strlen(other);
    assert(one_length <= NAME_MOST && other_length <= NAME_MOST);
    return distance(one, (int)one_length, other, (int)other_length);
}

// One slip in a short name, two in a middling one, three in a long one; a single letter is only forgiven its
// case.
static int slips_forgiven(int length) {
    return length < 2 ? 0 : length < 5 ? 1 : length < 10 ? 2 : 3;
}

const char *text_nearest(const char *typed, const char *const *names, int count) {
    size_t typed_length = strlen(typed);
    if (typed_length == 0 || typed_length > NAME_MOST)
        return NULL;
    const char *nearest = NULL;
    int nearest_distance = NAME_MOST;
    for (int i = 0; i < count; i++) {
        size_t length = strlen(names[i]);
        if (length == 0 || length > NAME_MOST)
            continue;
        int apart = distance(typed, (int)typed_length, names[i], (int)length);
        if (apart <= slips_forgiven(least((int)typed_length, (int)length)) && apart < nearest_distance) {
            nearest = names[i];
            nearest_distance = apart;
        }
    }
    return nearest;
}

// The code point that starts at text and its length in bytes, by table 3-7 of the Unicode standard: no
// overlong forms, no surrogates, nothing past U+10FFFF. 0 bytes when it is malformed.
static int decode(const unsigned char *text, size_t length, uint32_t *out) {
    unsigned char c = length ? text[0] : 0;
    if (c < 0x80) {
        *out = c;
        return length ? 1 : 0;
    }
    int bytes = c >= 0xC2 && c <= 0xDF ? 2 : c >= 0xE0 && c <= 0xEF ? 3 : c >= 0xF0 && c <= 0xF4 ? 4 : 0;
    if (bytes == 0 || (size_t)bytes > length)
        return 0;
    uint32_t point = c & (0xFFu >> (bytes + 1));
    for (int i = 1; i < bytes; i++) {
        if ((text[i] & 0xC0) != 0x80)
            return 0;
        point = point << 6 | (text[i] & 0x3Fu);
    }
    if (bytes == 3 && (point < 0x800 || (point >= 0xD800 && point <= 0xDFFF)))
        return 0;
    if (bytes == 4 && (point < 0x10000 || point > 0x10FFFF))
        return 0;
    *out = point;
    return bytes;
}

bool text_is_utf8(const char *text, size_t length) {
    uint32_t point;
    for (size_t at = 0; at < length;) {
        int bytes = decode((const unsigned char *)text + at, length - at, &point);
        if (bytes == 0)
            return false;
        at += (size_t)bytes;
    }
    return true;
}

uint32_t text_next(const char **at) {
    if (**at == '\0')
        return 0;
    uint32_t point;
    int bytes = decode((const unsigned char *)*at, strnlen(*at, 4), &point);
    *at += bytes ? bytes : 1;
    return bytes ? point : 0xFFFD;
}

bool text_starts(const char *text, const char *with) {
    return strncmp(text, with, strlen(with)) == 0;
}

bool text_ends(const char *text, const char *with) {
    size_t length = strlen(text), tail = strlen(with);
    return length >= tail && memcmp(text + length - tail, with, tail) == 0;
}

bool text_starts_any_case(const char *text, const char *with) {
    return strncasecmp(text, with, strlen(with)) == 0;
}

bool text_ends_any_case(const char *text, const char *with) {
    size_t length = strlen(text), tail = strlen(with);
    return length >= tail && strcasecmp(text + length - tail, with) == 0;
}

const char *text_line(const char *text, int line, size_t *length) {
    assert(line >= 1);
    for (; line > 1; line--) {
        text += strcspn(text, "\r\n");
        if (*text == '\0')
            return NULL;
        text += text[0] == '\r' && text[1] == '\n' ? 2 : 1;
    }
    *length = strcspn(text, "\r\n");
    return text;
}
