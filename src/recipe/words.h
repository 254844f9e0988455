// The words of a Lua chunk, without its comments: just enough to find names and strings, no grammar.
#ifndef REBATO_RECIPE_WORDS_H
#define REBATO_RECIPE_WORDS_H

#include <stdbool.h>
#include <stddef.h>

typedef enum WordKind {
    WORD_NAME,   // and the reserved words
    WORD_STRING, // text is what stands between the quotes or brackets, escapes as written
    WORD_NUMBER,
    WORD_SIGN // one sign, or two equal ones or a comparison: "=", "==", "..", "::", "<="
} WordKind;

typedef struct Word {
    WordKind kind;
    const char *text; // in the chunk
    size_t length;
    int line;
    bool escapes; // a string with a backslash in it
} Word;

typedef struct Words {
    const char *at;
    int line;
} Words;

Words words_of(const char *chunk); // ended by a NUL
bool words_next(Words *words, Word *out);
bool word_is(const Word *word, const char *text); // a name or a sign

#endif
