// The tables that scripts/embed_words.py writes. Inside this room only.
#ifndef REBATO_BOOKLET_LANGUAGE_TABLE_H
#define REBATO_BOOKLET_LANGUAGE_TABLE_H

#include "booklet/language.h"

typedef struct LanguageEntry {
    const char *key, *words;
} LanguageEntry;

struct Language {
    const char *tag;
    const LanguageEntry *entries; // sorted by key
    int count;
};

extern const Language languages[]; // English first
extern const int languages_count;

#endif
