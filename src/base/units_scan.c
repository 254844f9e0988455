// Numbers are read here and not by the C library, so that no locale can change them.
#include "base/units_scan.h"

#include <stddef.h>
#include <stdint.h>

#include "base/text.h"

#define DIGITS_MOST 15 // what a double holds exactly

typedef struct Scan {
    uint32_t points[TOKENS_MOST + 1]; // ended by 0
    int at;
} Scan;

static bool is_space(uint32_t c) {
    return c == ' ' || (c >= '\t' && c <= '\r') || c == 0xA0 || c == 0x2009 || c == 0x202F;
}

static bool is_digit(uint32_t c) {
    return c >= '0' && c <= '9';
}

static bool is_letter(uint32_t c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool is_apostrophe(uint32_t c) {
    return c == '\'' || c == 0x2032 || c == 0x2019;
}

static bool fraction_of(uint32_t c, double *upper, double *lower) {
    static const struct {
        uint32_t c;
        int upper, lower;
    } fractions[] = {
        {0xBC, 1, 4},   {0xBD, 1, 2},   {0xBE, 3, 4},   {0x2153, 1, 3}, {0x2154, 2, 3},
        {0x215B, 1, 8}, {0x215C, 3, 8}, {0x215D, 5, 8}, {0x215E, 7, 8},
    };
    for (size_t i = 0; i < sizeof fractions / sizeof fractions[0]; i++) {
        if (fractions[i].c != c)
            continue;
        *upper = fractions[i].upper;
        *lower = fractions[i].lower;
        return true;
    }
    return false;
}

// At a digit, or a point with a digit behind it. The digits make one whole number which is divided once, so
// the value is the double nearest to what was written.
static bool scan_number(Scan *scan, Token *token) {
    double digits = 0, scale = 1;
    int count = 0, first_group = 0, behind = 0;
    bool leading_zero = scan->points[scan->at] == '0';
    for (; is_digit(scan->points[scan->at]); count++, first_group++)
        digits = digits * 10 + (scan->points[scan->at++] - '0');
    uint32_t sign = scan->points[scan->at];
    token->kind = TOKEN_WHOLE;
    if ((sign == '.' || sign == ',') && is_digit(scan->points[scan->at + 1])) {
        token->kind = TOKEN_DECIMAL;
        token->comma = sign == ',';
        scan->at++;
        for (; is_digit(scan->points[scan->at]); count++, behind++, scale *= 10)
            digits = digits * 10 + (scan->points[scan->at++] - '0');
        token->thousands = token->comma && behind == 3 && first_group > 0 && first_group < 4 && !leading_zero;
    }
    token->value = digits / scale;
    return count <= DIGITS_MOST;
}

static TokenKind sign_kind(uint32_t c) {
    switch (c) {
    case '/':
    case 0x2044:
        return TOKEN_SLASH;
    case '-':
    case 0x2212:
    case 0x2010:
    case 0x2011:
        return TOKEN_HYPHEN;
    case '+':
        return TOKEN_PLUS;
    case '.':
        return TOKEN_STOP;
    case '"':
    case 0x2033:
    case 0x201D:
        return TOKEN_INCH_MARK;
    default:
        return TOKEN_OTHER;
    }
}

// Letters beyond ASCII belong to the word, so that a unit glued to one is not taken for the unit alone.
static void scan_word(Scan *scan, Token *token) {
    int length = 0;
    while (is_letter(scan->points[scan->at]) || scan->points[scan->at] >= 0xC0) {
        uint32_t c = scan->points[scan->at];
        double upper, lower;
        if (!is_letter(c) && (is_space(c) || is_apostrophe(c) || sign_kind(c) != TOKEN_OTHER ||
                              fraction_of(c, &upper, &lower)))
            break;
        token->word[length++] = is_letter(c) ? (char)(c | 0x20) : '?';
        scan->at++;
    }
    token->kind = length ? TOKEN_WORD : TOKEN_OTHER;
    if (!length)
        scan->at++;
}

static bool scan_token(Scan *scan, Token *token) {
    *token = (Token){0};
    for (; is_space(scan->points[scan->at]); scan->at++)
        token->spaced = true;
    const uint32_t *c = scan->points + scan->at;
    if (*c == 0)
        return true;
    if (is_digit(*c) || ((*c == '.' || *c == ',') && is_digit(c[1])))
        return scan_number(scan, token);
    if (is_apostrophe(*c)) {
        bool two = c[1] == *c;
        token->kind = two ? TOKEN_INCH_MARK : TOKEN_FOOT_MARK;
        scan->at += two ? 2 : 1;
        return true;
    }
    token->kind = fraction_of(*c, &token->value, &token->lower) ? TOKEN_FRACTION : sign_kind(*c);
    if (token->kind == TOKEN_OTHER)
        scan_word(scan, token);
    else
        scan->at++;
    return true;
}

UnitsError units_scan(const char *text, Token tokens[TOKENS_MOST + 1]) {
    Scan scan = {.at = 0};
    int count = 0;
    for (uint32_t point; (point = text_next(&text)) != 0;) {
        if (count == TOKENS_MOST)
            return UNITS_TOO_MUCH_TEXT;
        scan.points[count++] = point;
    }
    do {
        if (!scan_token(&scan, tokens))
            return UNITS_NOT_A_NUMBER;
    } while (tokens++->kind != TOKEN_END);
    return UNITS_OK;
}
