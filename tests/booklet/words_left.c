#include "words_left.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "booklet/language_table.h"

static bool is_letter(char c) {
    return isalpha((unsigned char)c) || (unsigned char)c >= 0x80;
}

// Signs of two or three bytes that are no letters: no-break spaces, quotes, dashes, the multiplication sign.
static size_t sign_at(const char *at) {
    static const char *const signs[] = {"\u00A0", "\u202F", "\u00AB", "\u00BB", "\u201E", "\u201C", "\u00D7",
                                        "\u00B1", "\u2026", "\u2033", "\u00B0", "\u00B2", "\u2212"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (strncmp(at, signs[i], strlen(signs[i])) == 0)
            return strlen(signs[i]);
    return 0;
}

static size_t word_at(const char *at) {
    size_t length = 0;
    while (is_letter(at[length]) && !sign_at(at + length))
        length++;
    return length;
}

const char *next_word(const char **at, size_t *length) {
    while (**at) {
        const char *from = *at;
        const size_t word = word_at(from), sign = sign_at(from);
        *at += word ? word : sign ? sign : 1;
        *length = word;
        if (word >= 3)
            return from;
    }
    return NULL;
}

static bool same_word(const char *one, const char *other, size_t length) {
    return tolower((unsigned char)*one) == tolower((unsigned char)*other) &&
           memcmp(one + 1, other + 1, length - 1) == 0;
}

bool has_word(const char *text, const char *word, size_t length) {
    size_t other;
    for (const char *at = text, *found; (found = next_word(&at, &other)) != NULL;)
        if (other == length && same_word(found, word, length))
            return true;
    return false;
}

static const char *attribute_of(const char *tag, size_t length, const char *name, size_t *found) {
    const size_t wanted = strlen(name);
    for (size_t i = 0; i + wanted <= length; i++)
        if (memcmp(tag + i, name, wanted) == 0) {
            const char *from = tag + i + wanted;
            *found = strcspn(from, "\"");
            return from;
        }
    return NULL;
}

// Behind the end of the element whose opening tag begins at `at`.
static const char *behind(const char *at) {
    char name[16] = "";
    size_t length = strcspn(at + 1, " >\n");
    length = length < sizeof name ? length : sizeof name - 1;
    memcpy(name, at + 1, length);
    int depth = 0;
    for (; *at; at++) {
        const bool closes = at[0] == '<' && at[1] == '/';
        const char *from = at + (closes ? 2 : 1);
        if (*at != '<' || strncmp(from, name, length) != 0 || !strchr(" >\n", from[length]))
            continue;
        depth += closes ? -1 : 1;
        if (depth == 0)
            return strchr(at, '>') + 1;
    }
    return at;
}

void words_left(const char *html, const char *tag, Buffer *out) {
    static const char *const told[] = {" alt=\"", " aria-label=\"", " title=\""};
    char lang[32];
    snprintf(lang, sizeof lang, " lang=\"%s\"", tag);
    const char *at = strstr(html, "<body");
    while (at && *at) {
        if (*at != '<') {
            buffer_add_char(out, *at++);
            continue;
        }
        const size_t length = strcspn(at, ">");
        size_t found;
        if (attribute_of(at, length, lang, &found) || strncmp(at, "<pre", 4) == 0 ||
            strncmp(at, "<code", 5) == 0) {
            at = behind(at);
            continue;
        }
        for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
            const char *value = attribute_of(at, length, told[i], &found);
            if (value)
                buffer_add(out, value, found);
            buffer_add_char(out, ' ');
        }
        at += length + 1;
    }
}

static void add_name(Buffer *out, const char *name) {
    buffer_add_text(out, name ? name : "");
    buffer_add_char(out, ' ');
}

static void add_piece_names(const Piece *piece, Buffer *out) {
    add_name(out, piece->name);
    add_name(out, piece->note);
    for (int i = 0; i < piece->edges.count; i++)
        add_name(out, piece->edges.items[i].name);
    for (int i = 0; i < piece->lines.count; i++)
        add_name(out, piece->lines.items[i].name);
}

void given_names(const Booked *booked, Buffer *out) {
    const Pattern *p = &booked->pattern;
    add_name(out, "rebato trial txt");
    for (int i = 0; i < p->pieces.count; i++)
        add_piece_names(&p->pieces.items[i], out);
    for (int i = 0; i < p->drafts.count; i++) {
        add_name(out, p->drafts.items[i].name);
        for (int k = 0; k < p->drafts.items[i].marks.count; k++)
            add_name(out, p->drafts.items[i].marks.items[k].name);
        for (int k = 0; k < p->drafts.items[i].dimensions.count; k++)
            add_name(out, p->drafts.items[i].dimensions.items[k].text);
    }
    for (int i = 0; i < p->seams.count; i++)
        add_name(out, p->seams.items[i].name);
    for (int i = 0; i < p->notes.count; i++)
        add_name(out, p->notes.items[i].name);
    for (int i = 0; i < p->notes.count; i++)
        add_name(out, p->notes.items[i].text);
    for (int i = 0; i < p->inputs.count; i++) {
        add_name(out, p->inputs.items[i].name);
        add_name(out, p->inputs.items[i].text);
    }
    for (int i = 0; i < p->proofs.count; i++)
        if (p->proofs.items[i].kind == PROOF_TOLD) {
            add_name(out, p->proofs.items[i].what);
            add_name(out, p->proofs.items[i].way_out);
        }
    for (int i = 0; i < p->steps.count; i++)
        add_name(out, p->steps.items[i].title);
    for (int i = 0; i < p->chapters.count; i++) {
        add_name(out, p->chapters.items[i].recipe);
        add_name(out, p->chapters.items[i].title);
    }
}

void table_words(const Language *language, Buffer *out) {
    for (int i = 0; language_key(language, i); i++)
        add_name(out, language_word(language, language_key(language, i)));
}
