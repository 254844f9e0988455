#include "sheet/names.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/memory.h"

static int name_order(const void *a, const void *b) {
    const NamedMark *x = a, *y = b;
    const int order = strcmp(x->name, y->name);
    return order != 0 ? order : x->draft != y->draft ? x->draft - y->draft : x->mark - y->mark;
}

static bool holds_first_word(const char *name, const char *of) {
    const size_t length = strcspn(of, " ,");
    for (; length > 0 && *name != '\0'; name++)
        if (strncasecmp(name, of, length) == 0)
            return true;
    return false;
}

static bool is_after_draft(const Pattern *pattern, const Note *note) {
    for (int i = 0; i < pattern->drafts.count; i++)
        if (holds_first_word(note->name, pattern->drafts.items[i].name))
            return true;
    return false;
}

void names_init(Names *names, const Pattern *pattern) {
    *names = (Names){.pattern = pattern};
    int most = 0;
    for (int i = 0; i < pattern->drafts.count; i++)
        most += pattern->drafts.items[i].marks.count;
    names->marks = mem_new(sizeof *names->marks * (size_t)(most + 1));
    for (int i = 0; i < pattern->drafts.count; i++)
        for (int k = 0; k < pattern->drafts.items[i].marks.count; k++)
            if (pattern->drafts.items[i].marks.items[k].name != NULL)
                names->marks[names->mark_count++] =
                    (NamedMark){pattern->drafts.items[i].marks.items[k].name, i, k};
    qsort(names->marks, (size_t)names->mark_count, sizeof *names->marks, name_order);
    names->after_draft = mem_new((size_t)pattern->notes.count + 1);
    for (int i = 0; i < pattern->notes.count; i++)
        names->after_draft[i] = is_after_draft(pattern, &pattern->notes.items[i]);
}

void names_finish(Names *names) {
    mem_free(names->marks);
    mem_free(names->after_draft);
    *names = (Names){.pattern = NULL};
}

static bool same_path(const Path *a, const Path *b) {
    if (a->count != b->count)
        return false;
    for (int i = 0; i < a->count; i++)
        if (!point_same(a->items[i].p0, b->items[i].p0) || !point_same(a->items[i].p1, b->items[i].p1) ||
            !point_same(a->items[i].p2, b->items[i].p2) || !point_same(a->items[i].p3, b->items[i].p3))
            return false;
    return true;
}

static bool same_mark(const Mark *old, const Mark *mark) {
    if (old->kind != mark->kind)
        return false;
    return mark->kind == MARK_POINT ? point_same(old->point, mark->point)
                                    : mark->kind == MARK_PATH && same_path(&old->path, &mark->path);
}

bool names_carried(const Names *names, int draft, int mark) {
    const Mark *own = &names->pattern->drafts.items[draft].marks.items[mark];
    if (own->name == NULL || draft == 0)
        return false;
    int low = 0, high = names->mark_count; // the first of that name
    while (low < high) {
        const int middle = (low + high) / 2;
        if (strcmp(names->marks[middle].name, own->name) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < names->mark_count && names->marks[low].draft < draft; low++) {
        const NamedMark *old = &names->marks[low];
        if (strcmp(old->name, own->name) != 0)
            return false;
        if (same_mark(&names->pattern->drafts.items[old->draft].marks.items[old->mark], own))
            return true;
    }
    return false;
}

bool names_note_elsewhere(const Names *names, int note, int draft) {
    const Pattern *pattern = names->pattern;
    return names->after_draft[note] &&
           !holds_first_word(pattern->notes.items[note].name, pattern->drafts.items[draft].name);
}
