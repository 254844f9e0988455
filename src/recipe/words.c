// The words of a Lua 5.4 chunk (reference manual, section 3.1). What is malformed is passed over: Lua itself
// says what is wrong with it.
#include "recipe/words.h"

#include <string.h>

Words words_of(const char *chunk) {
    return (Words){.at = chunk, .line = 1};
}

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// The level of a long bracket "[[", "[=[" that opens here, or -1.
static int bracket_level(const char *at) {
    if (*at != '[')
        return -1;
    int level = (int)strspn(at + 1, "=");
    return at[1 + level] == '[' ? level : -1;
}

static void pass(Words *words, size_t length) {
    for (; length > 0; length--)
        words->line += *words->at++ == '\n';
}

// Past a long bracket; gives what it holds.
static void pass_bracket(Words *words, int level, const char **text, size_t *length) {
    pass(words, (size_t)level + 2);
    *text = words->at;
    for (; *words->at; pass(words, 1)) {
        if (*words->at != ']' || (int)strspn(words->at + 1, "=") != level || words->at[1 + level] != ']')
            continue;
        *length = (size_t)(words->at - *text);
        pass(words, (size_t)level + 2);
        return;
    }
    *length = (size_t)(words->at - *text);
}

static void pass_space(Words *words) {
    const char *text;
    size_t length;
    for (;;) {
        pass(words, strspn(words->at, " \t\r\n\v\f"));
        if (strncmp(words->at, "--", 2) != 0)
            return;
        words->at += 2;
        int level = bracket_level(words->at);
        if (level >= 0)
            pass_bracket(words, level, &text, &length);
        else
            words->at += strcspn(words->at, "\n");
    }
}

// A quoted string ends at its line's end even when it is not closed; "\z" and an escaped line end go on.
static void pass_quoted(Words *words, Word *out) {
    char quote = *words->at++;
    out->text = words->at;
    while (*words->at && *words->at != quote && *words->at != '\n') {
        bool escape = *words->at == '\\';
        out->escapes |= escape;
        pass(words, escape && words->at[1] ? 2 : 1);
        if (escape && words->at[-1] == 'z')
            pass(words, strspn(words->at, " \t\r\n\v\f"));
    }
    out->length = (size_t)(words->at - out->text);
    if (*words->at == quote)
        words->at++;
}

static size_t sign_length(const char *at) {
    if (strncmp(at, "...", 3) == 0)
        return 3;
    if (at[1] == '=' && strchr("=~<>", at[0]))
        return 2;
    return at[0] == at[1] && strchr(".:/<>", at[0]) ? 2 : 1;
}

static size_t number_length(const char *at) {
    const char *end = at;
    while (is_letter(*end) || is_digit(*end) || *end == '.' ||
           ((*end == '+' || *end == '-') && strchr("eEpP", end[-1])))
        end++;
    return (size_t)(end - at);
}

bool words_next(Words *words, Word *out) {
    pass_space(words);
    const char *at = words->at;
    if (*at == '\0')
        return false;
    *out = (Word){.text = at, .line = words->line};
    int level = bracket_level(at);
    if (level >= 0) {
        out->kind = WORD_STRING;
        pass_bracket(words, level, &out->text, &out->length);
        return true;
    }
    if (*at == '"' || *at == '\'') {
        out->kind = WORD_STRING;
        pass_quoted(words, out);
        return true;
    }
    if (is_letter(*at)) {
        out->kind = WORD_NAME;
        while (is_letter(at[out->length]) || is_digit(at[out->length]))
            out->length++;
    } else if (is_digit(*at) || (*at == '.' && is_digit(at[1]))) {
        out->kind = WORD_NUMBER;
        out->length = number_length(at);
    } else {
        out->kind = WORD_SIGN;
        out->length = sign_length(at);
    }
    words->at += out->length;
    return true;
}

bool word_is(const Word *word, const char *text) {
    return (word->kind == WORD_NAME || word->kind == WORD_SIGN) && strlen(text) == word->length &&
           memcmp(word->text, text, word->length) == 0;
}
