// Lengths as people write them: what is read, and why the rest is not.
//
//   amount   14   14.5   .5   14,5 (metric only)   5/8   13/8   1 5/8   1-5/8   1⅝   1 5⁄8
//   unit     mm  cm  m  in  inch  inches  ft  foot  feet, in any case, "in." and "ft." too
//            " ″ ” '' are inches, ' ′ ’ are feet
//   length   [sign] amount unit,  or  [sign] feet inches:  1' 2 1/2"   1 ft 2 1/2 in   2'-6"
//
// A sign counts for the whole length; U+2212 is a minus, and the spaces that keep a number and its unit on
// one line (U+00A0, U+2009, U+202F) are spaces. A hyphen between a whole number and its fraction must touch
// both: "1 - 5/8" reads as a subtraction, as "1-5/8" itself does in the script, which is why this form is
// read from text only. A comma is the decimal sign of metric countries; with exactly three digits behind it,
// it may as well mark thousands, and is refused where the two readings differ.
//
// The text becomes a short row of tokens, each knowing whether a space stood before it; the row is then read
// from left to right. Numbers are read here and not by the C library, so that no locale can change them.
#include "base/units.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"

#define TEXT_MOST 64     // characters
#define DIGITS_MOST 15   // what a double holds exactly
#define MM_MOST 100000.0 // 100 m, the limit of the drawing paper
#define MM_PER_FOOT (12 * MM_PER_INCH)

typedef enum Kind {
    TOKEN_END,
    TOKEN_WHOLE,
    TOKEN_DECIMAL,
    TOKEN_FRACTION, // one character, as U+215D
    TOKEN_SLASH,
    TOKEN_HYPHEN,
    TOKEN_PLUS,
    TOKEN_STOP,
    TOKEN_INCH_MARK,
    TOKEN_FOOT_MARK,
    TOKEN_WORD,
    TOKEN_OTHER
} Kind;

typedef struct Token {
    Kind kind;
    bool spaced;    // a space stood before it
    bool comma;     // a decimal with a comma
    bool thousands; // ... that could mark thousands
    double value;   // of a whole number or a decimal; the upper number of a fraction
    double lower;   // the lower number of a fraction
    char word[TEXT_MOST + 1];
} Token;

typedef struct Scan {
    uint32_t points[TEXT_MOST + 1]; // ended by 0
    int at;
} Scan;

typedef struct Reading {
    Token tokens[TEXT_MOST + 1];
    const Token *next;
    bool odd;
} Reading;

static bool is_space(uint32_t c) {
    return c == ' ' || (c >= '\t' && c <= '\r') || c == 0xA0 || c == 0x2009 || c == 0x202F;
}

static bool is_digit(uint32_t c) {
    return c >= '0' && c <= '9';
}

// Every letter beyond ASCII counts, so that a unit glued to one is not taken for the unit alone.
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

