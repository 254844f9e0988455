// What the files that draw a figure share. Inside this room only.
#ifndef REBATO_SHEET_FIGURE_PARTS_H
#define REBATO_SHEET_FIGURE_PARTS_H

#include "sheet/figure.h"
#include "sheet/labels.h"

typedef struct Figure {
    const Pattern *pattern;
    int draft;
    const FigureOptions *options;
    Canvas *canvas;
    Labels labels;
    MarkAge *ages; // of the draft's marks; earlier ones that are left out count as not there yet
    const EdgeEnds *edges;
    int named;  // words written so far
    Box limits; // lines that run beyond are cut short there
    Box crop;   // what is shown; empty for all
} Figure;

// Owned by the figure's maker.
void figure_find_ages(Figure *figure);

bool figure_shows(const Figure *figure, Point p);

// The part of a path that is drawn, in `segment` where it is cut short; broken: at its first and last end.
Path figure_shown_path(const Figure *figure, const Mark *mark, Segment *segment, bool broken[2]);

// The measures along their lines, then the names: points come first, and new work before old. A name of old
// work that would cover another one is left out.
void figure_draw_words(Figure *figure);

#endif
