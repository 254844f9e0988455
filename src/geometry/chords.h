// A path flattened to chords, for questions of topology: whether and where it crosses itself, and what is
// near a point.
#ifndef REBATO_GEOMETRY_CHORDS_H
#define REBATO_GEOMETRY_CHORDS_H

#include "geometry/path.h"

typedef struct Chords {
    Point *at;  // count + 1 corners; of a closed path the last is the first
    int *first; // the first chord of each segment, and count after the last
    int *runs;  // the first chord of each run, and count after the last
    Box *
        boxes; // a binary tree over the runs: root 1, children of i at 2i and 2i + 1, leaves from `leaves` on
    int count, segments, run_count, leaves;
    bool closed;
} Chords;

// Two chords that cross: a before b, the fraction along each, and whether b passes a from its right to its
// left.
typedef struct Meet {
    int a, b;
    double on_a, on_b;
    bool leftward;
} Meet;

typedef struct MeetList {
    Meet *items;
    int count, capacity;
} MeetList;

// Chords within CHORD_FIT_MM of the path. A shaken set has its corners moved by up to CHORD_TOUCH_MM, always
// the same way, so that no three corners are in line and every meeting is a crossing.
void chords_init(Chords *chords, const Path *path, bool closed, bool shaken);
void chords_finish(Chords *chords);

bool chords_apart(const Chords *chords);                  // no two chords meet or nearly meet
void chords_meets(const Chords *chords, MeetList *meets); // adds every crossing of two chords
double chords_area(const Chords *chords);                 // signed, counter-clockwise positive
PathSpot chords_spot(const Chords *chords, int chord, double fraction);
Point chords_point(const Chords *chords, int chord, double fraction);
bool chords_within(const Chords *chords, Point p,
                   double distance); // some chord is nearer to p than the distance

#endif
