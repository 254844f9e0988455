// What the files of the program's own proofs share.
#ifndef REBATO_PATTERN_PROVING_H
#define REBATO_PATTERN_PROVING_H

#include "pattern/pattern.h"

#define SAID_MAX 40

// Adds one of the program's own proofs. Its name is made from the format; a name that is taken gets a number.
void proof_add(Pattern *pattern, Proof proof, const char *format, ...) __attribute__((format(printf, 3, 4)));

// A length in the pattern's units, to the fine step where it is under a centimetre: "1.6 mm", "36.3 cm".
const char *say_length(const Pattern *pattern, double mm, char out[SAID_MAX]);

void prove_piece(Pattern *pattern, int piece);
void prove_marks(Pattern *pattern, int piece);
void prove_folds(Pattern *pattern, int piece);
void prove_seam(Pattern *pattern, int seam);
void prove_opening(Pattern *pattern);

#endif