static Kind sign_kind(uint32_t c) {
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

static UnitsError scan_all(const char *text, Reading *reading) {
    Scan scan = {.at = 0};
    int count = 0;
    for (uint32_t point; (point = text_next(&text)) != 0;) {
        if (count == TEXT_MOST)
            return UNITS_TOO_MUCH_TEXT;
        scan.points[count++] = point;
    }
    Token *token = reading->tokens;
    do {
        if (!scan_token(&scan, token))
            return UNITS_NOT_A_NUMBER;
    } while (token++->kind != TOKEN_END);
    reading->next = reading->tokens;
    return UNITS_OK;
}

static bool take(Reading *reading, Kind kind) {
    if (reading->next->kind != kind)
        return false;
    reading->next++;
    return true;
}

// "5/8" or the one character; a fraction that is not there leaves *found false.
static UnitsError read_fraction(Reading *reading, bool after_whole, double *out, bool *found) {
    const Token *t = reading->next;
    double upper = t[0].value, lower = t[0].lower;
    *found = t[0].kind == TOKEN_FRACTION || (t[0].kind == TOKEN_WHOLE && t[1].kind == TOKEN_SLASH);
    if (!*found)
        return UNITS_OK;
    if (t[0].kind == TOKEN_FRACTION) {
        reading->next += 1;
    } else {
        if (t[1].spaced || t[2].kind != TOKEN_WHOLE || t[2].spaced || t[3].kind == TOKEN_SLASH)
            return UNITS_NOT_A_NUMBER;
        lower = t[2].value;
        reading->next += 3;
    }
    if (lower == 0)
        return UNITS_ZERO_DENOMINATOR;
    if (after_whole && upper >= lower)
        return UNITS_FRACTION_TOO_BIG;
    if (lower != 2 && lower != 4 && lower != 8 && lower != 16 && lower != 32 && lower != 64)
        reading->odd = true;
    *out = upper / lower;
    return UNITS_OK;
}

typedef struct Amount {
    double value;
    bool comma, thousands;
    bool whole; // no fraction, no decimals
} Amount;

static UnitsError read_amount(Reading *reading, Amount *out) {
    bool found = false;
    *out = (Amount){0};
    UnitsError error = read_fraction(reading, false, &out->value, &found);
    if (error || found)
        return error;
    const Token *t = reading->next;
    if (t->kind != TOKEN_WHOLE && t->kind != TOKEN_DECIMAL)
        return UNITS_NOT_A_NUMBER;
    *out = (Amount){
        .value = t->value, .comma = t->comma, .thousands = t->thousands, .whole = t->kind == TOKEN_WHOLE};
    reading->next++;
    if (!out->whole)
        return UNITS_OK;

    bool hyphen = reading->next->kind == TOKEN_HYPHEN;
    if (hyphen && (reading->next[0].spaced || reading->next[1].spaced))
        return UNITS_SPACED_HYPHEN;
    reading->next += hyphen;
    double fraction = 0;
    error = read_fraction(reading, true, &fraction, &found);
    if (error)
        return error;
    if (hyphen && !found)
        return UNITS_NOT_A_NUMBER;
    out->value += fraction;
    out->whole = !found;
    return UNITS_OK;
}

typedef enum UnitKind { UNIT_METRIC, UNIT_FOOT, UNIT_INCH } UnitKind;

static UnitsError read_unit(Reading *reading, UnitKind *kind, double *mm) {
    static const struct {
        const char *word;
        UnitKind kind;
        double mm;
    } words[] = {
        {"mm", UNIT_METRIC, 1},         {"cm", UNIT_METRIC, MM_PER_CM},   {"m", UNIT_METRIC, 1000},
        {"in", UNIT_INCH, MM_PER_INCH}, {"inch", UNIT_INCH, MM_PER_INCH}, {"inches", UNIT_INCH, MM_PER_INCH},
        {"ft", UNIT_FOOT, MM_PER_FOOT}, {"foot", UNIT_FOOT, MM_PER_FOOT}, {"feet", UNIT_FOOT, MM_PER_FOOT},
    };
    const Token *t = reading->next;
    if (t->kind == TOKEN_END)
        return UNITS_NO_UNIT;
    if (t->kind == TOKEN_INCH_MARK || t->kind == TOKEN_FOOT_MARK) {
        *kind = t->kind == TOKEN_INCH_MARK ? UNIT_INCH : UNIT_FOOT;
        *mm = t->kind == TOKEN_INCH_MARK ? MM_PER_INCH : MM_PER_FOOT;
        reading->next++;
        return UNITS_OK;
    }
    if (t->kind != TOKEN_WORD)
        return UNITS_NOT_A_NUMBER;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (strcmp(words[i].word, t->word) != 0)
            continue;
        *kind = words[i].kind;
        *mm = words[i].mm;
        reading->next++;
        if ((strcmp(t->word, "in") == 0 || strcmp(t->word, "ft") == 0) && !reading->next->spaced)
            take(reading, TOKEN_STOP);
        return UNITS_OK;
    }
    return UNITS_UNKNOWN_UNIT;
}

static UnitsError check_comma(const Amount *amount, UnitKind kind) {
    if (amount->comma && kind != UNIT_METRIC)
        return UNITS_COMMA_INCHES;
    return amount->thousands ? UNITS_COMMA_THOUSANDS : UNITS_OK;
}

// Inches behind whole feet, "-6\"" or " 2 1/2 in".
static UnitsError read_inches(Reading *reading, double *mm) {
    if (reading->next->kind == TOKEN_HYPHEN) {
        if (reading->next[0].spaced || reading->next[1].spaced)
            return UNITS_SPACED_HYPHEN;
        reading->next++;
    }
    Amount amount;
    UnitKind kind = UNIT_INCH;
    double unit = 0;
    UnitsError error = read_amount(reading, &amount);
    if (!error)
        error = read_unit(reading, &kind, &unit);
    if (!error)
        error = check_comma(&amount, kind);
    if (error)
        return error;
    if (kind != UNIT_INCH)
        return UNITS_NOT_A_NUMBER;
    if (amount.value >= 12)
        return UNITS_INCHES_TOO_BIG;
    *mm += amount.value * unit;
    return UNITS_OK;
}

static UnitsError read_length(Reading *reading, double *out) {
    if (reading->next->kind == TOKEN_END)
        return UNITS_EMPTY;
    bool minus = take(reading, TOKEN_HYPHEN);
    if (!minus)
        take(reading, TOKEN_PLUS);
    Amount amount;
    UnitKind kind = UNIT_METRIC;
    double unit = 0;
    UnitsError error = read_amount(reading, &amount);
    if (!error)
        error = read_unit(reading, &kind, &unit);
    if (!error)
        error = check_comma(&amount, kind);
    if (error)
        return error;
    double mm = amount.value * unit;
    if (kind == UNIT_FOOT && amount.whole && reading->next->kind != TOKEN_END)
        error = read_inches(reading, &mm);
    if (error)
        return error;
    if (reading->next->kind != TOKEN_END)
        return reading->next->kind == TOKEN_WORD && !reading->next->spaced ? UNITS_UNKNOWN_UNIT
                                                                           : UNITS_NOT_A_NUMBER;
    if (mm > MM_MOST)
        return UNITS_TOO_LONG;
    *out = minus && mm > 0 ? -mm : mm;
    return UNITS_OK;
}

