// Text as people type it: names that are nearly right, lines, UTF-8.
#ifndef REBATO_BASE_TEXT_H
#define REBATO_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

// The name nearest to what was typed, or NULL when none is near enough to be meant.
const char *text_nearest(const char *typed, const char *const *names, int count);

// The fewest letters to put in, take out, change or swap with their neighbour that make one of the other,
// whatever the case; both names have at most 64 bytes.
int text_slips(const char *one, const char *other);

bool text_is_utf8(const char *text, size_t length);

// The next code point at *at, which moves past it; malformed bytes come out as U+FFFD one at a time. 0 at the
// end.
uint32_t text_next(const char **at);

bool text_starts(const char *text, const char *with);
bool text_ends(const char *text, const char *with);
bool text_starts_any_case(const char *text, const char *with); // of the letters a to z
bool text_ends_any_case(const char *text, const char *with);   // likewise

// The first byte of line number line (from 1) in text, and its length without the line end; NULL past the
// end.
const char *text_line(const char *text, int line, size_t *length);

#endif
