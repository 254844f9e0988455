// Liang, "Word hy-phen-a-tion by com-put-er" (1983): a pattern is a run of letters with a number between each
// two of them, 0 where none is written; "." is the end of a word. Every pattern that fits somewhere in a word
// lays its numbers there, the largest stays, and where it is odd the word may be broken.
//
// The files hold levels of patterns: the first breaks compounds into words, the next those into syllables. A
// library for them exists and takes five seconds to read the German ones, so they are read here: into a table
// that is found by the letters of a pattern.
#include "sheet/hyphens.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/buffer.h"
#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"

#define FOLDER "/usr/share/hyphen"
#define FILE_MOST (8u * 1024u * 1024u)
#define WORD_LEAST 6 // letters; shorter words are not broken
#define WORD_MOST 60
#define BYTES_MOST (2 * WORD_MOST)
#define BEFORE_LEAST 2 // letters that stay on the line, and that go to the next one
#define AFTER_LEAST 3
#define PART_LEAST 2 // letters of a syllable next to a joint of a compound
#define LEVELS_MAX 2
#define LANGUAGES_MAX 8

typedef struct Level {
    uint32_t *slots; // places in the store of patterns, and 1 more; 0 for free
    uint32_t size, count;
    size_t longest; // bytes of letters
} Level;

typedef struct Patterns {
    char language[4], region[4]; // "pt", "BR" or ""
    bool there, utf8;            // else ISO 8859-1
    Level levels[LEVELS_MAX];
    int level_count;
    Buffer
        store; // for each pattern: number of bytes, the letters, and a number before each and behind the last
} Patterns;

#define HASH_START 2166136261u // FNV-1a, 32 bits

static uint32_t hash_on(uint32_t hash, char c) {
    return (hash ^ (unsigned char)c) * 16777619u;
}

static const unsigned char *find(const Patterns *patterns, const Level *level, const char *letters,
                                 size_t length, uint32_t hash) {
    for (uint32_t i = hash & (level->size - 1); level->slots[i] != 0; i = (i + 1) & (level->size - 1)) {
        const unsigned char *at = (const unsigned char *)patterns->store.data + level->slots[i] - 1;
        if (at[0] == length && memcmp(at + 1, letters, length) == 0)
            return at + 1 + length;
    }
    return NULL;
}

static uint32_t hash_of(const unsigned char *letters, size_t length) {
    uint32_t hash = HASH_START;
    for (size_t i = 0; i < length; i++)
        hash = hash_on(hash, (char)letters[i]);
    return hash;
}

static void put(const Patterns *patterns, Level *level, uint32_t place) {
    const unsigned char *at = (const unsigned char *)patterns->store.data + place - 1;
    uint32_t i = hash_of(at + 1, at[0]) & (level->size - 1);
    while (level->slots[i] != 0)
        i = (i + 1) & (level->size - 1);
    level->slots[i] = place;
}

static void grow(const Patterns *patterns, Level *level) {
    uint32_t *const old = level->slots;
    const uint32_t size = level->size;
    level->size = size == 0 ? 1024 : 2 * size;
    level->slots = mem_new(sizeof *level->slots * level->size);
    for (uint32_t i = 0; i < size; i++)
        if (old[i] != 0)
            put(patterns, level, old[i]);
    mem_free(old);
}

static void add_pattern(Patterns *patterns, Level *level, const char *line, size_t length) {
    char letters[BYTES_MOST], numbers[BYTES_MOST + 1] = {0};
    size_t count = 0;
    for (size_t i = 0; i < length; i++) {
        if (line[i] == '/' || line[i] == '=' || count == BYTES_MOST)
            return; // a break that alters letters
        if (line[i] >= '0' && line[i] <= '9') {
            numbers[count] = (char)(line[i] - '0');
        } else {
            letters[count++] = line[i];
            numbers[count] = 0;
        }
    }
    if (count == 0)
        return;
    if (2 * (level->count + 1) > level->size)
        grow(patterns, level);
    const uint32_t place = (uint32_t)patterns->store.length + 1;
    buffer_add_char(&patterns->store, (char)count);
    buffer_add(&patterns->store, letters, count);
    buffer_add(&patterns->store, numbers, count + 1);
    put(patterns, level, place);
    level->count++;
    level->longest = level->longest > count ? level->longest : count;
}

