// What the tests of the booklet share: a recipe run and composed, without a process.
#ifndef REBATO_TESTS_BOOKLET_BOOKED_H
#define REBATO_TESTS_BOOKLET_BOOKED_H

#include "base/buffer.h"
#include "base/measures.h"
#include "booklet/compose.h"
#include "pattern/pattern.h"
#include "recipe/shelf.h"

typedef struct Booked {
    Shelf shelf;
    Measures body;
    Pattern pattern;
    Book book;
    Buffer notes; // of the pictures
    Buffer html;
} Booked;

// A recipe of the shelf, or a file of tests/booklet/recipes, on the usual block where it needs one, for the
// set of measurements (NULL for women-88). options may be NULL. Fails the test on a fault.
void booked(const char *recipe, const char *body, const char *setting, const ComposeOptions *options,
            Booked *out);
// The same in inches.
void booked_inches(const char *recipe, const ComposeOptions *options, Booked *out);
// Whether a recipe of the shelf runs by itself: some of pieces/ are made for what another recipe hands them.
bool booked_alone(const char *name);

// The sanitized build is slow and takes a part of the shelf; the last part of scripts/test weaves all of it
// there.
#ifdef __SANITIZE_ADDRESS__
#define BOOKED_EACH 3
#else
#define BOOKED_EACH 1
#endif

// Weaves each recipe of the shelf that does, in turn.
void booked_each(void (*check)(const char *name, const Booked *booked));
void booked_finish(Booked *booked);

// The html has text in it, or has not; says what is missing otherwise.
void has(const Booked *booked, const char *text);
void has_not(const Booked *booked, const char *text);

#define TRIAL(name) TESTS_DIR "/booklet/recipes/" name

#endif
