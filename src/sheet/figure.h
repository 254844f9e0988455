// A draft as a figure: construction thin and grey, new work dark, marks named, dimensions along their lines.
#ifndef REBATO_SHEET_FIGURE_H
#define REBATO_SHEET_FIGURE_H

#include "base/fault.h"
#include "pattern/pattern.h"
#include "sheet/canvas.h"
#include "sheet/number_text.h"
#include "sheet/stage.h"

typedef struct FigureOptions {
    double scale;
    Units units;
    const Stage *stage; // the draft as it stands then, new work with its measures; NULL for the whole draft
    Box crop;           // what is shown of a stage, in the draft's coordinates
    NumberMarks marks;  // of lengths and scales
    bool wordless;      // the title is the name and the scale, as that of a stage
} FigureOptions;

// Whether the last recipe of the command line, or one it used, marked or measured something on the
// draft.
bool figure_is_new(const Pattern *pattern, int draft);

// Of all that will be drawn, in the draft's coordinates; empty when there is nothing to draw.
Box figure_box(const Pattern *pattern, int draft);

// Straight lines longer than FIGURE_FAR_MM are cut short at these limits: so far beyond the points, pieces,
// dimensions and other lines of the draft, and ends of lines that meet something. Empty where it has none.
Box figure_limits(const Pattern *pattern, int draft);

// The part of a path that is drawn where it is cut short, and at which ends; false when it is drawn whole.
bool figure_cut_short(Box limits, const Path *path, Point *from, Point *to, bool cut[2]);

// The piece of a mark, where it was traced on this draft; else NULL.
const Piece *figure_piece(const Pattern *pattern, int draft, const Mark *mark);

// Fills fault when a mark is not finite.
bool figure_check(const Pattern *pattern, int draft, Fault *fault);

// Draws the draft with the point `from` of it on `to` of the paper, and its title above it.
void figure_draw(const Pattern *pattern, int draft, const FigureOptions *options, Canvas *canvas, Point from,
                 Point to);

double figure_title_width(const Pattern *pattern, int draft, double scale); // mm of paper
// The name and the scale of a stage, above what stands from that place on.
void figure_draw_stage_title(const Pattern *pattern, int draft, double scale, NumberMarks marks,
                             Canvas *canvas, Point above);
double figure_stage_title_width(const Pattern *pattern, int draft, double scale, NumberMarks marks);

#define FIGURE_ROOM_MM 9.0       // for names round the figure
#define FIGURE_TITLE_MM 8.0      // above that, for its title
#define FIGURE_TITLE_GAP_MM 5.0  // kept free after it, beside the next one
#define FIGURE_STAGE_ROOM_MM 5.5 // for names above and below a stage
#define FIGURE_FAR_MM 150.0

#endif
