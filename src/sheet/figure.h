// A draft as a figure: construction thin and grey, new work dark, marks named, dimensions along their lines.
#ifndef REBATO_SHEET_FIGURE_H
#define REBATO_SHEET_FIGURE_H

#include "base/fault.h"
#include "pattern/pattern.h"
#include "sheet/canvas.h"

typedef struct FigureOptions {
    double scale;
    Units units;
} FigureOptions;

// Whether the last recipe of the command line, or one it used, marked something on the draft.
bool figure_is_new(const Pattern *pattern, int draft);

// Of all that will be drawn, in the draft's coordinates; empty when there is nothing to draw.
Box figure_box(const Pattern *pattern, int draft);

// Fills fault when a mark is not finite.
bool figure_check(const Pattern *pattern, int draft, Fault *fault);

// Draws the draft with the point `from` of it on `to` of the paper, and its title above it.
void figure_draw(const Pattern *pattern, int draft, const FigureOptions *options, Canvas *canvas, Point from,
                 Point to);

#define FIGURE_ROOM_MM 9.0         // for names round the figure
#define FIGURE_TITLE_MM 8.0        // above that, for its title
#define FIGURE_TITLE_WIDTH_MM 50.0 // at least; room for the title of a narrow figure

#endif
