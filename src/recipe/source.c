#include "recipe/source.h"

#include <string.h>

#include "base/text.h"
#include "recipe/recipe.h"

// List and quote marks nest; each line of a file is held against all that are open, so depth times lines is
// what reading costs. A mark takes a column at least, so the column of the last mark on a line bounds the
// depth.
#define MARK_COLUMN_MOST 100

// The Markdown reader is quadratic in pictures "![" that stand in one paragraph; a thousand cost nothing.
#define PICTURES_MOST 1000

static int line_of(const char *text, const char *at) {
    int line = 1;
    for (; text < at; text++)
        line += *text == '\n';
    return line;
}

static bool check_bytes(const Buffer *source, const char *file, Fault *fault) {
    const char *nul = memchr(source->data, '\0', source->length);
    if (nul) {
        fault_set(fault, file, line_of(source->data, nul), "the file has a zero byte in it");
        fault_set_hint(fault, "a recipe is plain text: save it as UTF-8");
        return false;
    }
    if (text_is_utf8(source->data, source->length))
        return true;
    const char *at = source->data, *line = source->data;
    while (text_is_utf8(line, strcspn(line, "\n"))) {
        line += strcspn(line, "\n") + 1;
        at = line;
    }
    fault_set(fault, file, line_of(source->data, at), "this line is not UTF-8");
    fault_set_hint(fault, "save the file as UTF-8");
    return false;
}

// The column just past the last list or quote mark the line begins with.
static int marks_end(const char *line) {
    int column = 0, end = 0;
    for (const char *c = line;;) {
        size_t space = strspn(c, " ");
        if (*c == '\t') {
            column += 4 - column % 4;
            c++;
            continue;
        }
        if (space) {
            column += (int)space;
            c += space;
            continue;
        }
        size_t digits = strspn(c, "0123456789");
        size_t mark = *c == '>' ? 1 : digits && strchr(".)", c[digits]) && c[digits] ? digits + 1 : 0;
        if (!mark && *c && strchr("-+*", *c))
            mark = 1;
        if (!mark || (*c != '>' && c[mark] && !strchr(" \t\n", c[mark])))
            return end;
        column += (int)mark;
        end = column;
        c += mark;
    }
}

static bool check_shape(const char *source, const char *file, Fault *fault) {
    int line = 1, pictures = 0;
    for (const char *at = source; at; line++) {
        if (marks_end(at) > MARK_COLUMN_MOST) {
            fault_set(fault, file, line, "lists or quotes are nested past column %d", MARK_COLUMN_MOST);
            fault_set_hint(fault, "a list in a list in a list is as deep as a reader follows");
            return false;
        }
        at = strchr(at, '\n');
        at = at ? at + 1 : NULL;
    }
    for (const char *at = strstr(source, "!["); at; at = strstr(at + 2, "![")) {
        if (++pictures <= PICTURES_MOST)
            continue;
        fault_set(fault, file, line_of(source, at), "there are more than %d pictures", PICTURES_MOST);
        fault_set_hint(fault, "tell the recipe apart into several files");
        return false;
    }
    return true;
}

bool source_clean(const char *text, size_t length, const char *file, Buffer *out, Fault *fault) {
    if (length > RECIPE_BYTES_MOST) {
        fault_set(fault, file, 0, "the file is longer than 1 MB, the most that is read");
        fault_set_hint(fault, "a recipe is prose and a little code: keep pictures in files of their own");
        return false;
    }
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) {
        text += 3;
        length -= 3;
    }
    Buffer clean;
    buffer_init(&clean);
    for (size_t i = 0; i < length;) {
        const char *end = memchr(text + i, '\r', length - i);
        const size_t run = end ? (size_t)(end - text) - i : length - i;
        buffer_add(&clean, text + i, run);
        i += run + 1;
        if (end && (i == length || text[i] != '\n'))
            buffer_add_char(&clean, '\n');
    }
    bool fine = check_bytes(&clean, file, fault) && check_shape(clean.data, file, fault);
    if (fine)
        buffer_add(out, clean.data, clean.length);
    buffer_finish(&clean);
    return fine;
}

// Fowler, Noll and Vo; the offset and the prime are those of the IETF draft on FNV.
uint64_t source_hash(const char *text, size_t length) {
    uint64_t hash = 0xcbf29ce484222325u;
    for (size_t i = 0; i < length; i++) {
        hash ^= (unsigned char)text[i];
        hash *= 0x100000001b3u;
    }
    return hash;
}
