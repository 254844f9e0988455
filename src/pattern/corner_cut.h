// How two lines beside an outline meet where its edges meet.
#ifndef REBATO_PATTERN_CORNER_CUT_H
#define REBATO_PATTERN_CORNER_CUT_H

#include "pattern/piece.h"

// A corner of an outline, seen in outline order: the edge that comes in and the edge that goes out.
typedef struct CornerCut {
    Point at;
    Point in, out; // unit tangents along the outline
    double a, b;   // distances of the lines beside them, positive outside
    CornerStyle style;
    bool other_first; // the edge that goes out is sewn first
} CornerCut;

// The points between the line beside the incoming edge and the one beside the outgoing edge: 0 to 3 of them.
// The first lies on the incoming line or its tangent, the last on the outgoing one; none where the lines are
// best joined straight.
int corner_cut_points(const CornerCut *corner, Point points[3]);

#endif
