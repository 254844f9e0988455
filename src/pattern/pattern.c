#include "pattern/pattern.h"

#include <string.h>

#include "base/memory.h"
#include "pattern/own.h"

void pattern_init(Pattern *pattern) {
    *pattern = (Pattern){.recipe = "", .title = "", .pull_on.step = -1};
    arena_init(&pattern->arena);
}

void pattern_finish(Pattern *pattern) {
    for (int i = 0; i < pattern->drafts.count; i++) {
        mem_free(pattern->drafts.items[i].marks.items);
        mem_free(pattern->drafts.items[i].dimensions.items);
    }
    for (int i = 0; i < pattern->seams.count; i++) {
        mem_free(pattern->seams.items[i].a.items);
        mem_free(pattern->seams.items[i].b.items);
    }
    mem_free(pattern->chapters.items);
    mem_free(pattern->steps.items);
    mem_free(pattern->inputs.items);
    mem_free(pattern->notes.items);
    mem_free(pattern->filled.items);
    mem_free(pattern->drafts.items);
    mem_free(pattern->pieces.items);
    mem_free(pattern->seams.items);
    mem_free(pattern->proofs.items);
    mem_free(pattern->remarks.items);
    arena_finish(&pattern->arena);
    *pattern = (Pattern){0};
}

int pattern_add_draft(Pattern *pattern, const char *name, int step) {
    ARRAY_ADD(&pattern->drafts, ((Draft){.name = arena_text(&pattern->arena, name), .step = step}));
    return pattern->drafts.count - 1;
}

int pattern_add_piece(Pattern *pattern, const Piece *piece) {
    Piece copy;
    piece_copy(&pattern->arena, piece, &copy);
    ARRAY_ADD(&pattern->pieces, copy);
    return pattern->pieces.count - 1;
}

void pattern_own_path(Pattern *pattern, const Path *path, Path *out) {
    own_path(&pattern->arena, path, out);
}

int pattern_find_piece(const Pattern *pattern, const char *name) {
    for (int i = 0; i < pattern->pieces.count; i++)
        if (strcmp(pattern->pieces.items[i].name, name) == 0)
            return i;
    return -1;
}

const Mark *draft_find_mark(const Draft *draft, const char *name) {
    for (int i = 0; i < draft->marks.count; i++)
        if (strcmp(draft->marks.items[i].name, name) == 0)
            return &draft->marks.items[i];
    return NULL;
}

bool pattern_holds(const Pattern *pattern) {
    for (int i = 0; i < pattern->proofs.count; i++)
        if (!pattern->proofs.items[i].holds && !pattern->proofs.items[i].accepted)
            return false;
    return true;
}
