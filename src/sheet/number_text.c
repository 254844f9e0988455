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

void scale_text(double scale, char *out, size_t size) {
    if (scale <= 1)
        snprintf(out, size, "1:%.4g", 1 / scale);
    else
        snprintf(out, size, "%.4g:1", scale);
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

void number_text_mark(const char *text, NumberMarks marks, char *out, size_t size) {
    static const char *const units[] = {"",   " cm",       " mm",      " m",  "\u00B0",
                                        " %", " cm\u00B2", " m\u00B2", " in", " in\u00B2"};
    enum { UNITS = sizeof units / sizeof *units };
    const char *end = number_end(text);
    int unit = 0;
    while (end != NULL && unit < UNITS && strcmp(end, units[unit]) != 0)
        unit++;
    char marked[64];
    if (end == NULL || unit == UNITS || strlen(text) >= sizeof marked / 2) {
        if (out != text)
            snprintf(out, size, "%s", text);
        return;
    }
    const char *inch = unit == UNITS - 1 ? marks.square_inch : unit == UNITS - 2 ? marks.inch : NULL;
    const bool word = inch != NULL && ((*inch >= 'a' && *inch <= 'z') || (*inch >= 'A' && *inch <= 'Z'));
    snprintf(marked, sizeof marked, "%.*s%s%s", (int)(end - text), text, word ? " " : "",
             inch != NULL ? inch : end);
    char *point = marks.comma ? strchr(marked, '.') : NULL;
    if (point != NULL)
        *point = ',';
    snprintf(out, size, "%s", marked);
}
