// What is said to people: faults to standard error, in colour where that is wanted; reports to standard
// output.
#ifndef REBATO_CLI_TELL_H
#define REBATO_CLI_TELL_H

#include "base/buffer.h"
#include "base/fault.h"
#include "pattern/pattern.h"

#define TELL_COLUMNS 100

enum { EXIT_HOLDS = 0, EXIT_FAILED = 1, EXIT_FAULT = 2 };

// The fault, and the notes that were taken before it (NULL for none), for people to standard error; with json
// also as {"fault": ...} to standard output. Gives EXIT_FAULT.
int tell_fault(const Fault *fault, const char *source, const Buffer *notes, bool json);

// Notes are sentences, one a line: as "note: ..." lines, or as a list of texts.
void tell_notes(const Buffer *notes, Buffer *out);
void tell_notes_json(const Buffer *notes, Buffer *out);

// Text to standard output; gives code, or EXIT_FAULT where it could not be written.
int tell_text(const Buffer *text, int code);

// Text as lines of at most TELL_COLUMNS, the first after `first` spaces and the others after `rest`; a longer
// word stands alone.
void tell_wrapped(const char *text, int first, int rest, Buffer *out);

// A value with its unit.
void tell_value(Measure measure, double value, const char *text, Units units, Buffer *out);

#endif
