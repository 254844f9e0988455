// The pictures of a booklet: measured first, then drawn on any canvas, or as one <svg> to stand in a page of
// HTML. No words are in them but the author's names, and lengths.
#ifndef REBATO_SHEET_PICTURE_H
#define REBATO_SHEET_PICTURE_H

#include "base/buffer.h"
#include "pattern/pattern.h"
#include "sheet/canvas.h"
#include "sheet/number_text.h"

typedef enum PictureKind {
    PICTURE_ALL,   // all pieces together, small, each with its name
    PICTURE_STEP,  // of draft, as it stands after step: earlier work grey, new work dark with its measures
    PICTURE_DRAFT, // the whole draft
    PICTURE_PIECE, // piece, small, without words
    PICTURE_SEAM,  // seam: both sides laid out straight, with notches, joints, lengths
} PictureKind;

// A picture asked for, and the room it may take. Indices are into the lists of the pattern.
typedef struct PictureAsk {
    PictureKind kind;
    int step, draft, piece, seam;
    double width, height; // mm, at most; a picture may be smaller
    // mm, the most that any picture of a step has in the same document: all of a draft are drawn at the
    // scales that suit such a room. 0: as width and height.
    double page_width, page_height;
    NumberMarks marks; // of lengths and scales
    const char *colon; // between a name and what it names; NULL for ":"
} PictureAsk;

// The room of a picture beside prose: the scales of drafts are chosen for it.
#define PICTURE_BESIDE_WIDE_MM 80.0
#define PICTURE_BESIDE_TALL_MM 92.0

typedef struct PictureSize {
    double width, height; // mm
    double scale;
} PictureSize;

// The pictures of one pattern, which is borrowed, and what they share. It is not to change while they are
// there.
typedef struct Pictures Pictures;
Pictures *pictures_new(const Pattern *pattern);
void pictures_free(Pictures *pictures);

// Whether there is a picture of that step on that draft: a step that marks nothing there has none.
bool picture_has_step(Pictures *pictures, int step, int draft);

// The steps on one draft share a scale, or two where some would be too small to read. False where there is
// nothing to draw; out is untouched then.
bool picture_measure(Pictures *pictures, const PictureAsk *ask, PictureSize *out);

// Draws with the upper left corner on `at` of the paper.
void picture_draw(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at);

// Adds one <svg> with role="img" and title as its <title>; ids in it start with prefix, which is the page's
// own. Its ink is currentColor, on light ground and on dark. False where there is nothing to draw.
bool picture_svg(Pictures *pictures, const PictureAsk *ask, const char *prefix, const char *title,
                 Buffer *out);

#endif
