// The words of a page of HTML that its recipes did not write: all but what stands in elements of another
// language, in code, and but the names that the recipes gave.
#ifndef REBATO_TESTS_BOOKLET_WORDS_LEFT_H
#define REBATO_TESTS_BOOKLET_WORDS_LEFT_H

#include "base/buffer.h"
#include "booked.h"

// The text of the page outside of elements with lang="tag", with what attributes say aloud.
void words_left(const char *html, const char *tag, Buffer *out);

// Every name of the pattern, and every word of the table, one behind the other.
void given_names(const Booked *booked, Buffer *out);
void table_words(const Language *language, Buffer *out);

// Whether text has the word as a whole one, whatever the case of its first letter.
bool has_word(const char *text, const char *word, size_t length);

// Gives the next word of three letters or more from *at on, and its length; NULL at the end.
const char *next_word(const char **at, size_t *length);

#endif
