#include "base/units.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#define IN 25.4
#define SAME 1e-9 // mm

typedef struct Row {
    const char *text;
    double mm;
} Row;

static void read_all(const Row *rows, size_t count) {
    for (size_t i = 0; i < count; i++) {
        double mm = NAN;
        UnitsError error = units_parse(rows[i].text, &mm);
        cr_expect_eq(error, UNITS_OK, "[%s] %s", rows[i].text, units_error_text(error));
        cr_expect_float_eq(mm, rows[i].mm, SAME, "[%s] %.9f, not %.9f", rows[i].text, mm, rows[i].mm);
    }
}
#define READ_ALL(rows) read_all(rows, sizeof rows / sizeof rows[0])

Test(units, inch_texts_are_read) {
    static const Row rows[] = {
        {"1 5/8\"", 1.625 * IN},
        {"1 5/8 in", 1.625 * IN},
        {"1 5/8 inch", 1.625 * IN},
        {"1 5/8 inches", 1.625 * IN},
        {"1 5/8 in.", 1.625 * IN},
        {"1-5/8 in", 1.625 * IN},
        {"1-5/8\"", 1.625 * IN},
        {"5/8\"", 0.625 * IN},
        {"13/8\"", 1.625 * IN},
        {"1.625\"", 1.625 * IN},
        {".5 in", 0.5 * IN},
        {"2in", 2 * IN},
        {"2 IN", 2 * IN},
        {"1⅝\"", 1.625 * IN},
        {"1 ⅝ in", 1.625 * IN},
        {"1-⅝ in", 1.625 * IN},
        {"½ in", 0.5 * IN},
        {"⅓ in", IN / 3},
        {"⅔ in", 2 * IN / 3},
        {"¼ in", 0.25 * IN},
        {"¾ in", 0.75 * IN},
        {"⅛ in", 0.125 * IN},
        {"⅜ in", 0.375 * IN},
        {"⅞ in", 0.875 * IN},
        {"1 5⁄8 in", 1.625 * IN},
        {"1 5/8″", 1.625 * IN},
        {"1 5/8”", 1.625 * IN},
        {"1 5/8''", 1.625 * IN},
        {"1 5/8′′", 1.625 * IN},
        {"1\u00A05/8\u00A0in", 1.625 * IN},
        {"1\u20095/8\u202Fin", 1.625 * IN},
        {"  2 in\t", 2 * IN},
        {"-1/2\"", -0.5 * IN},
        {"\u22121/2\"", -0.5 * IN},
        {"-1 5/8 in", -1.625 * IN},
        {"-1-5/8 in", -1.625 * IN},
        {"+1/2 in", 0.5 * IN},
        {"0 in", 0},
    };
    READ_ALL(rows);
}

Test(units, feet_are_read) {
    static const Row rows[] = {
        {"1' 2 1/2\"", 14.5 * IN}, {"1 ft 2 1/2 in", 14.5 * IN},
        {"2'-6\"", 30 * IN},       {"2'6\"", 30 * IN},
        {"2′6″", 30 * IN},         {"2’ 6”", 30 * IN},
        {"2 ft.-6 in.", 30 * IN},  {"5'", 60 * IN},
        {"1 foot", 12 * IN},       {"2 1/2 feet", 30 * IN},
        {"1.5 ft", 18 * IN},       {"-2'-6\"", -30 * IN},
        {"1' ½\"", 12.5 * IN},
    };
    READ_ALL(rows);
}

Test(units, metric_texts_are_read) {
    static const Row rows[] = {
        {"14 cm", 140},      {"14cm", 140},         {"14.5 cm", 145}, {"14,5 cm", 145}, {"41 mm", 41},
        {"1 m", 1000},       {"1,5 m", 1500},       {".5 cm", 5},     {"0,5 cm", 5},    {"0,125 cm", 1.25},
        {"½ cm", 5},         {"1 1/2 cm", 15},      {"-3 mm", -3},    {"100 m", 1e5},   {"14\u00A0cm", 140},
        {"14\u202Fcm", 140}, {"1234,5 mm", 1234.5}, {"7 CM", 70},
    };
    READ_ALL(rows);
}

