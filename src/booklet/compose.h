// Composes the booklet of a pattern: the recipe's prose with its values, figures, cutting, sewing, proofs.
#ifndef REBATO_BOOKLET_COMPOSE_H
#define REBATO_BOOKLET_COMPOSE_H

#include <stdbool.h>

#include "base/buffer.h"
#include "booklet/document.h"
#include "recipe/shelf.h"

typedef struct ComposeOptions {
    const Language *language; // of the program's words; NULL goes by the recipe, then English
    bool with_code;
    double paper_width, paper_height; // mm
    const char *version;              // of the program, as it says itself
} ComposeOptions;

// The pattern is proven, the shelf holds every recipe of its chapters; both outlive the book, and the pattern
// is drawn from. notes gets a sentence a line: pictures that cannot be shown, a language without words.
void book_compose(const Pattern *pattern, const Shelf *shelf, const ComposeOptions *options, Book *out,
                  Buffer *notes);

#endif
