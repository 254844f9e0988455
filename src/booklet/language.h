// The program's own words in the languages it has: one table a language, src/booklet/words/TAG.txt, of lines
// "key = words". In words {1}, {2} ... stand for what is filled in.
#ifndef REBATO_BOOKLET_LANGUAGE_H
#define REBATO_BOOKLET_LANGUAGE_H

#include <stdbool.h>

#include "base/buffer.h"
#include "sheet/number_text.h"

typedef struct Language Language;

// The language of a tag, "de" or "de-AT", whatever the case; NULL where there is none.
const Language *language_find(const char *tag);
const Language *language_english(void);
const Language *language_at(int index); // English first; NULL past the last

const char *language_tag(const Language *language); // "de"

// The words of a key, in English where the language has none. A key that English lacks is a programmer's
// mistake.
const char *language_word(const Language *language, const char *key);
bool language_has(const Language *language, const char *key);
const char *language_key(const Language *language, int index); // in order; NULL past the last

// Adds the words of key with the texts that follow, up to a NULL, for {1}, {2} ...
void language_say(const Language *language, Buffer *out, const char *key, ...) __attribute__((sentinel));

void language_fill(const Language *language, Buffer *out, const char *key, const char *const *filled,
                   int count); // the same, counted

// "1 piece", "5 pieces": the words of key ".one" or ".many" with the number for {1}.
void language_count(const Language *language, Buffer *out, const char *key, int count);

NumberMarks language_marks(const Language *language);

// Whether a text begins or ends with one of the words of a key, a list with commas, in any language.
bool language_any_begins(const char *key, const char *text);
bool language_any_ends(const char *key, const char *text);

// A tag by its form (RFC 5646: parts of one to eight letters or digits, joined by hyphens, letters first).
bool language_tag_is_sound(const char *tag);

// Whether prose of that tag is written from right to left, by its script if it says one ("az-Arab"), else by
// the language.
bool language_tag_is_rtl(const char *tag);

#endif
