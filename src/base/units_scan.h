// A written length as a short row of tokens, each knowing whether a space stood before it. For units.c alone.
#ifndef REBATO_BASE_UNITS_SCAN_H
#define REBATO_BASE_UNITS_SCAN_H

#include <stdbool.h>

#include "base/units.h"

#define TOKENS_MOST 64 // and characters

typedef enum TokenKind {
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
} TokenKind;

typedef struct Token {
    TokenKind kind;
    bool spaced;    // a space stood before it
    bool comma;     // a decimal with a comma
    bool thousands; // ... that could mark thousands
    double value;   // of a whole number or a decimal; the upper number of a fraction
    double lower;   // the lower number of a fraction
    char word[TOKENS_MOST + 1];
} Token;

// Fills tokens, the last of which is TOKEN_END.
UnitsError units_scan(const char *text, Token tokens[TOKENS_MOST + 1]);

#endif
