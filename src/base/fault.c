#include "base/fault.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"

#define SHOWN_MOST 160 // bytes of a source line; a longer one is cut with "..."

void fault_init(Fault *fault) {
    *fault = (Fault){0};
}

void fault_finish(Fault *fault) {
    mem_free(fault->file);
    mem_free(fault->step);
    mem_free(fault->message);
    mem_free(fault->hint);
    *fault = (Fault){0};
}

// A fault can quote a stranger's file: line ends and other control bytes become spaces, so that a message
// stays on its line and no terminal is told anything. Only a hint may have several lines.
static char *clean(const char *format, bool lines, va_list args) {
    assert(format);
    va_list again;
    va_copy(again, args);
    int length = vsnprintf(NULL, 0, format, args);
    size_t size = (length > 0 ? (size_t)length : 0) + 1;
    char *text = mem_new(size);
    vsnprintf(text, size, format, again);
    va_end(again);
    for (char *c = text; *c; c++)
        if (((unsigned char)*c < ' ' || *c == 0x7F) && !(lines && *c == '\n'))
            *c = ' ';
    return text;
}

void fault_set(Fault *fault, const char *file, int line, const char *format, ...) {
    va_list args;
    va_start(args, format);
    Fault set = {.file = mem_text(file), .line = line, .message = clean(format, false, args)};
    va_end(args);
    fault_finish(fault); // last, since the arguments may be the old fault's own texts
    *fault = set;
}

void fault_set_step(Fault *fault, const char *step) {
    char *copy = mem_text(step);
    mem_free(fault->step);
    fault->step = copy;
}

void fault_set_hint(Fault *fault, const char *format, ...) {
    va_list args;
    va_start(args, format);
    char *hint = clean(format, true, args);
    va_end(args);
    mem_free(fault->hint);
    fault->hint = hint;
}

static void add_source_line(Buffer *out, const char *source, int line, char mark, int width) {
    size_t length;
    const char *text = text_line(source, line, &length);
    if (!text)
        return;
    bool cut = length > SHOWN_MOST;
    if (cut) {
        length = SHOWN_MOST;
        while (length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80) // never inside a code point
            length--;
    }
    buffer_add_format(out, "  %c %*d |%s", mark, width, line, length ? " " : "");
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        if (c == '\t')
            buffer_add_text(out, "    ");
        else
            buffer_add_char(out, c < ' ' || c == 0x7F ? ' ' : (char)c);
    }
    buffer_add_text(out, cut ? "...\n" : "\n");
}

void fault_write(const Fault *fault, const char *source, Buffer *out) {
    if (fault->file && fault->line > 0)
        buffer_add_format(out, "%s:%d: ", fault->file, fault->line);
    else if (fault->file)
        buffer_add_format(out, "%s: ", fault->file);
    buffer_add_format(out, "%s\n", fault->message ? fault->message : "something is wrong");

    size_t length;
    if (source && fault->line > 0 && text_line(source, fault->line, &length)) {
        int width = snprintf(NULL, 0, "%d", fault->line);
        buffer_add_char(out, '\n');
        if (fault->line > 1)
            add_source_line(out, source, fault->line - 1, ' ', width);
        add_source_line(out, source, fault->line, '>', width);
    }
    if (fault->step || fault->hint)
        buffer_add_char(out, '\n');
    if (fault->step)
        buffer_add_format(out, "  in the step \"%s\"\n", fault->step);
    const char *hint;
    for (int line = 1; fault->hint && (hint = text_line(fault->hint, line, &length)); line++)
        buffer_add_format(out, "  %.*s\n", (int)length, hint);
}