UnitsError units_parse_noting(const char *text, double *out, int *odd) {
    Reading reading = {0};
    double mm = 0;
    UnitsError error = scan_all(text, &reading);
    if (!error)
        error = read_length(&reading, &mm);
    if (error)
        return error;
    *out = mm;
    if (odd && reading.odd)
        *odd = 1;
    return UNITS_OK;
}

UnitsError units_parse(const char *text, double *out) {
    return units_parse_noting(text, out, NULL);
}

static const struct {
    const char *text, *hint;
} sentences[UNITS_ERROR_COUNT] = {
    [UNITS_OK] = {"nothing is wrong", "leave it as it is"},
    [UNITS_EMPTY] = {"a length is missing", "write a number and its unit, such as 14 cm or 5 1/2 in"},
    [UNITS_NO_UNIT] = {"a number stands without its unit", "say the unit, such as 14 cm, 140 mm or 5 1/2 in"},
    [UNITS_UNKNOWN_UNIT] = {"the unit is not known", "the units are mm, cm, m, in (or \") and ft (or ')"},
    [UNITS_NOT_A_NUMBER] = {"this does not read as one length",
                            "write one number and its unit, such as 14.5 cm, 1 5/8 in or 2'-6\""},
    [UNITS_ZERO_DENOMINATOR] = {"a fraction has 0 below its line", "write 2, 4, 8, 16, 32 or 64 there"},
    [UNITS_FRACTION_TOO_BIG] = {"the fraction behind a whole number is 1 or more",
                                "carry it over: 2 1/8 in, not 1 9/8 in"},
    [UNITS_SPACED_HYPHEN] = {"a hyphen with spaces around it could be a minus",
                             "write 1 5/8 in or 1-5/8 in, without spaces around the hyphen"},
    [UNITS_COMMA_INCHES] = {"inches and feet are not written with a decimal comma",
                            "write a point or a fraction: 0.5 in or 1/2 in"},
    [UNITS_TOO_LONG] = {"the length is more than 100 m",
                        "nothing longer than 100 m is drawn: check the unit"},
    [UNITS_COMMA_THOUSANDS] = {"a comma with three digits behind it could mark decimals or thousands",
                               "write 1000 mm for a thousand, 1.0 mm for one"},
    [UNITS_INCHES_TOO_BIG] = {"the inches behind the feet are 12 or more",
                              "carry them over: 2 ft 2 in, not 1 ft 14 in"},
    [UNITS_TOO_MUCH_TEXT] = {"this is more than 64 characters, too many for one length",
                             "write one number and its unit, such as 14 cm or 5 1/2 in"},
};

const char *units_error_text(UnitsError error) {
    assert(error >= UNITS_OK && error < UNITS_ERROR_COUNT);
    return sentences[error].text;
}

const char *units_error_hint(UnitsError error) {
    assert(error >= UNITS_OK && error < UNITS_ERROR_COUNT);
    return sentences[error].hint;
}

// The nearest whole number to size * parts, ties upward. A length that was written as an exact tie may have
// come out of its arithmetic a hair below it; the hair is a millionth of the last place shown.
static long long nearest(double size, double parts) {
    return (long long)floor(size * parts + 0.5 + 1e-6);
}

void units_format_inches(double mm, int denominator, char *out, size_t size) {
    assert(isfinite(mm) && fabs(mm) < 1e12);
    assert(denominator == 8 || denominator == 16 || denominator == 32 || denominator == 64);
    long long parts = nearest(fabs(mm) / MM_PER_INCH, denominator);
    const char *sign = mm < 0 && parts > 0 ? "-" : "";
    long long whole = parts / denominator;
    int upper = (int)(parts % denominator);
    while (upper > 0 && upper % 2 == 0) {
        upper /= 2;
        denominator /= 2;
    }
    if (upper == 0)
        snprintf(out, size, "%s%lld in", sign, whole);
    else if (whole == 0)
        snprintf(out, size, "%s%d/%d in", sign, upper, denominator);
    else
        snprintf(out, size, "%s%lld %d/%d in", sign, whole, upper, denominator);
}

// tenths / 10 with one decimal and the unit.
static void format_tenths(double mm, long long tenths, const char *unit, char *out, size_t size) {
    snprintf(out, size, "%s%lld.%lld %s", mm < 0 && tenths > 0 ? "-" : "", tenths / 10, tenths % 10, unit);
}

void units_format(double mm, Units units, char *out, size_t size) {
    assert(isfinite(mm) && fabs(mm) < 1e12);
    if (units == UNITS_INCH)
        units_format_inches(mm, 16, out, size);
    else
        format_tenths(mm, nearest(fabs(mm), 1), "cm", out, size);
}

void units_format_fine(double mm, Units units, char *out, size_t size) {
    assert(isfinite(mm) && fabs(mm) < 1e12);
    if (units == UNITS_INCH)
        units_format_inches(mm, 64, out, size);
    else
        format_tenths(mm, nearest(fabs(mm), 10), "mm", out, size);
}