typedef struct Refusal {
    const char *text;
    UnitsError error;
} Refusal;

Test(units, what_is_not_one_length_is_refused_and_says_why) {
    static const Refusal rows[] = {
        {"", UNITS_EMPTY},
        {" \u00A0\t", UNITS_EMPTY},
        {"14", UNITS_NO_UNIT},
        {"1 5/8", UNITS_NO_UNIT},
        {"0,5", UNITS_NO_UNIT},
        {"1' 2", UNITS_NO_UNIT},
        {"12 furlongs", UNITS_UNKNOWN_UNIT},
        {"5 cmx", UNITS_UNKNOWN_UNIT},
        {"5cmé", UNITS_UNKNOWN_UNIT},
        {"1e3 mm", UNITS_UNKNOWN_UNIT},
        {"0x10 mm", UNITS_UNKNOWN_UNIT},
        {"nan mm", UNITS_NOT_A_NUMBER},
        {"inf mm", UNITS_NOT_A_NUMBER},
        {"cm", UNITS_NOT_A_NUMBER},
        {"--1 cm", UNITS_NOT_A_NUMBER},
        {"5. cm", UNITS_NOT_A_NUMBER},
        {"1.2.3 cm", UNITS_NOT_A_NUMBER},
        {"1,000,000 mm", UNITS_NOT_A_NUMBER},
        {"1 5 in", UNITS_NOT_A_NUMBER},
        {"1-5 in", UNITS_NOT_A_NUMBER},
        {"1/2/4 in", UNITS_NOT_A_NUMBER},
        {"1 / 2 in", UNITS_NOT_A_NUMBER},
        {"1/ 2 in", UNITS_NOT_A_NUMBER},
        {"1/⅝ in", UNITS_NOT_A_NUMBER},
        {"⅝⅝ in", UNITS_NOT_A_NUMBER},
        {"⅝3 in", UNITS_NOT_A_NUMBER},
        {"1.5 1/2 in", UNITS_NOT_A_NUMBER},
        {"/2 in", UNITS_NOT_A_NUMBER},
        {"5 cm 3 mm", UNITS_NOT_A_NUMBER},
        {"5 in 3", UNITS_NOT_A_NUMBER},
        {"5 in * 2", UNITS_NOT_A_NUMBER},
        {"1.5' 2\"", UNITS_NOT_A_NUMBER},
        {"1' 2 cm", UNITS_NOT_A_NUMBER},
        {"1 cm.", UNITS_NOT_A_NUMBER},
        {"\xFF\xFE", UNITS_NOT_A_NUMBER},
        {"1234567890123456 mm", UNITS_NOT_A_NUMBER},
        {"1/0 in", UNITS_ZERO_DENOMINATOR},
        {"1 9/8 in", UNITS_FRACTION_TOO_BIG},
        {"1 8/8 in", UNITS_FRACTION_TOO_BIG},
        {"1 - 5/8\"", UNITS_SPACED_HYPHEN},
        {"1 -5/8\"", UNITS_SPACED_HYPHEN},
        {"1- 5/8\"", UNITS_SPACED_HYPHEN},
        {"2' - 6\"", UNITS_SPACED_HYPHEN},
        {"0,5 in", UNITS_COMMA_INCHES},
        {"0,5\"", UNITS_COMMA_INCHES},
        {"1' 0,5\"", UNITS_COMMA_INCHES},
        {"1,5 ft", UNITS_COMMA_INCHES},
        {"100.001 m", UNITS_TOO_LONG},
        {"999999999999 m", UNITS_TOO_LONG},
        {"1,000 mm", UNITS_COMMA_THOUSANDS},
        {"14,125 cm", UNITS_COMMA_THOUSANDS},
        {"1 ft 14 in", UNITS_INCHES_TOO_BIG},
        {"1'-12\"", UNITS_INCHES_TOO_BIG},
        {"1                                                               cm", UNITS_TOO_MUCH_TEXT},
    };
    bool seen[UNITS_ERROR_COUNT] = {
        [UNITS_OK] = true, [UNITS_NOT_AN_AGE] = true}; // an age has a test of its own
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double mm = -77;
        UnitsError error = units_parse(rows[i].text, &mm);
        cr_expect_eq(error, rows[i].error, "[%s] %s", rows[i].text, units_error_text(error));
        cr_expect_eq(mm, -77, "[%s] must leave the result alone", rows[i].text);
        seen[rows[i].error] = true;
    }
    for (int error = 0; error < UNITS_ERROR_COUNT; error++)
        cr_expect(seen[error], "no text is refused as: %s", units_error_text((UnitsError)error));
}

