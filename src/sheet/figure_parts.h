// What the files that draw a figure share. Inside this room only.
#ifndef REBATO_SHEET_FIGURE_PARTS_H
#define REBATO_SHEET_FIGURE_PARTS_H

#include "sheet/figure.h"
#include "sheet/labels.h"

// A line that belongs to the words: of a dimension, or from a point to its name. mm of paper.
typedef struct ThinLine {
    Line line;
    bool ticked; // at both ends
} ThinLine;

Line figure_tick(Line line, int end); // across its first (0) or last end

// A dimension and where its line lies, mm of paper.
typedef struct Measured {
    Line line;
    double length;    // of what it measures, mm
    const char *name; // or NULL
} Measured;

typedef struct Figure {
    const Pattern *pattern;
    int draft;
    const FigureOptions *options;
    Canvas *canvas;
    Labels labels;
    struct {
        ThinLine *items;
        int count, capacity;
    } thin;
    struct {
        Measured *items;
        int count, capacity;
    } measured;
    MarkAge *ages; // of the draft's marks; earlier ones that are left out count as not there yet
    const EdgeEnds *edges;
    int named;  // words written so far
    Box limits; // lines that run beyond are cut short there
    Box crop;   // what is shown; empty for all
} Figure;

// Owned by the figure's maker.
void figure_find_ages(Figure *figure);

// Of a recipe that ran before the last one of the command line.
bool figure_step_is_old(const Pattern *pattern, int step);

bool figure_shows(const Figure *figure, Point p);

// The part of a path that is drawn, in `segment` where it is cut short; broken: at its first and last end.
Path figure_shown_path(const Figure *figure, const Mark *mark, Segment *segment, bool broken[2]);

// The lines of dimensions, which names then keep clear of; after the paths of the draft.
void figure_lay_dimensions(Figure *figure);

// Numbers along the dimensions, and the names of new lines with their lengths.
void figure_write_measures(Figure *figure);

// Counts what is written, or tried; false where there is too much.
bool figure_may_write(Figure *figure);

// How far words go for a place.
typedef enum Effort {
    EFFORT_NEAR,  // beside what they name, off all lines
    EFFORT_FREE,  // also further off, with a leader that crosses nothing
    EFFORT_ANYHOW // also across lines, which have a gap then
} Effort;

// Words along a straight line of the paper, or near a curve of the draft. False where there is no such place.
bool figure_write_along(Figure *figure, TextKind look, Line line, Effort effort, const char *words);
bool figure_write_on_curve(Figure *figure, TextKind look, const Path *path, Effort effort, const char *words);

// The numbers along their lines, then the names: points come first, and new work before old. A name of old
// work that would cover a line or another name is left out.
void figure_draw_words(Figure *figure);

#endif
