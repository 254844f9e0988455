#include "booklet/language.h"

#include <assert.h>
#include <ctype.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/text.h"
#include "booklet/language_table.h"

#define FILLED_MOST 9

const Language *language_at(int index) {
    return index >= 0 && index < languages_count ? &languages[index] : NULL;
}

const Language *language_english(void) {
    return &languages[0];
}

const char *language_tag(const Language *language) {
    return language->tag;
}

static bool is_of(const char *tag, const char *language) {
    const size_t length = strlen(language);
    return strncasecmp(tag, language, length) == 0 && (tag[length] == '\0' || tag[length] == '-');
}

const Language *language_find(const char *tag) {
    for (int i = 0; i < languages_count; i++)
        if (is_of(tag, languages[i].tag))
            return &languages[i];
    return NULL;
}

static int compare(const void *key, const void *entry) {
    return strcmp(key, ((const LanguageEntry *)entry)->key);
}

static const char *find(const Language *language, const char *key) {
    const LanguageEntry *entry =
        bsearch(key, language->entries, (size_t)language->count, sizeof *language->entries, compare);
    return entry ? entry->words : NULL;
}

bool language_has(const Language *language, const char *key) {
    return find(language, key) != NULL;
}

const char *language_key(const Language *language, int index) {
    return index >= 0 && index < language->count ? language->entries[index].key : NULL;
}

const char *language_word(const Language *language, const char *key) {
    const char *words = find(language, key);
    if (!words)
        words = find(language_english(), key);
    assert(words);
    return words;
}

void language_say(const Language *language, Buffer *out, const char *key, ...) {
    const char *filled[FILLED_MOST];
    int count = 0;
    va_list args;
    va_start(args, key);
    for (const char *text; (text = va_arg(args, const char *)) != NULL;) {
        assert(count < FILLED_MOST);
        filled[count++] = text;
    }
    va_end(args);
    language_fill(language, out, key, filled, count);
}

// Letters of the blocks that are written from right to left (Unicode: Hebrew to Arabic Extended-A, and the
// presentation forms).
static bool has_rtl(const char *text) {
    for (const char *at = text; *at;) {
        const uint32_t c = text_next(&at);
        if ((c >= 0x0590 && c <= 0x08FF) || (c >= 0xFB1D && c <= 0xFDFF) || (c >= 0xFE70 && c <= 0xFEFC))
            return true;
    }
    return false;
}

// A name from right to left would turn the sentence it is put into: U+2068 and U+2069 set it apart (Unicode
// Standard Annex 9, isolates), and U+200E begins the sentence for those who look at its first letter alone,
// as pango does. No sentence of the program's own is written that way.
static bool set_apart(const char *text, Buffer *out) {
    const bool apart = has_rtl(text);
    buffer_add_text(out, apart ? "\u2068" : "");
    buffer_add_text(out, text);
    buffer_add_text(out, apart ? "\u2069" : "");
    return apart;
}

void language_fill(const Language *language, Buffer *out, const char *key, const char *const *filled,
                   int count) {
    Buffer apart[FILLED_MOST];
    const char *told[FILLED_MOST];
    assert(count <= FILLED_MOST);
    bool any = false;
    for (int i = 0; i < count; i++) {
        buffer_init(&apart[i]);
        any = set_apart(filled[i], &apart[i]) || any;
        told[i] = apart[i].data;
    }
    buffer_add_text(out, any ? "\u200E" : "");
    buffer_fill(out, language_word(language, key), told, count);
    for (int i = 0; i < count; i++)
        buffer_finish(&apart[i]);
}

NumberMarks language_marks(const Language *language) {
    return (NumberMarks){.comma = strcmp(language_word(language, "decimal_mark"), ",") == 0,
                         .inch = language_word(language, "unit.inch"),
                         .square_inch = language_word(language, "unit.square_inch")};
}

void language_count(const Language *language, Buffer *out, const char *key, int count) {
    char number[16], whole[64];
    snprintf(number, sizeof number, "%d", count);
    snprintf(whole, sizeof whole, "%s.%s", key, count == 1 ? "one" : "many");
    language_say(language, out, whole, number, NULL);
}

// A letter that would make another word of it.
static bool goes_on(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}

static bool word_fits(const char *word, size_t length, const char *text, bool at_end) {
    const size_t whole = strlen(text);
    if (length > whole)
        return false;
    const char *at = at_end ? text + whole - length : text;
    if (strncasecmp(at, word, length) != 0)
        return false;
    return at_end ? at == text || !goes_on(at[-1]) : !goes_on(at[length]);
}

static bool any_fits(const char *key, const char *text, bool at_end) {
    for (int i = 0; i < languages_count; i++)
        for (const char *at = language_word(&languages[i], key); *at;) {
            const size_t length = strcspn(at, ",");
            if (word_fits(at, length, text, at_end))
                return true;
            at += length;
            at += strspn(at, ", ");
        }
    return false;
}

bool language_any_begins(const char *key, const char *text) {
    return any_fits(key, text, false);
}

bool language_any_ends(const char *key, const char *text) {
    return any_fits(key, text, true);
}

bool language_tag_is_sound(const char *tag) {
    size_t part = 0, parts = 0;
    for (const char *at = tag;; at++) {
        if (*at == '-' || *at == '\0') {
            if (part == 0 || part > 8 || (parts == 0 && part < 2) || ++parts > 4)
                return false;
            if (*at == '\0')
                return true;
            part = 0;
            continue;
        }
        const unsigned char c = (unsigned char)*at;
        if (c > 0x7F || !(parts == 0 ? isalpha(c) : isalnum(c)))
            return false;
        part++;
    }
}

// The part of four letters behind the language, "Arab" of "az-Arab"; NULL where none is said.
static const char *script_of(const char *tag) {
    const size_t language = strcspn(tag, "-");
    const char *script = tag[language] == '-' ? tag + language + 1 : tag + language;
    return strcspn(script, "-") == 4 && isalpha((unsigned char)*script) ? script : NULL;
}

bool language_tag_is_rtl(const char *tag) {
    static const char *const scripts[] = {"Arab", "Hebr", "Syrc", "Thaa", "Nkoo", "Adlm", "Rohg"};
    static const char *const tags[] = {"ar", "he", "fa", "ur", "ps", "yi", "dv", "ckb", "sd", "ug", "syr"};
    const char *script = script_of(tag);
    for (size_t i = 0; script && i < sizeof scripts / sizeof *scripts; i++)
        if (is_of(script, scripts[i]))
            return true;
    if (script)
        return false;
    for (size_t i = 0; i < sizeof tags / sizeof *tags; i++)
        if (is_of(tag, tags[i]))
            return true;
    return false;
}
