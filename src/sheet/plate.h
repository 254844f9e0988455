// A piece made ready for the sheet: its cut line, notches, grain line and the place of its words, worked out
// once and then drawn on every page it touches.
#ifndef REBATO_SHEET_PLATE_H
#define REBATO_SHEET_PLATE_H

#include "base/fault.h"
#include "pattern/label.h"
#include "pattern/pattern.h"
#include "sheet/canvas.h"
#include "sheet/polygon.h"

// A notch on the drawing: from the seam line straight out to the cut line, or into the piece where there is
// no allowance.
typedef struct NotchMark {
    Point seam, cut;
    bool inward;
} NotchMark;

typedef struct Plate {
    const Pattern *pattern;
    const Piece *piece;
    int index;    // of the piece in the pattern
    double scale; // of the drawing
    double fine;  // arrows, dots and words on the lines are that much smaller: 1 at full size
    bool sketch;  // thin, without words; where it is very small without seam lines, notches and dots
    Path cut;     // what is cut along; heap
    Box box;      // of all that is drawn, in the piece's coordinates
    Polygon outside, inside; // the cut line and the seam line as corners
    Polygon keep;            // corners, notches, dots and folds: what should not lie on a join between pages
    struct {
        NotchMark *items;
        int count, capacity;
    } notches;
    LineList inner; // the lines inside as chords, for words to keep clear of
    bool has_grain;
    Line grain;
    bool unproven; // a failed proof points at this piece

    // The label, set by plate_place_label: lines of words in a block round label_at, turned by label_turn.
    Label label;
    Point label_at;
    double label_width, label_height; // of the block, mm of paper at size 1
    double label_turn, label_size;
} Plate;

// Works everything out but the label. Fills fault when the piece cannot be drawn truly.
bool plate_init(Plate *plate, const Pattern *pattern, int index, double scale, Fault *fault);
// As a small picture of the piece.
bool plate_init_sketch(Plate *plate, const Pattern *pattern, int index, double scale, Fault *fault);
// The same small picture at another scale; it borrows all else from the first one, and is not to be finished.
void plate_sketch_at(const Plate *plate, double scale, Plate *out);
void plate_finish(Plate *plate);

bool plate_shows_marks(const Plate *plate); // seam lines, notches, dots

double plate_notch_size(const Plate *plate); // the base of its triangle, in the piece's mm

// The bracket that shows a fold: arrow point, corner, corner, arrow point. False for an edge that is no fold.
bool plate_fold_bracket(const Plate *plate, const Edge *edge, Point bracket[4]);

// Writes the label and finds its place, clear of lines and, where it can be, of joins (lines in the piece's
// coordinates).
void plate_place_label(Plate *plate, const LineList *joins);

// Draws in the piece's coordinates; the canvas's view has been set by the caller.
void plate_draw(const Plate *plate, Canvas *canvas);

// A sketch, which has no words and flags.
void plate_draw_sketch(const Plate *plate, Canvas *canvas);

// The cut line and seam line alone, filled, for small maps of the pages.
void plate_draw_small(const Plate *plate, Canvas *canvas);

#endif
