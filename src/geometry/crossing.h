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

// More meetings than this are not looked for.
#define CROSSINGS_MAX 100000

void crossings_finish(CrossingList *list);

// Every place where a and b meet (crossings, touches and shared ends, each once within POINT_SAME_MM), in
// order along a. Where they run on each other, the two ends of that stretch. Crossings are right to MEET_MM;
// of two places that only touch, point is the middle. Segments that are not finite meet nothing. Replaces
// what list held.
void path_crossings(const Path *a, const Path *b, CrossingList *list);

// Where a path crosses itself, the joints of neighbouring segments and the closing of an outline left out:
// on_a is the earlier place, on_b the later one.
void path_self_crossings(const Path *path, CrossingList *list);

// The one meeting of a with b first along a. GEOM_NO_MEET.
GeomError path_meet(const Path *a, const Path *b, Point *out);

// Shortest distance between two paths, and the points it lies between (both may be NULL). 0 where they meet.
double path_gap(const Path *a, const Path *b, Point *on_a, Point *on_b);

#endif
