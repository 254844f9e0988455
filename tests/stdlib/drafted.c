#include "drafted.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "pattern/prove.h"
#include "recipe/shelf.h"

#define WORDS_MOST 16

// Splits text at blanks into at most WORDS_MOST words, in place.
static int split(char *text, const char **words) {
    int count = 0;
    for (char *word = strtok(text, " "); word && count < WORDS_MOST; word = strtok(NULL, " "))
        words[count++] = word;
    return count;
}

bool drafted(const char *chain, const char *settings, const char *body, Pattern *pattern, Fault *fault) {
    char chain_text[256], settings_text[512];
    snprintf(chain_text, sizeof chain_text, "%s", chain);
    snprintf(settings_text, sizeof settings_text, "%s", settings ? settings : "");
    const char *recipes[WORDS_MOST], *pairs[WORDS_MOST];
    const int recipe_count = split(chain_text, recipes);
    const int setting_count = split(settings_text, pairs);

    Setting list[WORDS_MOST];
    for (int i = 0; i < setting_count; i++) {
        char *equals = strchr((char *)pairs[i], '=');
        cr_assert(equals, "a setting without '=': %s", pairs[i]);
        *equals = '\0';
        list[i] = (Setting){pairs[i], equals + 1};
    }

    Shelf shelf;
    shelf_init(&shelf);
    Measures measures = {0};
    fault_init(fault);
    bool good = !body || shelf_measures(&shelf, body, &measures, fault);
    for (int i = 0; good && i < recipe_count; i++) {
        const Recipe *recipe;
        good = shelf_find(&shelf, recipes[i], &recipe, fault);
    }
    *pattern = (Pattern){0};
    if (good) {
        const ScriptJob job = {.shelf = &shelf,
                               .chain = recipes,
                               .chain_count = recipe_count,
                               .settings = list,
                               .setting_count = setting_count,
                               .body = body ? &measures : NULL,
                               .body_name = body ? "test" : NULL};
        good = script_run(&job, pattern, fault);
    }
    if (good)
        pattern_prove(pattern, NULL, 0, NULL);
    measures_finish(&measures);
    shelf_finish(&shelf);
    return good;
}

void draft_of(const char *chain, const char *settings, const char *body, Pattern *pattern) {
    Fault fault;
    const bool good = drafted(chain, settings, body, pattern, &fault);
    cr_assert(good, "%s (%s): %s:%d: %s", chain, settings ? settings : "", fault.file ? fault.file : "",
              fault.line, fault.message ? fault.message : "");
    fault_finish(&fault);
}

double note_of(const Pattern *pattern, const char *name) {
    for (int i = pattern->notes.count - 1; i >= 0; i--)
        if (strcmp(pattern->notes.items[i].name, name) == 0)
            return pattern->notes.items[i].value;
    cr_assert(false, "no note '%s'", name);
    return 0;
}

const Mark *mark_of(const Pattern *pattern, const char *draft, const char *mark) {
    for (int i = pattern->drafts.count - 1; i >= 0; i--) {
        const Draft *d = &pattern->drafts.items[i];
        const Mark *found = strcmp(d->name, draft) == 0 ? draft_find_mark(d, mark) : NULL;
        if (found)
            return found;
    }
    cr_assert(false, "no mark '%s' on '%s'", mark, draft);
    return NULL;
}

const Piece *piece_of(const Pattern *pattern, const char *name) {
    const int i = pattern_find_piece(pattern, name);
    cr_assert(i >= 0, "no piece '%s'", name);
    return &pattern->pieces.items[i];
}

const Proof *proof_of(const Pattern *pattern, const char *what) {
    for (int i = 0; i < pattern->proofs.count; i++)
        if (strcmp(pattern->proofs.items[i].what, what) == 0)
            return &pattern->proofs.items[i];
    cr_assert(false, "no proof '%s'", what);
    return NULL;
}

bool remarked(const Pattern *pattern, const char *words) {
    for (int i = 0; i < pattern->remarks.count; i++)
        if (strstr(pattern->remarks.items[i].text, words))
            return true;
    return false;
}

void refuses(const char *chain, const char *settings, const char *body, const char *words,
             const char *way_out) {
    Pattern p;
    Fault fault;
    cr_assert_not(drafted(chain, settings, body, &p, &fault), "%s (%s) was not refused", chain, settings);
    cr_expect(strstr(fault.message, words), "%s (%s): %s", chain, settings, fault.message);
    cr_expect(fault.hint && *fault.hint, "%s (%s): no way out", chain, settings);
    cr_expect(!way_out || strstr(fault.hint, way_out), "%s (%s): %s", chain, settings, fault.hint);
    fault_finish(&fault);
    pattern_finish(&p);
}

double edge_length(const Pattern *pattern, const char *piece, const char *edge) {
    const Path *path = piece_find_path(piece_of(pattern, piece), edge);
    cr_assert(path, "no edge '%s' on '%s'", edge, piece);
    return path_length(path);
}

void proven_whole(const char *chain, const char *settings, const char *body) {
    Pattern pattern;
    draft_of(chain, settings, body, &pattern);
    for (int i = 0; i < pattern.proofs.count; i++) {
        if (pattern.proofs.items[i].holds)
            continue;
        Buffer why;
        buffer_init(&why);
        proof_sentence(&pattern, &pattern.proofs.items[i], &why);
        cr_expect(false, "%s (%s): %s", chain, settings ? settings : "", why.data);
        buffer_finish(&why);
    }
    pattern_finish(&pattern);
}

void close_to(double found, double wanted, double tolerance, const char *what) {
    cr_expect(fabs(found - wanted) <= tolerance, "%s: found %.4f, wanted %.4f within %.4f", what, found,
              wanted, tolerance);
}