// The first line names the code of the letters; lines of capital letters are settings.
static void read_patterns(Patterns *patterns, const char *text, size_t length) {
    size_t at = 0;
    for (bool first = true; at < length; first = false) {
        const char *line = text + at, *end = memchr(line, '\n', length - at);
        size_t count = end != NULL ? (size_t)(end - line) : length - at;
        at += count + 1;
        while (count > 0 && (line[count - 1] == '\r' || line[count - 1] == ' '))
            count--;
        if (first) {
            patterns->utf8 = count == 5 && memcmp(line, "UTF-8", 5) == 0;
            patterns->there = patterns->utf8 || (count == 9 && memcmp(line, "ISO8859-1", 9) == 0);
            patterns->level_count = 1;
            continue;
        }
        if (!patterns->there)
            return;
        if (count >= 9 && memcmp(line, "NEXTLEVEL", 9) == 0 && patterns->level_count < LEVELS_MAX)
            patterns->level_count++;
        else if (count > 0 && *line != '#' && *line != '%' && !(*line >= 'A' && *line <= 'Z'))
            add_pattern(patterns, &patterns->levels[patterns->level_count - 1], line, count);
    }
}

static bool read_file(const char *name, Buffer *out) {
    Fault fault;
    fault_init(&fault);
    const bool good = file_exists(name) && file_read(name, FILE_MOST, out, &fault);
    fault_finish(&fault);
    return good;
}

static void load(Patterns *patterns) {
    static const char *const regions[][2] = {
        {"en", "_US"}, {"de", "_DE"}, {"fr", "_FR"}, {"es", "_ES"}, {"pt", "_PT"}};
    buffer_init(&patterns->store);
    const char *usual = "";
    for (size_t i = 0; i < sizeof regions / sizeof *regions; i++)
        if (strcmp(regions[i][0], patterns->language) == 0)
            usual = regions[i][1];
    char own[8] = "";
    if (*patterns->region)
        snprintf(own, sizeof own, "_%s", patterns->region);
    const char *const tried[] = {own, usual, ""};
    for (int i = 0; i < 3 && !patterns->there; i++) {
        char name[80];
        snprintf(name, sizeof name, FOLDER "/hyph_%s%s.dic", patterns->language, tried[i]);
        Buffer text;
        buffer_init(&text);
        if (read_file(name, &text))
            read_patterns(patterns, text.data, text.length);
        buffer_finish(&text);
    }
}

// The first part of a tag of two letters behind the language, in capitals: "BR" of "pt-BR"; "" where none is.
static void find_region(const char *tag, char out[4]) {
    out[0] = '\0';
    for (const char *at = tag + strcspn(tag, "-"); *at == '-'; at += strcspn(at, "-")) {
        at++;
        if (strcspn(at, "-") != 2)
            continue;
        for (int i = 0; i < 2; i++)
            out[i] = (char)(at[i] >= 'a' && at[i] <= 'z' ? at[i] - 32 : at[i]);
        out[2] = '\0';
        if (out[0] < 'A' || out[0] > 'Z' || out[1] < 'A' || out[1] > 'Z')
            out[0] = '\0';
        return;
    }
}

// By the first part of the tag, two or three letters, and its region. Kept until the program ends.
static const Patterns *patterns_of(const char *tag) {
    static Patterns known[LANGUAGES_MAX];
    static int count;
    char language[4] = "";
    const size_t length = strcspn(tag, "-");
    if (length < 2 || length > 3)
        return NULL;
    for (size_t i = 0; i < length; i++) {
        const char c = (char)(tag[i] >= 'A' && tag[i] <= 'Z' ? tag[i] + 32 : tag[i]);
        if (c < 'a' || c > 'z')
            return NULL;
        language[i] = c;
    }
    char region[4];
    find_region(tag, region);
    for (int i = 0; i < count; i++)
        if (strcmp(known[i].language, language) == 0 && strcmp(known[i].region, region) == 0)
            return &known[i];
    if (count == LANGUAGES_MAX)
        return NULL;
    memcpy(known[count].language, language, sizeof language);
    memcpy(known[count].region, region, sizeof region);
    load(&known[count]);
    return &known[count++];
}