Test(units, every_error_has_a_sentence_and_a_hint_of_its_own) {
    for (int i = 0; i < UNITS_ERROR_COUNT; i++) {
        const char *text = units_error_text((UnitsError)i), *hint = units_error_hint((UnitsError)i);
        cr_assert(text && strlen(text) > 10 && text[strlen(text) - 1] != '.');
        cr_assert(hint && strlen(hint) > 10 && hint[strlen(hint) - 1] != '.');
        for (int j = 0; j < i; j++)
            cr_expect_str_neq(text, units_error_text((UnitsError)j));
    }
}

Test(units, thirds_and_tenths_of_an_inch_are_read_but_noted) {
    double mm;
    int odd = 0;
    cr_assert_eq(units_parse_noting("2 5/8 in", &mm, &odd), UNITS_OK);
    cr_assert_eq(odd, 0);
    cr_assert_eq(units_parse_noting("2 1/3 in", &mm, &odd), UNITS_OK);
    cr_assert_eq(odd, 1);
    cr_assert_float_eq(mm, 7 * IN / 3, SAME);
    odd = 0;
    cr_assert_eq(units_parse_noting("⅔ in", &mm, &odd), UNITS_OK);
    cr_assert_eq(odd, 1);
}

Test(units, any_run_of_bytes_is_answered) {
    static const char pieces[][4] = {"1", "9", "/", "-", "\"", "'", " ",    ".",
                                     ",", "c", "m", "i", "n",  "⅝", "\xC3", "+"};
    unsigned state = 1;
    for (int round = 0; round < 200000; round++) {
        char text[64] = "";
        for (int i = 0; i < 9; i++) {
            state = state * 1664525u + 1013904223u;
            strcat(text, pieces[state >> 28]);
        }
        double mm = 0;
        UnitsError error = units_parse(text, &mm);
        cr_assert(error >= 0 && error < UNITS_ERROR_COUNT);
        cr_assert(isfinite(mm) && fabs(mm) <= 100000);
    }
}

// The inch rows of ASTM D5585-11e1, table 1, as shown on its public page: 14 5/8 in is 371.475 mm.
Test(units, a_published_neck_base_girth_converts_exactly) {
    double mm = 0;
    cr_assert_eq(units_parse("14 5/8 in", &mm), UNITS_OK);
    cr_assert_float_eq(mm, 371.475, SAME);
}

static void there_and_back(double inches, double nearest) {
    char text[32];
    double mm = NAN;
    units_format_inches(inches * IN, 16, text, sizeof text);
    cr_assert_eq(units_parse(text, &mm), UNITS_OK, "%s", text);
    cr_assert_float_eq(mm, nearest * IN, SAME, "%.6f in was shown as %s", inches, text);
}

Test(units, sixteenths_survive_being_written_and_read) {
    for (int k = -1600; k <= 1600; k++) {
        double x = k / 16.0;
        there_and_back(x, x);
        there_and_back(x + 1.0 / 33, x);
        there_and_back(x - 1.0 / 33, x);
    }
}

static void shows(double mm, int denominator, const char *wanted) {
    char text[32];
    units_format_inches(mm, denominator, text, sizeof text);
    cr_expect_str_eq(text, wanted, "%.4f mm: %s, not %s", mm, text, wanted);
}

