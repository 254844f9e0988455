// The proofs that are run on every pattern without being asked.
#ifndef REBATO_PATTERN_PROVE_H
#define REBATO_PATTERN_PROVE_H

#include "base/buffer.h"
#include "pattern/pattern.h"

// Replaces the program's own proofs (PROOF_OWN) with new ones and leaves what the recipe told. accepted:
// names of proofs the cutter accepts as they are; *unknown (may be NULL) gets the first accepted name that no
// proof has.
void pattern_prove(Pattern *pattern, const char *const *accepted, int count, const char **unknown);

// How far the opening over the head opens, mm: its length with what the cloth gives, and twice the slit, since
// a slit of length q opens an edge of 2 q (common practice, no source).
double pull_on_opens(const PullOn *pull);

// A sentence for people: "opening: 36.3 cm, at least 59.0 cm, 22.7 cm too short: ...", and of a seam both
// lengths and the ease. Appends to out.
void proof_sentence(const Pattern *pattern, const Proof *proof, Buffer *out);

#endif
