// The kinds of pictures, one function each: given a canvas they draw at `at`, given none they only measure.
// Inside this room only. False where there is nothing to draw.
#ifndef REBATO_SHEET_PICTURE_KINDS_H
#define REBATO_SHEET_PICTURE_KINDS_H

#include "sheet/picture.h"
#include "sheet/plate.h"
#include "sheet/scales.h"
#include "sheet/stage.h"

// Of a draft's pictures in a room, draft_scale.h.
typedef struct PictureScales {
    Point room;
    double base, detail; // base 0: not worked out yet
    double hard;         // to read, of each step
} PictureScales;

struct Pictures {
    const Pattern *pattern;
    Names names;
    Stages *drafts;        // zeroed until they are asked for
    PictureScales *scales; // two of each draft
    Plate *sketches;       // of the pieces, likewise
    Point largest_piece;   // the widest and the tallest
    bool pieces_measured;
};

const Stages *pictures_stages(Pictures *pictures, int draft);

// A piece as a small picture; borrowed. False where it cannot be drawn.
bool pictures_sketch(Pictures *pictures, int piece, double scale, Plate *out);

typedef bool PictureKindFn(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at,
                           PictureSize *out);

PictureKindFn picture_step, picture_draft, picture_all, picture_piece, picture_seam;

#endif