Test(units, inches_are_reduced_carried_and_rounded_away_from_zero) {
    shows(41.275, 16, "1 5/8 in");
    shows(41.275, 8, "1 5/8 in");
    shows(15.875, 16, "5/8 in");
    shows(25.4, 16, "1 in");
    shows(0, 16, "0 in");
    shows(-0.0, 16, "0 in");
    shows(-0.1, 16, "0 in");
    shows(-12.7, 16, "-1/2 in");
    shows((15.0 / 16 + 1.0 / 32) * IN, 16, "1 in");
    shows(3 * IN / 32, 16, "1/8 in");
    shows(-3 * IN / 32, 16, "-1/8 in");
    shows(3 * IN / 32, 32, "3/32 in");
    shows(IN / 64, 64, "1/64 in");
    for (int k = 0; k < 3200; k++) { // every tie between sixteenths goes up
        char text[32];
        double mm = NAN;
        units_format_inches((2 * k + 1) * IN / 32, 16, text, sizeof text);
        cr_assert_eq(units_parse(text, &mm), UNITS_OK);
        cr_assert_float_eq(mm, (k + 1) * IN / 16, SAME, "%s", text);
    }
}

static void reads(void (*format)(double, Units, char *, size_t), double mm, Units units, const char *wanted) {
    char text[32];
    format(mm, units, text, sizeof text);
    cr_expect_str_eq(text, wanted, "%.4f mm: %s, not %s", mm, text, wanted);
}

Test(units, an_age_is_read_in_years_or_months) {
    static const struct {
        const char *text;
        double years; // less than 0: refused
    } rows[] = {{"6 years", 6},     {"1 year", 1},     {"18 months", 1.5},  {"1 month", 1 / 12.0},
                {"1,5 years", 1.5}, {"0 months", 0},   {"6Years", 6},       {"1 1/2 years", 1.5},
                {"150 years", 150}, {"151 years", -1}, {"6", -1},           {"6 cm", -1},
                {"years", -1},      {"-1 years", -1},  {"1,000 years", -1}, {"6 years 2", -1},
                {"6 yearss", -1}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double years = -7;
        const UnitsError error = units_parse_years(rows[i].text, &years);
        cr_expect_eq(error, rows[i].years < 0 ? UNITS_NOT_AN_AGE : UNITS_OK, "%s", rows[i].text);
        cr_expect_float_eq(years, rows[i].years < 0 ? -7 : rows[i].years, 1e-12, "%s", rows[i].text);
    }
    double years = -7;
    cr_expect_eq(units_parse_years("", &years), UNITS_EMPTY);
    cr_expect_float_eq(years, -7, 1e-12);
}

static void aged(double years, const char *wanted) {
    char text[32];
    units_format_years(years, text, sizeof text);
    cr_expect_str_eq(text, wanted);
}

Test(units, an_age_is_shown_in_years_or_in_months) {
    aged(6, "6 years");
    aged(1, "1 year");
    aged(0, "0 years");
    aged(1.5, "18 months");
    aged(1 / 12.0, "1 month");
    aged(6.3, "6.3 years");
}

Test(units, lengths_are_shown_in_the_readers_unit) {
    reads(units_format, 140, UNITS_CM, "14.0 cm");
    reads(units_format, 197.99, UNITS_CM, "19.8 cm");
    reads(units_format, 0.5, UNITS_CM, "0.1 cm");
    reads(units_format, -0.4, UNITS_CM, "0.0 cm");
    reads(units_format, -25, UNITS_CM, "-2.5 cm");
    reads(units_format, 139.7, UNITS_INCH, "5 1/2 in");
    reads(units_format_fine, 1.5875, UNITS_CM, "1.6 mm");
    reads(units_format_fine, 0.04, UNITS_CM, "0.0 mm");
    reads(units_format_fine, -0.05, UNITS_CM, "-0.1 mm");
    reads(units_format_fine, 1.5875, UNITS_INCH, "1/16 in");
    reads(units_format_thin, 0.2, UNITS_CM, "0.2 mm");
    reads(units_format_thin, 0.254, UNITS_INCH, "0.010 in");
}
