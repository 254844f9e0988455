// Wearers and blocks to draft on: the sizes of a chart, and random ones that are the same on every run.
#ifndef REBATO_TESTS_STDLIB_WEARERS_H
#define REBATO_TESTS_STDLIB_WEARERS_H

#include <stdint.h>

#include "base/measures.h"
#include "pattern/pattern.h"

typedef struct Dice {
    uint64_t state; // not 0
} Dice;

double roll(Dice *dice, double least, double most);

typedef struct Body {
    BodyMeasure items[20];
    int count;
} Body;

// Sizes 6 to 24 of a published chart for women 160 to 172 cm tall, bust 80 to 122 cm, converted from inches;
// nape to waist and scye depth from memory, the head from its regression on the bust in ANSUR II (2012).
#define CHART_SIZES 10
Body chart_body(int size); // 0 to CHART_SIZES - 1

Body random_body(Dice *dice);
Body random_paper(Dice *dice);

// True where all that was proven holds. The test fails for a proof that no legal choice may fail: all but
// those that tell their number and a way out. who is said then.
bool all_holds(const Pattern *pattern, const char *who);

#endif
