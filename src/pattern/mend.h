// What would mend a proof of the program's own that fails, in parts: so that it can be said in any language.
#ifndef REBATO_PATTERN_MEND_H
#define REBATO_PATTERN_MEND_H

#include "pattern/pattern.h"

#define MEND_PARTS_MAX 8

// A name of the recipe, or a length where name is NULL.
typedef struct MendPart {
    const char *name;
    double mm;
} MendPart;

// What to do, and what is put in for {1}, {2} ... of its words.
struct Mend {
    const char *key; // "mend.outline_open"
    MendPart parts[MEND_PARTS_MAX];
    int count;
};

// The English words of a key; NULL for one that is not known.
const char *mend_words(const char *key);
const char *mend_key(int index); // NULL past the last

// Says in English how the proof is mended, and keeps the parts. The names live as long as the pattern.
void proof_mend(Pattern *pattern, Proof *proof, const char *key, const MendPart *parts, int count);

#endif
