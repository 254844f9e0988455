#include "pattern/number.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define STEPS_PER_MM 10000
#define FIXED_LIMIT 1e9
#define TINY 1e-9
#define TOKEN_MAX 40

static int64_t steps_of(double value) {
    if (isnan(value))
        return 0;
    return llround(fmax(-FIXED_LIMIT, fmin(FIXED_LIMIT, value)) * STEPS_PER_MM);
}

static void add_steps(Buffer *out, int64_t steps) {
    char text[32];
    char *at = text + sizeof text;
    uint64_t rest = (uint64_t)(steps < 0 ? -steps : steps);
    bool point_needed = false;
    for (int k = 0; k < 4; k++, rest /= 10) {
        const char digit = (char)('0' + rest % 10);
        if (digit == '0' && !point_needed)
            continue;
        *--at = digit;
        point_needed = true;
    }
    if (point_needed)
        *--at = '.';
    do
        *--at = (char)('0' + rest % 10);
    while (rest /= 10);
    if (steps < 0)
        *--at = '-';
    buffer_add(out, at, (size_t)(text + sizeof text - at));
}

void number_add_fixed(Buffer *out, double value) {
    add_steps(out, steps_of(value));
}

void number_add(Buffer *out, double value) {
    if (isnan(value) || fabs(value) < TINY)
        value = 0;
    value = fmax(-NUMBER_LIMIT, fmin(NUMBER_LIMIT, value));
    // Below a million ten figures reach past the fourth decimal, so both ways of writing give the same bytes.
    const int64_t steps = fabs(value) < 1e6 ? steps_of(value) : 0;
    if (steps != 0 && (double)steps / STEPS_PER_MM == value)
        add_steps(out, steps);
    else
        buffer_add_format(out, "%.10g", value);
}

double number_fixed(double value) {
    return (double)steps_of(value) / STEPS_PER_MM;
}

Point number_fixed_point(Point p) {
    return point(number_fixed(p.x), number_fixed(p.y));
}

// Digits with up to four decimals, as number_add_fixed writes them: whole steps, divided once, so exact.
static bool read_steps(const char *at, const char *end, double *out) {
    const bool negative = at < end && *at == '-';
    at += negative;
    const char *first = at;
    int64_t steps = 0;
    int decimals = -1;
    for (; at < end; at++) {
        if (*at == '.') {
            if (decimals >= 0 || at == first || at + 1 == end)
                return false;
            decimals = 0;
            continue;
        }
        if (*at < '0' || *at > '9' || steps > INT64_MAX / 100000 / 10 - 10 || decimals == 4)
            return false;
        steps = steps * 10 + (*at - '0');
        decimals += decimals >= 0;
    }
    if (at == first)
        return false;
    for (int k = decimals < 0 ? 0 : decimals; k < 4; k++)
        steps *= 10;
    *out = (double)(negative ? -steps : steps) / STEPS_PER_MM;
    return true;
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool number_read(const char *at, const char *end, double *out) {
    if (read_steps(at, end, out))
        return true;
    const size_t length = (size_t)(end - at);
    char text[TOKEN_MAX];
    if (length < 2 || length >= sizeof text || !is_digit(at[*at == '-']) || !is_digit(end[-1]))
        return false;
    for (size_t i = 0; i < length; i++)
        if (!strchr("0123456789+-.eE", at[i]) || at[i] == '\0')
            return false;
    memcpy(text, at, length);
    text[length] = '\0';
    char *rest;
    const double value = strtod(text, &rest);
    if (*rest != '\0' || rest == text || !isfinite(value))
        return false;
    *out = value;
    return true;
}
