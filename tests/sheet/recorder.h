// A canvas that draws nothing and remembers what it was told: where words stand, and how much was drawn.
#ifndef REBATO_TESTS_SHEET_RECORDER_H
#define REBATO_TESTS_SHEET_RECORDER_H

#include "sheet/canvas.h"

typedef struct Word {
    char text[200];
    Point corners[4]; // round the letters from the base line to a capital, and what hangs below
} Word;

typedef struct Stretch { // of a line that was drawn, straight
    Point from, to;
} Stretch;

typedef struct Recorder {
    Canvas canvas; // first
    struct {
        Word *items;
        int count, capacity;
    } words;
    int strokes[LINE_KIND_COUNT];
    struct {
        Stretch *items;
        int count, capacity;
    } lines;
    Box drawn; // of all lines
} Recorder;

void recorder_init(Recorder *recorder, double width, double height);
void recorder_finish(Recorder *recorder);

bool words_overlap(const Word *a, const Word *b);
bool word_crossed(const Word *word, const Recorder *recorder); // by a line
bool word_inside(const Word *word, Box box);
bool recorder_has(const Recorder *recorder, const char *text);

#endif