// Letters of Latin script; patterns know small letters only. 0 for what is no letter.
static uint32_t small_letter(uint32_t code) {
    if (code >= 'A' && code <= 'Z')
        return code + 32;
    if (code >= 0xC0 && code <= 0xDE && code != 0xD7)
        return code + 32;
    if ((code >= 'a' && code <= 'z') || (code >= 0xDF && code <= 0x24F && code != 0xF7))
        return code;
    return 0;
}

typedef struct Word {
    char bytes[BYTES_MOST + 1]; // in the code of the patterns
    size_t length;
    size_t starts[WORD_MOST + 1]; // of its letters in bytes
    size_t places[WORD_MOST + 1]; // and in the text
    int letters;
    bool whole;                 // all its letters can be said in that code
    bool breaks[WORD_MOST + 1]; // before a letter
} Word;

static void word_add(Word *word, uint32_t letter, size_t place, bool utf8) {
    if (word->letters == WORD_MOST) {
        word->whole = false;
        return;
    }
    word->starts[word->letters] = word->length;
    word->places[word->letters++] = place;
    if (!utf8) {
        word->whole = word->whole && letter < 0x100;
        word->bytes[word->length++] = (char)letter;
    } else if (letter < 0x80) {
        word->bytes[word->length++] = (char)letter;
    } else {
        word->bytes[word->length++] = (char)(0xC0 | letter >> 6);
        word->bytes[word->length++] = (char)(0x80 | (letter & 0x3F));
    }
}

// The letters from first to last (last left out) as a word of their own.
static void break_part(const Patterns *patterns, int index, Word *word, int first, int last) {
    if (index == patterns->level_count || last - first < 2 * PART_LEAST)
        return;
    const Level *level = &patterns->levels[index];
    char letters[BYTES_MOST + 2], numbers[BYTES_MOST + 3] = {0};
    const size_t from = word->starts[first], to = last < word->letters ? word->starts[last] : word->length;
    const size_t length = to - from + 2;
    letters[0] = letters[length - 1] = '.';
    memcpy(letters + 1, word->bytes + from, to - from);
    for (size_t i = 0; i < length && level->size > 0; i++) {
        uint32_t hash = HASH_START;
        for (size_t k = 1; k <= level->longest && i + k <= length; k++) {
            hash = hash_on(hash, letters[i + k - 1]);
            const unsigned char *laid = find(patterns, level, letters + i, k, hash);
            for (size_t n = 0; laid != NULL && n <= k; n++)
                if (laid[n] > (unsigned char)numbers[i + n])
                    numbers[i + n] = (char)laid[n];
        }
    }
    int start = first;
    for (int i = first + PART_LEAST; i <= last - PART_LEAST; i++) {
        if ((numbers[word->starts[i] - from + 1] & 1) == 0)
            continue;
        word->breaks[i] = true;
        break_part(patterns, index + 1, word, start, i);
        start = i;
    }
    break_part(patterns, index + 1, word, start, last);
}

static void break_word(const Patterns *patterns, Word *word, void (*found)(void *, size_t), void *context) {
    if (!word->whole || word->letters < WORD_LEAST)
        return;
    break_part(patterns, 0, word, 0, word->letters);
    for (int i = BEFORE_LEAST; i <= word->letters - AFTER_LEAST; i++)
        if (word->breaks[i])
            found(context, word->places[i]);
}

void hyphens_find(const char *language, const char *text, size_t length,
                  void (*found)(void *context, size_t at), void *context) {
    const Patterns *patterns = language != NULL ? patterns_of(language) : NULL;
    if (patterns == NULL || !patterns->there)
        return;
    Word word = {.whole = true};
    for (const char *at = text; at < text + length;) {
        const size_t place = (size_t)(at - text);
        const uint32_t letter = small_letter(text_next(&at));
        if (letter != 0) {
            word_add(&word, letter, place, patterns->utf8);
            continue;
        }
        break_word(patterns, &word, found, context);
        word = (Word){.whole = true};
    }
    break_word(patterns, &word, found, context);
}
