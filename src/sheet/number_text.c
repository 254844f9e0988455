#include "sheet/number_text.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

// Written digit by digit from a whole number: many thousand go into a drawing, and printf takes ten times as
// long.
void number_text_add(Buffer *out, double value, int decimals) {
    static const long long tens[] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    assert(decimals >= 0 && decimals <= 6 && fabs(value) <= 1e9);
    long long whole = llround(value * (double)tens[decimals]);
    bool below = whole < 0;
    if (below)
        whole = -whole;
    while (decimals > 0 && whole % 10 == 0) {
        whole /= 10;
        decimals--;
    }
    char text[40];
    int at = sizeof text;
    for (int i = 0; i < decimals; i++, whole /= 10)
        text[--at] = (char)('0' + whole % 10);
    if (decimals > 0)
        text[--at] = '.';
    do {
        text[--at] = (char)('0' + whole % 10);
        whole /= 10;
    } while (whole > 0);
    if (below)
        text[--at] = '-';
    buffer_add(out, text + at, sizeof text - (size_t)at);
}

void scale_text(double scale, NumberMarks marks, char *out, size_t size) {
    if (scale <= 1)
        snprintf(out, size, "1:%.4g", 1 / scale);
    else
        snprintf(out, size, "%.4g:1", scale);
    char *point = marks.comma ? strchr(out, '.') : NULL;
    if (point != NULL)
        *point = ',';
}

// Where the digits of "+14.0 cm", "7 5/16 in", "5/16 in" end.
static const char *number_end(const char *text) {
    static const char digits[] = "0123456789";
    const char *at = text + (*text == '+' || *text == '-');
    if (strspn(at, digits) == 0)
        return NULL;
    at += strspn(at, digits);
    if ((*at == '.' || *at == '/') && strspn(at + 1, digits) > 0)
        return at + 1 + strspn(at + 1, digits);
    if (*at != ' ' || strspn(at + 1, digits) == 0)
        return at;
    const char *over = at + 1 + strspn(at + 1, digits);
    return *over == '/' ? over + 1 + strspn(over + 1, digits) : NULL;
}

#define MARKED_MOST 64 // bytes of a measure

// The units behind a number, those before that begin others.
static const char *const units[] = {" cm\u00B2", " cm", " mm", " m\u00B2",  " m",
                                    "\u00B0",    " %",  "%",   " in\u00B2", " in"};
enum {
    UNITS_KNOWN = sizeof units / sizeof *units,
    UNIT_INCH = UNITS_KNOWN - 1,
    UNIT_SQUARE_INCH = UNIT_INCH - 1
};

// A digit, or a byte of a letter: U+00C0 to U+1FFF begin with 0xC3 to 0xE1.
static bool goes_on(char c) {
    const unsigned char byte = (unsigned char)c;
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           (byte >= 0xC3 && byte <= 0xE1);
}

// The unit a text begins with, and where it ends; UNITS_KNOWN for none.
static int unit_at(const char *text, const char **end) {
    for (int unit = 0; unit < UNITS_KNOWN; unit++) {
        *end = text + strlen(units[unit]);
        if (strncmp(text, units[unit], strlen(units[unit])) == 0 && !goes_on(**end))
            return unit;
    }
    return UNITS_KNOWN;
}

// Adds a number and what stands behind it, which is its unit or nothing.
static void add_marked(const char *text, const char *end, int unit, NumberMarks marks, Buffer *out) {
    for (const char *at = text; at < end; at++)
        buffer_add_char(out, *at == '.' && marks.comma ? ',' : *at);
    const char *inch = unit == UNIT_SQUARE_INCH ? marks.square_inch : unit == UNIT_INCH ? marks.inch : NULL;
    if (inch == NULL) {
        buffer_add_text(out, unit < UNITS_KNOWN ? units[unit] : "");
        return;
    }
    const bool word = (*inch >= 'a' && *inch <= 'z') || (*inch >= 'A' && *inch <= 'Z');
    buffer_add_format(out, "%s%s", word ? " " : "", inch);
}

void number_text_mark(const char *text, NumberMarks marks, char *out, size_t size) {
    const char *end = number_end(text), *behind = end;
    const int unit = end != NULL ? unit_at(end, &behind) : UNITS_KNOWN;
    if (end == NULL || (*end != '\0' && (unit == UNITS_KNOWN || *behind != '\0')) ||
        strlen(text) >= MARKED_MOST / 2) {
        if (out != text)
            snprintf(out, size, "%s", text);
        return;
    }
    Buffer marked;
    buffer_init(&marked);
    add_marked(text, end, unit, marks, &marked);
    snprintf(out, size, "%s", marked.data);
    buffer_finish(&marked);
}

// "2 in the seam" is no measure, "1/2 in" is one wherever it stands.
static bool is_inch(const char *number, const char *end, const char *behind) {
    const size_t length = (size_t)(end - number);
    return memchr(number, '.', length) || memchr(number, '/', length) || *behind != ' ' ||
           !goes_on(behind[1]);
}

void number_text_mark_within(const char *text, NumberMarks marks, Buffer *out) {
    bool within = false; // a word or a number that began before
    for (const char *at = text; *at != '\0';) {
        const char *end = within ? NULL : number_end(at), *behind = NULL;
        const int unit = end != NULL ? unit_at(end, &behind) : UNITS_KNOWN;
        if (unit < UNITS_KNOWN && (unit != UNIT_INCH || is_inch(at, end, behind))) {
            add_marked(at, end, unit, marks, out);
            at = behind;
            continue;
        }
        const bool rest = ((unsigned char)*at & 0xC0) == 0x80; // of a letter of several bytes
        within = goes_on(*at) || (within && (rest || strchr(".,/-", *at) != NULL));
        buffer_add_char(out, *at++);
    }
}
