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
// The text becomes a short row of tokens (units_scan.c), which is then read from left to right.
#include "base/units.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "base/units_scan.h"

#define MM_MOST 100000.0 // 100 m, the limit of the drawing paper
#define MM_PER_FOOT (12 * MM_PER_INCH)
#define MONTHS_PER_YEAR 12
#define YEARS_MOST 150 // no one was ever older than about 122

typedef struct Reading {
    Token tokens[TOKENS_MOST + 1];
    const Token *next;
    bool odd;
} Reading;

static bool take(Reading *reading, TokenKind kind) {
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

// A number and its unit.
static UnitsError read_measured(Reading *reading, Amount *amount, UnitKind *kind, double *unit) {
    UnitsError error = read_amount(reading, amount);
    if (!error)
        error = read_unit(reading, kind, unit);
    return error ? error : check_comma(amount, *kind);
}

// Inches behind whole feet, "-6\"" or " 2 1/2 in".
static UnitsError read_inches(Reading *reading, double *mm) {
    if (reading->next->kind == TOKEN_HYPHEN) {
        if (reading->next[0].spaced || reading->next[1].spaced)
            return UNITS_SPACED_HYPHEN;
        reading->next++;
    }
    Amount amount;
    UnitKind kind;
    double unit;
    UnitsError error = read_measured(reading, &amount, &kind, &unit);
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
    UnitKind kind;
    double unit;
    UnitsError error = read_measured(reading, &amount, &kind, &unit);
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
    UnitsError error = units_scan(text, reading.tokens);
    reading.next = reading.tokens;
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

static UnitsError read_years(Reading *reading, double *out) {
    static const struct {
        const char *word;
        double months;
    } words[] = {{"year", MONTHS_PER_YEAR}, {"years", MONTHS_PER_YEAR}, {"month", 1}, {"months", 1}};
    Amount amount;
    if (reading->next->kind == TOKEN_END)
        return UNITS_EMPTY;
    if (read_amount(reading, &amount) || check_comma(&amount, UNIT_METRIC))
        return UNITS_NOT_AN_AGE;
    const Token *t = reading->next;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (t[0].kind != TOKEN_WORD || t[1].kind != TOKEN_END || strcmp(t[0].word, words[i].word) != 0)
            continue;
        const double years = amount.value * words[i].months / MONTHS_PER_YEAR;
        if (years > YEARS_MOST)
            return UNITS_NOT_AN_AGE;
        *out = years;
        return UNITS_OK;
    }
    return UNITS_NOT_AN_AGE;
}

UnitsError units_parse_years(const char *text, double *out) {
    Reading reading = {0};
    if (units_scan(text, reading.tokens))
        return UNITS_NOT_AN_AGE;
    reading.next = reading.tokens;
    return read_years(&reading, out);
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
    [UNITS_NOT_AN_AGE] = {"age is in years or months",
                          "write a number of years or months up to 150 years, such as 6 years or 18 months"},
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

void units_format_thin(double mm, Units units, char *out, size_t size) {
    if (units == UNITS_INCH)
        snprintf(out, size, "%.3f in", mm / MM_PER_INCH);
    else
        units_format_fine(mm, units, out, size);
}

void units_format_years(double years, char *out, size_t size) {
    assert(isfinite(years) && fabs(years) < 1e12);
    const double months = years * MONTHS_PER_YEAR;
    if (years != floor(years) && fabs(months - round(months)) < 1e-6)
        snprintf(out, size, "%.0f %s", months, round(months) == 1 ? "month" : "months");
    else
        snprintf(out, size, "%g %s", years, years == 1 ? "year" : "years");
}
