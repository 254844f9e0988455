// Every tolerance of the program, each with its unit and reason. Compare through named functions, never a
// number on the spot.
#ifndef REBATO_GEOMETRY_TOLERANCE_H
#define REBATO_GEOMETRY_TOLERANCE_H

// Two points are one within this: a tenth of the thinnest pencil line a hundred times over, and well above
// the rounding of the pattern text (0.0001 mm).
#define POINT_SAME_MM 0.001

// A point is on a path within this.
#define POINT_ON_MM 0.01

// A curve is flattened, offset or fitted within this: far under the 0.1 mm a cutter can see.
#define CURVE_FIT_MM 0.01

// A curve this near its chord is a straight line to the offset.
#define CURVE_STRAIGHT_MM 0.0001

// Chords stand for a curve within this when an outline is searched for loops; the curve itself is kept.
#define CHORD_FIT_MM 0.002

// So closely where a curve turns back on itself.
#define CHORD_FINE_MM 5e-6

// Chords nearer than this may cross; corners are shaken by this much so that they either do or do not.
#define CHORD_TOUCH_MM 1e-6

// A meeting polished further than this from where its chords met is another meeting.
#define POLISH_REACH_MM 0.05

// Directions closer than this are parallel.
#define PARALLEL_RAD 1e-6

// A Bezier handle shorter than this tells no direction: it is far below the rounding of the pattern text, and
// the next control point that differs decides.
#define HANDLE_ZERO_MM 1e-6

// Meeting points are polished to this.
#define MEET_MM 1e-9

// A joint that turns less than this is smooth, not a corner: far above rounding, far below what the eye sees.
#define SMOOTH_DEGREES 0.1

// Lengths are right to this, relative to their size.
#define LENGTH_RELATIVE 1e-9

// No honest drawing leaves a square of 100 m.
#define COORDINATE_LIMIT_MM 100000.0

// The most segments in one path: a recipe that wants more is in a loop it did not mean.
#define PATH_SEGMENTS_MAX 20000

#endif
