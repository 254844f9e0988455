// Where two segments cross, touch, or run on each other.
#ifndef REBATO_GEOMETRY_SEGMENT_MEET_H
#define REBATO_GEOMETRY_SEGMENT_MEET_H

#include "geometry/segment.h"

#define SEGMENT_MEETS_MAX 32

typedef struct SegmentMeet {
    double t, u; // on the first and the second segment
    double gap;  // between the two points, mm
} SegmentMeet;

typedef struct SegmentMeets {
    SegmentMeet items[SEGMENT_MEETS_MAX];
    int count;
    bool overlap; // they run on each other from `from` to `to`, both also among the items
    SegmentMeet from, to;
} SegmentMeets;

// Crossings to MEET_MM, touches and shared ends within POINT_SAME_MM, each once, rising along a. Two that are
// nearer than POINT_SAME_MM to each other all the way are one meeting, or an overlap when an end bounds it on
// both sides. The work is bounded: curves that stay within a few thousandths of a millimetre of each other
// without being the same may lose meetings there.
void segment_meets(const Segment *a, const Segment *b, SegmentMeets *out);

// The two parameters where a cubic crosses its own loop; false when it has none.
bool segment_self_meet(const Segment *s, double *t, double *u);

#endif
