#include "pattern/reader.h"

#include <string.h>

#include "base/text.h"
#include "pattern/number.h"
#include "pattern/own.h"

void reader_fail(Reader *reader, const char *what) {
    if (reader->failed)
        return;
    reader->failed = true;
    fault_set(reader->fault, NULL, reader->line > 0 ? reader->line : 1, "the pattern text is damaged: %s",
              what);
}

bool reader_line(Reader *reader) {
    if (reader->next >= reader->stop)
        return false;
    reader->at = reader->next;
    const char *end = memchr(reader->at, '\n', (size_t)(reader->stop - reader->at));
    reader->end = end ? end : reader->stop;
    reader->next = end ? end + 1 : reader->stop;
    reader->line++;
    return true;
}

static void skip_spaces(Reader *reader) {
    while (reader->at < reader->end && *reader->at == ' ')
        reader->at++;
}

static const char *token(Reader *reader, size_t *length) {
    skip_spaces(reader);
    const char *from = reader->at;
    while (reader->at < reader->end && *reader->at != ' ')
        reader->at++;
    *length = (size_t)(reader->at - from);
    return from;
}

void reader_done(Reader *reader) {
    skip_spaces(reader);
    if (reader->at != reader->end)
        reader_fail(reader, "the line has too many fields");
}

bool reader_is(Reader *reader, const char *word) {
    skip_spaces(reader);
    const size_t length = strlen(word), left = (size_t)(reader->end - reader->at);
    if (left < length || memcmp(reader->at, word, length) != 0 ||
        (left > length && reader->at[length] != ' '))
        return false;
    reader->at += length;
    return true;
}

int reader_choice(Reader *reader, Words words) {
    for (int i = 0; i < words.count; i++)
        if (reader_is(reader, words.items[i]))
            return i;
    reader_fail(reader, "a word is not one of those that can stand there");
    return 0;
}

double reader_number(Reader *reader) {
    size_t length;
    const char *from = token(reader, &length);
    double value = 0;
    if (!number_read(from, from + length, &value)) {
        reader_fail(reader, "a number is missing");
        return 0;
    }
    return value;
}

double reader_between(Reader *reader, double least, double most) {
    const double value = reader_number(reader);
    if (value >= least && value <= most)
        return value;
    reader_fail(reader, "a number is out of its bounds");
    return 0;
}

int reader_int(Reader *reader, int least, int most) {
    const double value = reader_between(reader, least, most);
    if (value == floor(value))
        return (int)value;
    reader_fail(reader, "a number should be a whole one");
    return 0;
}

static int hex_digit(char c) {
    if (c >= '0' && c <= '9')
        return c - '0';
    return c >= 'a' && c <= 'f' ? c - 'a' + 10 : -1;
}

// Length of the quoted text up to its closing quote, or -1; *escapes tells whether there are any.
static long quoted_length(const Reader *reader, bool *escapes) {
    *escapes = false;
    for (const char *c = reader->at; c < reader->end; c++) {
        if (*c == '"')
            return c - reader->at;
        if (*c == '\\') {
            *escapes = true;
            if (++c == reader->end)
                break;
        }
    }
    return -1;
}

static const char *unescaped(Reader *reader, const char *from, const char *to) {
    char *text = arena_take(reader->arena, (size_t)(to - from) + 1), *put = text;
    while (from < to) {
        if (*from != '\\') {
            *put++ = *from++;
            continue;
        }
        from++;
        if (*from == 'n' || *from == '"' || *from == '\\') {
            *put++ = *from == 'n' ? '\n' : *from;
            from++;
        } else if (*from == 'x' && to - from >= 3 && hex_digit(from[1]) >= 0 && hex_digit(from[1]) < 8 &&
                   hex_digit(from[2]) >= 0 && from[1] + from[2] != '0' + '0') {
            *put++ = (char)(hex_digit(from[1]) * 16 + hex_digit(from[2]));
            from += 3;
        } else {
            reader_fail(reader, "a text has a backslash before a letter that it does not go with");
            return "";
        }
    }
    return text;
}

static const char *quoted(Reader *reader) {
    reader->at++;
    bool escapes;
    const long length = quoted_length(reader, &escapes);
    if (length < 0) {
        reader_fail(reader, "a text has no closing quote");
        return "";
    }
    const char *from = reader->at;
    reader->at += length + 1;
    if (escapes)
        return unescaped(reader, from, from + length);
    return arena_text_n(reader->arena, from, (size_t)length);
}

const char *reader_maybe_text(Reader *reader) {
    skip_spaces(reader);
    if (reader->at < reader->end && *reader->at == '"')
        return quoted(reader);
    if (!reader_is(reader, "-"))
        reader_fail(reader, "a text in quotes is missing");
    return NULL;
}

const char *reader_text(Reader *reader) {
    const char *text = reader_maybe_text(reader);
    if (text)
        return text;
    reader_fail(reader, "a text is missing");
    return "";
}

Point reader_point(Reader *reader) {
    const double x = reader_between(reader, -COORDINATE_LIMIT_MM, COORDINATE_LIMIT_MM);
    return point(x, reader_between(reader, -COORDINATE_LIMIT_MM, COORDINATE_LIMIT_MM));
}

void reader_path(Reader *reader, Path *out) {
    *out = (Path){0};
    path_clear(&reader->scratch);
    Point last = reader_point(reader);
    while (!reader->failed && reader->scratch.count < PATH_SEGMENTS_MAX) {
        if (reader_is(reader, "L")) {
            const Point to = reader_point(reader);
            path_add(&reader->scratch, segment_line(last, to));
            last = to;
        } else if (reader_is(reader, "C")) {
            const Point p1 = reader_point(reader), p2 = reader_point(reader), to = reader_point(reader);
            path_add(&reader->scratch, segment_cubic(last, p1, p2, to));
            last = to;
        } else {
            break;
        }
    }
    if (reader->scratch.count == 0)
        reader_fail(reader, "a path has no segment");
    reader_done(reader);
    if (!reader->failed)
        own_path(reader->arena, &reader->scratch, out);
}
