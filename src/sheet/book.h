// A reference as a PDF: entries under headings, each in words, with what it draws beside them.
#ifndef REBATO_SHEET_BOOK_H
#define REBATO_SHEET_BOOK_H

#include "pattern/pattern.h"
#include "sheet/sheet.h"

// Texts may be empty; code and told are kept line by line.
typedef struct BookEntry {
    const char *section; // a heading stands over it where the entry before has another
    const char *title, *about, *code, *told;
    const Pattern *pattern; // drawn small beside the words, or NULL
} BookEntry;

// On the paper of the options, which are otherwise the units. pages (may be NULL) gets the number of pages.
// On failure fills fault; out untouched.
bool book_draw(const char *title, const BookEntry *entries, int count, const SheetOptions *options,
               Buffer *out, int *pages, Fault *fault);

#endif
