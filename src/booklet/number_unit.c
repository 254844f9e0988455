#include "booklet/number_unit.h"

#include <string.h>

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Whether the byte begins what is no part of a word: ASCII but letters and digits, or the signs and quotes
// that UTF-8 begins with C2 and E2. Letters with accents begin with C3 and above.
static bool ends_unit(char c) {
    const unsigned char byte = (unsigned char)c;
    return byte < 0x80 ? !(c >= 'a' && c <= 'z') && !(c >= 'A' && c <= 'Z') && !is_digit(c)
                       : byte == 0xC2 || byte == 0xE2;
}

// How many bytes of the text, from `at` on, are a unit with nothing of a word behind it; 0 for none.
static size_t unit_length(const char *at) {
    static const char *const units[] = {"cm\xC2\xB2", "m\xC2\xB2", "cm", "mm", "m", "in", "%", "\xC2\xB0"};
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        const size_t length = strlen(units[i]);
        if (strncmp(at, units[i], length) == 0 && ends_unit(at[length]))
            return length;
    }
    return 0;
}

// Where digits and their marks begin that end before `end`.
static size_t digits_start(const char *text, size_t end) {
    while (end > 0 && (is_digit(text[end - 1]) || strchr(".,/+-", text[end - 1]) != NULL))
        end--;
    return end;
}

// Where a number begins that ends before `end`: "16.5", "7 5/16".
static size_t number_start(const char *text, size_t end) {
    const size_t at = digits_start(text, end);
    const bool whole_before = at > 1 && text[at - 1] == ' ' && is_digit(text[at - 2]);
    return whole_before && memchr(text + at, '/', end - at) ? digits_start(text, at - 1) : at;
}

bool number_unit_find(const char *text, size_t from, size_t *first, size_t *end) {
    for (size_t i = from; text[i] != '\0'; i++) {
        const size_t unit =
            text[i] == ' ' && i > from && is_digit(text[i - 1]) ? unit_length(text + i + 1) : 0;
        if (unit == 0 || number_start(text, i) < from)
            continue;
        *first = number_start(text, i);
        *end = i + 1 + unit;
        return true;
    }
    return false;
}
