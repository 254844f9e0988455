// Outlines as corners, to find room inside them for words and arrows.
#ifndef REBATO_SHEET_POLYGON_H
#define REBATO_SHEET_POLYGON_H

#include "geometry/path.h"

typedef struct Polygon {
    Point *items;
    int count, capacity;
} Polygon;

typedef struct Line {
    Point from, to;
} Line;

typedef struct LineList {
    Line *items;
    int count, capacity;
} LineList;

void polygon_finish(Polygon *polygon);
void polygon_from_path(const Path *path, double tolerance, Polygon *out); // replaces what out held
bool polygon_contains(const Polygon *polygon, Point p);
Point polygon_centre(const Polygon *polygon); // of its area
Box polygon_box(const Polygon *polygon);

// Whether the polygon, its inside counted, and the box share a point.
bool polygon_touches_box(const Polygon *polygon, Box box);

bool line_touches_box(Line line, Box box);
bool line_in_box(Line line, Box box, Line *out); // the part of it inside; false where there is none
void lines_add_path(LineList *lines, const Path *path, double tolerance);

// Room for an upright box of width by height inside the polygon, clear of the lines and nearest to wish.
// False when there is none.
bool polygon_find_room(const Polygon *polygon, const LineList *lines, double width, double height, Point wish,
                       Point *centre);

#endif
