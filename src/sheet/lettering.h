// Where the small words of a piece stand: inside the cut line, off each other and off the label.
#ifndef REBATO_SHEET_LETTERING_H
#define REBATO_SHEET_LETTERING_H

#include "sheet/plate.h"

// The room of words in the piece's coordinates: a box round its centre that runs along `along`.
typedef struct Words {
    Point centre, along; // along: unit
    double half_width, half_height;
} Words;

typedef struct Lettering {
    const Plate *plate;
    double turn; // of the view, degrees
    struct {
        Words *items;
        int count, capacity;
    } taken;
    LineList lines; // words should not cross them: seams, folds' brackets, the grain line, lines inside
} Lettering;

// Takes the room of the label and of the dots.
void lettering_init(Lettering *lettering, const Plate *plate, double turn);
void lettering_finish(Lettering *lettering);

// Words of that kind with their middle at centre, read along that direction from below or from the right of
// the paper.
Words lettering_words(const Lettering *lettering, TextKind kind, const char *text, Point centre, Point along);

// Gives the index of the first of some places where the words lie inside the cut line and off all that is
// taken, off lines too where there is such a place; takes it. -1 for none.
int lettering_choose(Lettering *lettering, const Words *places, int count);
void lettering_take(Lettering *lettering, Words words);

// Draws text as lettering_words measured it.
void lettering_draw(const Lettering *lettering, Canvas *canvas, TextKind kind, const char *text,
                    const Words *words);

#endif
