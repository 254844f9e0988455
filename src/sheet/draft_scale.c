#include "sheet/draft_scale.h"

#include <math.h>

#include "geometry/tolerance.h"
#include "sheet/figure.h"

// A draft is drawn at the scale at which its steps fit beside prose; where they could not be read so, at that
// of the largest room.
#define WIDE_GAIN 0.16 // so much less hard to read, of each step

#define READABLE_MM 40.0      // the larger side of a step's work,
#define READABLE_NAME_MM 3.0  // and more for each name in it,
#define READABLE_MOST_MM 80.0 // up to that
#define NARROW_MM 7.0         // the smaller side of a strip
#define HARDEST 0.36
#define SECOND_SCALE 0.1 // as hard to bear as work a quarter smaller than it should be
#define DETAIL_MOST 5.0  // times the scale of the draft
#define COMPARED 0.6    // drafts of one step share scales that differ by no more

Point draft_room(double width, double height) {
    return point(width - 2 * FIGURE_ROOM_MM, height - 2 * FIGURE_STAGE_ROOM_MM - FIGURE_TITLE_MM);
}

static double fit(Box box, Point room) {
    return picture_scale(box.most.x - box.least.x, box.most.y - box.least.y, room.x, room.y);
}

static double side_of(Box box) {
    return fmax(box.most.x - box.least.x, box.most.y - box.least.y);
}

static double narrow_side_of(Box box) {
    return fmin(box.most.x - box.least.x, box.most.y - box.least.y);
}

// The more is missing, the harder; 0 where a step can be read at that scale. What is small both ways is so
// at any scale near it.
static double hardness(const Stage *stage, double scale) {
    const double side = fmax(side_of(stage->box), side_of(stage->context) / 2) * scale;
    const double narrow = narrow_side_of(stage->box) * scale;
    const double wanted = fmin(READABLE_MM + READABLE_NAME_MM * stage->named, READABLE_MOST_MM);
    double short_of = side > 0 ? fmax(0, log(wanted / side)) : 0;
    if (narrow > POINT_SAME_MM)
        short_of = fmax(short_of, log(NARROW_MM / narrow));
    return short_of > 0 ? fmin(short_of * short_of, HARDEST) : 0;
}

static double choose(const Stage *stage, const PictureScales *scales, Point room) {
    if (hardness(stage, scales->base) == 0 || fit(stage->context, room) < scales->detail)
        return scales->base;
    return scales->detail;
}

static double least_scale(const Stages *stages, Point room) {
    double scale = 1;
    for (int i = 0; i < stages->list.count; i++)
        scale = fmin(scale, fit(stages->list.items[i].context, room));
    return scale;
}

static bool share_a_step(const Stages *a, const Stages *b) {
    for (int i = 0; i < a->list.count; i++)
        if (stages_at(b, a->list.items[i].step) != NULL)
            return true;
    return false;
}

#define COMPARED_MOST 8
#define DRAFTS_MOST 60 // among more, each draft stands for itself

// The drafts that are compared with one, itself first.
typedef struct Compared {
    const Stages *items[COMPARED_MOST];
    int count;
} Compared;

static Compared find_compared(Pictures *pictures, const Stages *stages, Point room) {
    Compared all = {.items = {stages}, .count = 1};
    const int drafts = pictures->pattern->drafts.count;
    const double own = least_scale(stages, room);
    for (int d = 0; d < drafts && drafts <= DRAFTS_MOST && all.count < COMPARED_MOST; d++) {
        const Stages *other = pictures_stages(pictures, d);
        if (other == stages || !share_a_step(stages, other))
            continue;
        const double theirs = least_scale(other, room);
        if (fmin(own, theirs) >= COMPARED * fmax(own, theirs))
            all.items[all.count++] = other;
    }
    return all;
}

static double hardness_of_all(const Compared *all, const PictureScales *scales, Point room) {
    double hard = 0;
    for (int d = 0; d < all->count; d++)
        for (int i = 0; i < all->items[d]->list.count; i++) {
            const Stage *stage = &all->items[d]->list.items[i];
            hard += hardness(stage, choose(stage, scales, room));
        }
    return hard;
}

static PictureScales find_scales(Pictures *pictures, const Stages *stages, Point room) {
    const Compared all = find_compared(pictures, stages, room);
    double base = 1;
    for (int d = 0; d < all.count; d++)
        base = fmin(base, least_scale(all.items[d], room));
    PictureScales best = {.room = room, .base = base, .detail = base};
    best.hard = hardness_of_all(&all, &best, room);
    int steps = 0;
    for (int d = 0; d < all.count; d++)
        steps += all.items[d]->list.count;
    for (double detail = fmin(1, DETAIL_MOST * base), before = 2; detail > base && detail < before;
         before = detail, detail = picture_scale_below(detail)) {
        PictureScales scales = {.room = room, .base = base, .detail = detail};
        scales.hard = hardness_of_all(&all, &scales, room) + SECOND_SCALE;
        if (scales.hard <= best.hard)
            best = scales;
    }
    best.hard /= fmax(1, steps);
    return best;
}

// Worked out once for each draft and room.
static const PictureScales *scales_in(Pictures *pictures, const Stages *stages, Point room, int which) {
    PictureScales *kept = &pictures->scales[2 * stages->draft + which];
    if (kept->base == 0 || kept->room.x != room.x || kept->room.y != room.y)
        *kept = find_scales(pictures, stages, room);
    return kept;
}

double draft_scale(Pictures *pictures, const Stage *stage, double width, double height) {
    const Point wide = draft_room(width, height);
    const Point beside =
        draft_room(fmin(width, PICTURE_BESIDE_WIDE_MM), fmin(height, PICTURE_BESIDE_TALL_MM));
    const PictureScales *scales = scales_in(pictures, stage->of, beside, 0);
    if (beside.x < wide.x || beside.y < wide.y) {
        const PictureScales *large = scales_in(pictures, stage->of, wide, 1);
        if (large->hard < scales->hard - WIDE_GAIN)
            scales = large;
    }
    return choose(stage, scales, scales->room);
}
