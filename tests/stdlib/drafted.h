// What the tests of the built-in recipes share: draft a chain of them, look a value up, say what failed.
#ifndef REBATO_TESTS_STDLIB_DRAFTED_H
#define REBATO_TESTS_STDLIB_DRAFTED_H

#include "pattern/pattern.h"
#include "script/script.h"

// The example of the worked values: bust 88, waist 68, nape to waist 41, scye depth 21, neck base 37,
// shoulder 12.25, across back 34.4, across front 32.4, head 56 cm.
#define EXAMPLE_88 TESTS_DIR "/bodies/example-88.txt"

// A measured block with the example's neck and shoulders.
#define PAPER_88 TESTS_DIR "/bodies/paper-88.txt"

// Drafts a chain such as "blocks/close-fitting bands/square-funnel" with settings such as "height=6cm
// match=quarter" on the body (a file, or NULL for none) and proves it. False on a fault; then fault is
// filled. Ends with pattern_finish and fault_finish.
bool drafted(const char *chain, const char *settings, const char *body, Pattern *pattern, Fault *fault);

// The same, where a fault fails the test.
void draft_of(const char *chain, const char *settings, const char *body, Pattern *pattern);

double note_of(const Pattern *pattern,
               const char *name); // the last note of that name; fails the test where there is none
const Mark *mark_of(const Pattern *pattern, const char *draft,
                    const char *mark); // the last; fails the test likewise
const Piece *piece_of(const Pattern *pattern, const char *name);
const Proof *proof_of(const Pattern *pattern, const char *what);
bool remarked(const Pattern *pattern, const char *words); // whether a remark has the words
double edge_length(const Pattern *pattern, const char *piece, const char *edge);

// Drafts as draft_of does; the test fails with a sentence for each proof that does not hold.
void proven_whole(const char *chain, const char *settings, const char *body);

// The draft stops with a sentence that has the words, and with a way out, that has those of way_out where it
// is not NULL.
void refuses(const char *chain, const char *settings, const char *body, const char *words,
             const char *way_out);

// a is within tolerance of b, or the test fails and says both.
void close_to(double found, double wanted, double tolerance, const char *what);

#endif
