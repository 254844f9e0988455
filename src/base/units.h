// Lengths as people write them. Inside the program every length is in millimetres; 1 in = 25.4 mm exactly
// (international yard and pound agreement, 1959).
#ifndef REBATO_BASE_UNITS_H
#define REBATO_BASE_UNITS_H

#include <stddef.h>

#define MM_PER_CM 10.0
#define MM_PER_INCH 25.4

typedef enum Units { UNITS_CM, UNITS_INCH } Units;

typedef enum UnitsError {
    UNITS_OK,
    UNITS_EMPTY,
    UNITS_NO_UNIT,      // a bare number
    UNITS_UNKNOWN_UNIT, // "12 furlongs"
    UNITS_NOT_A_NUMBER,
    UNITS_ZERO_DENOMINATOR,
    UNITS_FRACTION_TOO_BIG, // "1 9/8"
    UNITS_SPACED_HYPHEN,    // "1 - 5/8 in"
    UNITS_COMMA_INCHES,     // "0,5 in"
    UNITS_TOO_LONG,         // past 100 m
    UNITS_COMMA_THOUSANDS,  // "1,000 mm": one millimetre or a thousand
    UNITS_INCHES_TOO_BIG,   // "1 ft 14 in"
    UNITS_TOO_MUCH_TEXT,    // more than 64 characters
    UNITS_NOT_AN_AGE,       // "6 cm" or "6" where years or months belong
    UNITS_ERROR_COUNT
} UnitsError;

// Reads "14 cm", "14,5 cm", "41 mm", "1 5/8 in", "1-5/8\"", "2'-6\"", "1⅝ in" and their like: facts in the
// header of units.c. Gives millimetres. out is untouched on failure.
UnitsError units_parse(const char *text, double *out);

// As units_parse; *odd (when not NULL) is set to 1 where a fraction is not in halves to 64ths, which is
// accepted but worth a warning.
UnitsError units_parse_noting(const char *text, double *out, int *odd);

// Reads an age, "6 years", "18 months", "1 1/2 years", from 0 to 150 years. Gives years. out is untouched on
// failure.
UnitsError units_parse_years(const char *text, double *out);

const char *units_error_text(UnitsError error); // what is wrong, one sentence, no full stop
const char *units_error_hint(UnitsError error); // what would work, likewise

// Inches in sixteenths (denominator 8, 16, 32 or 64), as "1 5/8 in"; ties away from zero.
void units_format_inches(double mm, int denominator, char *out, size_t size);

// A length for people: "14.0 cm" to 1 mm, or inches to the nearest 1/16 ("5 1/2 in").
void units_format(double mm, Units units, char *out, size_t size);

// A length for small things, to 0.1 mm: "1.6 mm", or inches to 1/64.
void units_format_fine(double mm, Units units, char *out, size_t size);

// The thickness of cloth and other lengths of a few millimetres: "0.3 mm", or inches to a thousandth, "0.012
// in".
#define UNITS_THIN_MM 3.0 // a length that never reaches this is told so
void units_format_thin(double mm, Units units, char *out, size_t size);

// An age for people: "6 years", "1 year"; in months where the years are not whole, "18 months".
void units_format_years(double years, char *out, size_t size);

#endif
