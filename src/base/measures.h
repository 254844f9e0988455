// Measurements of a body: a text file of lines "bust_girth = 88 cm" or "age = 6 years", and what is known
// about the usual names.
#ifndef REBATO_BASE_MEASURES_H
#define REBATO_BASE_MEASURES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buffer.h"
#include "base/fault.h"
#include "base/units.h"

#define MEASURES_MOST 256
#define MEASURES_BYTES_MOST (64u * 1024u)

// Measure alone is the kind of a value in pattern/pattern.h.
typedef struct BodyMeasure {
    char *name;   // letters a to z, digits and _
    double value; // mm, more than 0; of an age years, 0 or more
    int line;
} BodyMeasure;

typedef struct Measures {
    BodyMeasure *items; // in the order of the file
    int count, capacity;
} Measures;

// Reads the text of a measurements file; file is what a fault calls it. out is untouched on failure.
bool measures_read(const char *text, size_t length, const char *file, Measures *out, Fault *fault);
void measures_finish(Measures *measures);

const BodyMeasure *measures_find(const Measures *measures, const char *name); // or NULL

// One sentence a line about measurements that no body is likely to have, such as a head of 56 mm. No fault: a
// doll has them too.
void measures_doubts(const Measures *measures, Buffer *out);

// What is known about a name of ISO 8559-1 or of the trade.
typedef struct KnownMeasure {
    const char *name;
    const char *term;   // as ISO 8559-1 has it, or the trade
    const char *taken;  // how the measure is taken, one sentence
    double least, most; // mm or years; from a newborn to the largest adults, see measures_known.c
} KnownMeasure;

const KnownMeasure *measure_known(const char *name); // or NULL
const KnownMeasure *measure_known_all(int *count);
bool measure_in_years(const char *name); // age, the one measurement that is no length

// Reads what is written for the measurement of that name: a length, mm, or an age, years. out is untouched on
// failure.
UnitsError measure_parse(const char *name, const char *text, double *out);

// The known name that was nearly typed, or NULL; names that only look alike, such as rib_girth and hip_girth,
// are apart. NULL for a known name.
const char *measure_near_miss(const char *name);

#endif
