// Outside readers: general-purpose programs that know nothing of this one, run on what it drew.
#ifndef REBATO_TESTS_SHEET_READER_H
#define REBATO_TESTS_SHEET_READER_H

#include "base/buffer.h"
#include "pattern/pattern.h"
#include "sheet/sheet.h"

// A drawing in a file of its own in a fresh directory; path is the file's.
typedef struct Drawing {
    char directory[64], path[96];
    Buffer bytes;
    int pages;
} Drawing;

// Draws and fails the test when the drawing fails.
void drawing_make(Drawing *drawing, const Pattern *pattern, const SheetOptions *options);
// The same of bytes that are drawn already, which it takes; pages stays to be set.
void drawing_keep(Drawing *drawing, Buffer bytes, const char *name);
void drawing_finish(Drawing *drawing);

// Runs a command in which %s stands for the file, and gives what it wrote (also to standard error) and its
// exit code.
int reader_run(const Drawing *drawing, const char *command, Buffer *out);

// How often text occurs.
int text_count(const char *in, const char *text);

#endif
