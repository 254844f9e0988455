// Where paths cross or touch.
#ifndef REBATO_GEOMETRY_CROSSING_H
#define REBATO_GEOMETRY_CROSSING_H

#include "geometry/path.h"

typedef struct Crossing {
    Point point;
    PathSpot on_a, on_b;
} Crossing;

typedef struct CrossingList {
    Crossing *items;
    int count, capacity;
} CrossingList;

void crossings_finish(CrossingList *list);

// Every place where a and b meet (crossings, touches and shared ends, each once within POINT_SAME_MM), in order along
// a. Where they run on each other, the two ends of that stretch. Replaces what list held.
void path_crossings(const Path *a, const Path *b, CrossingList *list);

// Where a path crosses itself, the joints of neighbouring segments and the closing of an outline left out.
void path_self_crossings(const Path *path, CrossingList *list);

// The one meeting of a with b first along a. GEOM_NO_MEET.
GeomError path_meet(const Path *a, const Path *b, Point *out);

// Shortest distance between two paths, and the points it lies between.
double path_gap(const Path *a, const Path *b, Point *on_a, Point *on_b);

#endif
