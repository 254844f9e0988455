// Pieces laid side by side as small pictures at one scale, each with its name under it and, where it is a
// rectangle, its length and width.
#ifndef REBATO_SHEET_GALLERY_H
#define REBATO_SHEET_GALLERY_H

#include "sheet/layout.h"
#include "sheet/number_text.h"
#include "sheet/picture.h"
#include "sheet/plate.h"

typedef struct Gallery {
    Pictures *pictures;
    const int *pieces; // borrowed
    int count;
    bool measured;     // rectangles have their size
    NumberMarks marks; // of lengths
    double scale;
    Plate *plates; // borrowed, each at that scale
    LayoutItem *items;
    Layout layout;
} Gallery;

// Lays out the pieces given at the largest scale people use, though none above most, at which they have room.
// False where there is none, or one cannot be drawn. The gallery is to be finished then too.
bool gallery_lay(Gallery *gallery, double most, double width, double height);
void gallery_finish(Gallery *gallery);

Point gallery_size(const Gallery *gallery); // mm
void gallery_draw(const Gallery *gallery, Canvas *canvas, Point at);

// What a plate draws, with its dots and the brackets of its folds.
Box gallery_plate_box(const Plate *plate);

#endif
