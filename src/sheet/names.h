// What the drafts of a pattern name alike: marks carried on from draft to draft, and notes named after one.
#ifndef REBATO_SHEET_NAMES_H
#define REBATO_SHEET_NAMES_H

#include "pattern/pattern.h"

typedef struct NamedMark {
    const char *name;
    int draft, mark;
} NamedMark;

typedef struct Names {
    const Pattern *pattern;
    NamedMark *marks; // by name, then by draft
    int mark_count;
    bool *after_draft; // of each note: named after some draft, as "back along" is
} Names;

void names_init(Names *names, const Pattern *pattern);
void names_finish(Names *names);

// Whether a mark stands under its name, and in its place, on a draft before its own.
bool names_carried(const Names *names, int draft, int mark);

// Whether a note is named after another draft than this one.
bool names_note_elsewhere(const Names *names, int note, int draft);

#endif
