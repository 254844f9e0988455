// The list: recipes with what they need and let one choose, and bodies.
#ifndef REBATO_CLI_LISTING_H
#define REBATO_CLI_LISTING_H

#include "base/measures.h"
#include "cli/options.h"
#include "pattern/pattern.h"
#include "recipe/shelf.h"

// One line of the list: a recipe with what it asks for, or a body.
typedef struct Entry {
    const char *name, *family;
    const Recipe *recipe; // NULL for a body
    Pattern survey;
    Measures body;
} Entry;

typedef struct Listing {
    Shelf shelf;
    Entry *items;
    int count, capacity;
    bool full; // one entry, asked for by its name or as a file, or the only one with the word: all of it is
               // told
} Listing;

#define WITHOUT_BLOCK "--block none --set front_neckline=... --set back_neckline=..."

const char *family_heading(const char *family); // in words, or NULL for one that has none
bool entry_without_block(const Entry *entry);   // a collar whose bodice may be missing

// Gathers what options ask for. Fills fault when a recipe is wrong or nothing is found; listing_finish either
// way.
bool listing_fill(Listing *listing, const Options *options, Fault *fault);
void listing_finish(Listing *listing);

void listing_json(const Listing *listing, Buffer *out);

// A family or "recipes". The names of a kind need no recipe to be read, since completion asks for them at
// every key.
bool listing_is_kind(const char *word);
void listing_names(const char *kind, Buffer *out);

#endif
