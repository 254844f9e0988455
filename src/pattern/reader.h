// Fields of one line of the pattern text, read one after the other. The first thing wrong is kept; whatever
// is read after it comes out as zero, so callers check once per line.
#ifndef REBATO_PATTERN_READER_H
#define REBATO_PATTERN_READER_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/fault.h"
#include "geometry/path.h"
#include "pattern/words.h"

typedef struct Reader {
    const char *at, *end; // what is left of the line
    const char *next;     // the line after it
    const char *stop;     // end of the text
    int line;             // from 1
    Arena *arena;
    Path scratch;
    bool failed;
    Fault *fault;
} Reader;

bool reader_line(Reader *reader); // moves to the next line; false at the end of the text
void reader_fail(Reader *reader, const char *what);
void reader_done(Reader *reader); // nothing may be left on the line

// The word at the start of the line or the next word; false when it is another.
bool reader_is(Reader *reader, const char *word);
int reader_choice(Reader *reader, Words words);
int reader_int(Reader *reader, int least, int most);
double reader_number(Reader *reader);
double reader_between(Reader *reader, double least, double most);
const char *reader_text(Reader *reader);       // must be there
const char *reader_maybe_text(Reader *reader); // NULL for `-`
Point reader_point(Reader *reader);
void reader_path(Reader *reader, Path *out); // the rest of the line; at least one segment

#endif
