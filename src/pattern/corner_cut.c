// The outline runs counter-clockwise along the unit vector u into the corner P and along v out of it; it
// turns by t there (positive: to the left, an outside corner), so the angle inside the piece is alpha = 180 -
// t. The lines beside the edges lie a and b to the right of them. Their meeting point Q, with r(u) the vector
// u turned to the right, is
//     Q = P + a r(u) + x u,      x = (b + a cos alpha) / sin alpha = a tan(t/2) + (b - a) / sin t
//     Q = P + b r(v) - y v,      y = (a + b cos alpha) / sin alpha = b tan(t/2) + (a - b) / sin t
// (plane geometry; the second form stays exact where a = b and the joint is nearly straight).
#include "pattern/corner_cut.h"

#include "pattern/allowance.h"

#define RUN_MAX 10.0          // allowances that a corner may run out beyond the end of its seam
#define BEVEL_AT 1.5          // allowances from the corner to a bevel
#define SHARP_AT 2.5          // the same where a corner is too sharp to be cut to its tip
#define SHARP_DEGREES 30.0    // inside the piece: a plain corner under this is bevelled
#define STRAIGHT_DEGREES 0.01 // less is no corner
#define STYLED_RUN_MAX 3.0 // allowances a shaped corner may run out: on flatter or sharper ones it is plain
#define STYLED_CROSSING_MAX 1.6
#define STYLED_FROM 5.0 // degrees: a joint that turns less has no corner to shape
#define STYLED_TO 175.0
#define STEP_TO 45.0 // degrees: a hollow joint that turns more has a true meeting point

double allowance_run(CornerStyle style, double a, double b, double alpha) {
    const double sine = sin(RADIANS(alpha)), cosine = cos(RADIANS(alpha));
    switch (style) {
    case CORNER_SQUARE:
        return b / sine;
    case CORNER_REFLECTED:
        return (b - a * cosine) / sine;
    case CORNER_PLAIN:
    case CORNER_BEVEL:
        break;
    }
    return (b + a * cosine) / sine;
}

static Point beside(Point at, Point along, double distance, double run) {
    return point_add(at, point_add(point_scale(point_right(along), distance), point_scale(along, run)));
}

// Cuts the tip at right angles to the line from the corner to it, at a distance from the corner.
static int cut_tip(const CornerCut *c, Point tip, double distance, Point points[3]) {
    const double reach = point_distance(c->at, tip);
    const Point toward = point_scale(point_sub(tip, c->at), 1 / reach);
    const double before = (reach - distance) / point_dot(c->in, toward);
    const double after = (reach - distance) / -point_dot(c->out, toward);
    points[0] = point_sub(tip, point_scale(c->in, before));
    points[1] = point_add(tip, point_scale(c->out, after));
    return 2;
}

static int cut_plain(const CornerCut *c, double turn, Point points[3]) {
    const double widest = fmax(fabs(c->a), fabs(c->b));
    const double half = tan(RADIANS(turn) / 2);
    double x = c->a * half, y = c->b * half;
    if (fabs(c->a - c->b) > POINT_SAME_MM) {
        if (fabs(turn) < STRAIGHT_DEGREES)
            return 0;
        x += (c->b - c->a) / sin(RADIANS(turn));
        y += (c->a - c->b) / sin(RADIANS(turn));
        // A wide allowance that would taper into a narrow one over a long stretch steps down at the corner
        // instead; beside a fold there is nothing to step down to, and the meeting point is right whatever
        // its distance.
        const bool folded = c->a == 0 || c->b == 0, deep = turn < -STEP_TO;
        if (!deep && (fmin(x, y) < -widest * (folded ? RUN_MAX : 1) || fmax(x, y) > widest * RUN_MAX))
            return 0;
    }
    if (turn > 0 && c->a >= 0 && c->b >= 0) {
        const bool open = c->a > 0 && c->b > 0; // beside a fold the tip stays on the fold
        const double limit = !open                               ? RUN_MAX
                             : c->style == CORNER_BEVEL          ? BEVEL_AT
                             : turn > 180 - SHARP_DEGREES + 1e-9 ? SHARP_AT
                                                                 : RUN_MAX;
        // Near a full turn the tip is out of reach, and only its direction is right.
        const double far = fmin(x, 1e6 * widest);
        const Point tip = beside(c->at, c->in, c->a, far);
        if (point_distance(c->at, tip) > limit * widest)
            return cut_tip(c, tip, limit * widest, points);
    }
    points[0] = beside(c->at, c->in, c->a, x);
    return 1;
}

// A shaped corner needs an outside corner that is neither flat nor a spike: it may not run out far, nor take
// away from the first edge, nor from the second one by more than an allowance. (With equal widths: from 40 to
// 135 degrees.)
static bool shape_fits(const CornerCut *c, double turn, double first, double second) {
    if (turn < STYLED_FROM || turn > STYLED_TO)
        return false;
    const double widest = fmax(first, second), alpha = 180 - turn;
    const double run = allowance_run(c->style, first, second, alpha);
    const double crossing = allowance_run(CORNER_SQUARE, first, second, alpha);
    return run >= 0 && run <= STYLED_RUN_MAX * widest && crossing <= STYLED_CROSSING_MAX * widest &&
           crossing * cos(RADIANS(turn)) <= widest * (1 + LENGTH_RELATIVE);
}

int corner_cut_points(const CornerCut *corner, Point points[3]) {
    const double turn = point_turn(corner->in, corner->out);
    const double first = corner->other_first ? corner->b : corner->a;
    const double second = corner->other_first ? corner->a : corner->b;
    const bool styled = (corner->style == CORNER_SQUARE || corner->style == CORNER_REFLECTED) && first > 0 &&
                        second > 0 && shape_fits(corner, turn, first, second);
    if (!styled)
        return cut_plain(corner, turn, points);
    // Measured along the edge sewn first, away from its seam; the incoming edge runs that way, the outgoing
    // one back.
    const double away = corner->other_first ? -1 : 1;
    const Point along = corner->other_first ? corner->out : corner->in;
    const double alpha = 180 - turn;
    const Point tip =
        beside(corner->at, along, first, away * allowance_run(corner->style, first, second, alpha));
    const Point crossing =
        beside(corner->at, along, 0, away * allowance_run(CORNER_SQUARE, first, second, alpha));
    points[0] = corner->other_first ? crossing : tip;
    points[1] = corner->other_first ? tip : crossing;
    return 2;
}
