#include "cli/tell.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "pattern/report.h"

#define RED "\033[1;31m"
#define PLAIN "\033[0m"

// NO_COLOR as published at no-color.org: set and not empty means no colour.
static bool colour_wanted(void) {
    const char *no = getenv("NO_COLOR");
    return isatty(STDERR_FILENO) && !(no && *no);
}

static void add_field(Buffer *out, const char *name, const char *text) {
    json_add_text(out, name);
    buffer_add_char(out, ':');
    if (text)
        json_add_text(out, text);
    else
        buffer_add_text(out, "null");
}

void tell_notes(const Buffer *notes, Buffer *out) {
    size_t length;
    for (int line = 1;; line++) {
        const char *text = text_line(notes->data, line, &length);
        if (!text)
            return;
        if (length == 0)
            continue;
        buffer_add_text(out, "note: ");
        buffer_add(out, text, length);
        buffer_add_char(out, '\n');
    }
}

void tell_notes_json(const Buffer *notes, Buffer *out) {
    size_t length;
    const char *text;
    bool any = false;
    buffer_add_char(out, '[');
    for (int line = 1; (text = text_line(notes->data, line, &length)); line++) {
        if (length == 0)
            continue;
        Buffer note;
        buffer_init(&note);
        buffer_add(&note, text, length);
        buffer_add_text(out, any ? "," : "");
        json_add_text(out, note.data);
        buffer_finish(&note);
        any = true;
    }
    buffer_add_char(out, ']');
}

static void add_json(const Fault *fault, const Buffer *notes, Buffer *out) {
    buffer_add_text(out, "{\"fault\":{");
    add_field(out, "file", fault->file);
    buffer_add_format(out, ",\"line\":%d,", fault->line);
    add_field(out, "step", fault->step);
    buffer_add_char(out, ',');
    add_field(out, "message", fault->message);
    buffer_add_char(out, ',');
    add_field(out, "hint", fault->hint);
    buffer_add_text(out, ",\"notes\":");
    tell_notes_json(notes, out);
    buffer_add_text(out, "}}\n");
}

// Names, remarks and the lines of a recipe can be a stranger's: control characters, C0 and C1 alike, become
// spaces, so that no terminal is told anything.
static void add_quiet(const Buffer *text, Buffer *out) {
    for (const char *at = text->data; at < text->data + text->length;) {
        const char *from = at;
        uint32_t c = text_next(&at);
        bool control = (c < ' ' && c != '\n') || (c >= 0x7F && c < 0xA0);
        if (at == from) // a NUL, where text_next stays
            at++;
        if (control)
            buffer_add_char(out, ' ');
        else
            buffer_add(out, from, (size_t)(at - from));
    }
}

int tell_fault(const Fault *fault, const char *source, const Buffer *notes, bool json) {
    Buffer none, told, text;
    buffer_init(&none);
    buffer_init(&told);
    buffer_init(&text);
    notes = notes ? notes : &none;
    if (json) {
        add_json(fault, notes, &told);
        tell_text(&told, EXIT_FAULT);
        buffer_clear(&told);
    }
    fault_write(fault, source, &told);
    tell_notes(notes, &told);
    add_quiet(&told, &text);
    const char *end = strchr(text.data, '\n');
    int first = end ? (int)(end - text.data) : (int)text.length;
    if (colour_wanted())
        fprintf(stderr, RED "%.*s" PLAIN "%s", first, text.data, text.data + first);
    else
        fputs(text.data, stderr);
    buffer_finish(&none);
    buffer_finish(&told);
    buffer_finish(&text);
    return EXIT_FAULT;
}

int tell_text(const Buffer *text, int code) {
    Buffer quiet;
    buffer_init(&quiet);
    add_quiet(text, &quiet);
    bool fine = fwrite(quiet.data, 1, quiet.length, stdout) == quiet.length;
    buffer_finish(&quiet);
    if (fflush(stdout) == 0 && fine)
        return code;
    fputs("standard output cannot be written\n", stderr);
    return EXIT_FAULT;
}

static int columns_of(const char *word, size_t length) {
    int columns = 0;
    for (const char *at = word; at < word + length; columns++)
        text_next(&at);
    return columns;
}

void tell_wrapped(const char *text, int first, int rest, Buffer *out) {
    int column = 0;
    for (text += strspn(text, " \n"); *text; text += strspn(text, " \n")) {
        size_t length = strcspn(text, " \n");
        int wide = columns_of(text, length);
        bool breaks = column > 0 && column + 1 + wide > TELL_COLUMNS;
        if (breaks)
            buffer_add_char(out, '\n');
        if (column == 0 || breaks) {
            column = breaks ? rest : first;
            buffer_add_format(out, "%*s", column, "");
        } else {
            buffer_add_char(out, ' ');
            column++;
        }
        buffer_add(out, text, length);
        column += wide;
        text += length;
    }
    buffer_add_char(out, '\n');
}

void tell_value(Measure measure, double value, const char *text, Units units, Buffer *out) {
    char shown[64];
    switch (measure) {
    case MEASURE_LENGTH:
        units_format(value, units, shown, sizeof shown);
        buffer_add_text(out, shown);
        return;
    case MEASURE_AREA:
        buffer_add_format(out, "%.0f cm\u00b2", value / (MM_PER_CM * MM_PER_CM));
        return;
    case MEASURE_ANGLE:
        buffer_add_format(out, "%.1f\u00b0", value);
        return;
    case MEASURE_YEARS:
        units_format_years(value, shown, sizeof shown);
        buffer_add_text(out, shown);
        return;
    case MEASURE_NUMBER:
        buffer_add_format(out, "%g", value);
        return;
    case MEASURE_TEXT:
        buffer_add_text(out, text ? text : "");
        return;
    }
}
