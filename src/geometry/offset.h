// Parallel curves: seam allowances, facings, under collars.
#ifndef REBATO_GEOMETRY_OFFSET_H
#define REBATO_GEOMETRY_OFFSET_H

#include "geometry/path.h"

typedef enum OffsetJoin { JOIN_MITRE, JOIN_SQUARE, JOIN_ROUND } OffsetJoin;

typedef struct OffsetOptions {
    OffsetJoin join; // at corners on the outer side; SQUARE cuts the corner off at the distance (bevel at d)
    double mitre_limit; // corners sharper than this many distances are squared off at limit * distance; 0
                        // stands for 10
    double tolerance;   // 0 stands for CURVE_FIT_MM
} OffsetOptions;

// The path at `distance` (not negative) on one side of an open path, corners joined, inner loops removed.
// Lines stay lines. GEOM_VANISHES when nothing is left.
GeomError path_offset(const Path *path, double distance, Side side, OffsetOptions options, Path *out);

// The outline at `distance` outside (positive) or inside (negative) a simple closed outline. Where an inward
// offset falls apart, the largest part is given and *parts (may be NULL) tells how many there were. The
// result winds as the input does. GEOM_NOT_CLOSED, GEOM_CROSSES_ITSELF, GEOM_VANISHES.
GeomError outline_offset(const Path *outline, double distance, OffsetOptions options, Path *out, int *parts);

// One edge's raw parallel, without joins or loops removed: the building block of outlines whose allowance
// changes from edge to edge. Each smooth run is one run of segments; corners inside the edge are mitred.
GeomError path_offset_raw(const Path *path, double distance, Side side, double tolerance, Path *out);

// Removes the loops of a raw closed offset outline that winds counter-clockwise: keeps the outermost simple
// outline where the winding number passes from 0 to 1 (outward offsets, inner = false) or the largest part of
// winding 1 or more (inward, inner = true).
GeomError outline_unloop(const Path *raw, bool inner, double tolerance, Path *out, int *parts);

#endif
