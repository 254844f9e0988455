// Placing many small names on a drawing so that they cover neither each other nor the lines more than they
// must. Everything in millimetres of paper, y down.
#ifndef REBATO_SHEET_LABELS_H
#define REBATO_SHEET_LABELS_H

#include "sheet/canvas.h"
#include "sheet/cells.h"
#include "sheet/polygon.h"

// The room of a text: a box round its centre that runs along `along`.
typedef struct LabelRoom {
    Point centre, along; // along: unit
    double half_width, half_height;
} LabelRoom;
Box label_room_box(const LabelRoom *room); // upright, round it

typedef struct Labels {
    Box frame; // names should stay inside it
    struct {
        Box *items;
        int count, capacity;
    } taken;
    LineList lines;
    struct {
        Point *items;
        int count, capacity;
    } points;
    struct {
        LabelRoom *items;
        int count, capacity;
    } gaps; // where a name lies across lines for want of a free place: they are drawn with a gap there
    Cells taken_cells, line_cells, point_cells; // where they lie
} Labels;

void labels_begin(Labels *labels, Box frame);
void labels_finish(Labels *labels);
void labels_take(Labels *labels, Box box);
void labels_add_line(Labels *labels, Line line);
void labels_add_point(Labels *labels, Point at); // a point drawn as a dot, and its room

// What is asked of a place for a text of that width and cap height. Places that cost worst or more are not
// taken.
typedef struct LabelAsk {
    double gap, width, height; // gap: from what it names
    int rings;                 // 1: as near as can be, up to LABEL_RINGS
    double worst;
} LabelAsk;

#define LABEL_RINGS 3

// The best place round a point; takes it. The name of a dot stands nearer to no other dot than to its own.
// Gives the base line point of the text, left aligned. False when there is none; nothing is taken.
bool labels_place(Labels *labels, Point at, const LabelAsk *ask, Point *out);

// As labels_place, ask->gap away, with a line that leads there across no name; takes both.
bool labels_place_led(Labels *labels, Point at, const LabelAsk *ask, Point *out, Line *leader);

// The best place for a text along a straight line, above or below it and turned with it so that it reads from
// below or from the right; takes it. out is the middle of the base line, degrees counter-clockwise as seen.
bool labels_place_along(Labels *labels, Line line, const LabelAsk *ask, Point *out, double *degrees);

// How bad it is to draw a line there: names that it crosses, the frame it leaves, lines.
double labels_line_cost(Labels *labels, Line line);
bool labels_on_line(Labels *labels, Point at); // a line passes through it

// The parts of a line that lie outside all gaps.
void labels_outside_gaps(const Labels *labels, Line line, LineList *out);
bool labels_gap_in(const Labels *labels, Box box);

#define LABELS_FREE 1.45    // nor does the line that leads to it
#define LABELS_CLEAR 2.9    // a name crosses no line
#define LABELS_CROWDED 15.0 // the cost at which a name would cover another one

#endif
