// A step's picture shows the part of the draft its work lies in, with some of what was there round it: at
// least the nearest marks, from which a hand finds the place again.
#include <math.h>

#include "sheet/draft_scale.h"
#include "sheet/figure.h"
#include "sheet/picture_kinds.h"

#define ROUND_MM 10.0      // of the draft shown round the work, mm of paper
#define CROP_LEAST_MM 55.0 // each side of the part shown, mm of paper, where the draft is as large

static Box box_grown(Box box, double by) {
    return (Box){point_sub(box.least, point(by, by)), point_add(box.most, point(by, by))};
}

static double box_width(Box box) {
    return box.most.x - box.least.x;
}

static double box_height(Box box) {
    return box.most.y - box.least.y;
}

// Longer in a side that is shorter than least, to both ends alike.
static void stretch(double *from, double *to, double least) {
    const double more = (least - (*to - *from)) / 2;
    if (more > 0) {
        *from -= more;
        *to += more;
    }
}

// No longer than most, taken off where the part shown runs on beyond the work, at both ends alike if it can
// be.
static void trim(double *from, double *to, double work_from, double work_to, double most) {
    const double more = *to - *from - most;
    if (more <= 0)
        return;
    const double first = work_from - *from, last = *to - work_to, spare = first + last;
    if (spare <= 0)
        return;
    *from += fmin(1, more / spare) * first;
    *to -= fmin(1, more / spare) * last;
}

static Box part_shown(const Stage *stage, double scale, double width, double height) {
    const Box all = stage_all(stage);
    const bool room =
        box_width(stage->context) * scale <= width && box_height(stage->context) * scale <= height;
    const Box work = room ? stage->context : stage->box;
    Box box = box_grown(work, ROUND_MM / scale);
    stretch(&box.least.x, &box.most.x, fmin(CROP_LEAST_MM, width) / scale);
    stretch(&box.least.y, &box.most.y, fmin(CROP_LEAST_MM, height) / scale);
    box = (Box){point(fmax(box.least.x, all.least.x), fmax(box.least.y, all.least.y)),
                point(fmin(box.most.x, all.most.x), fmin(box.most.y, all.most.y))};
    trim(&box.least.x, &box.most.x, work.least.x, work.most.x, width / scale);
    trim(&box.least.y, &box.most.y, work.least.y, work.most.y, height / scale);
    return box;
}

// That of its draft, or where its work has no room so, what there is room for.
static double scale_of(Pictures *pictures, const PictureAsk *ask, const Stage *stage, Point room) {
    const double wide = fmax(ask->width, ask->page_width), tall = fmax(ask->height, ask->page_height);
    return fmin(draft_scale(pictures, stage, wide, tall),
                picture_scale(box_width(stage->box), box_height(stage->box), room.x, room.y));
}

bool picture_step(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at, PictureSize *out) {
    const Pattern *pattern = pictures->pattern;
    const Stage *stage = stages_at(pictures_stages(pictures, ask->draft), ask->step);
    if (stage == NULL || !stage->of->drawable)
        return false;
    const Point largest = draft_room(ask->width, ask->height);
    const double width = largest.x, height = largest.y;
    if (box_is_empty(stage->box))
        return false;
    const double scale = scale_of(pictures, ask, stage, largest);
    const Box crop = part_shown(stage, scale, width, height);
    const double room = fmin(width, box_width(crop) * scale), tall = fmin(height, box_height(crop) * scale);
    *out = (PictureSize){.width = fmax(room + 2 * FIGURE_ROOM_MM,
                                       fmin(figure_title_width(pattern, ask->draft, scale), ask->width)),
                         .height = tall + 2 * FIGURE_STAGE_ROOM_MM + FIGURE_TITLE_MM,
                         .scale = scale};
    if (canvas == NULL)
        return true;
    const FigureOptions options = {
        .scale = scale, .units = pattern->units, .stage = stage, .crop = crop, .marks = ask->marks};
    figure_draw(pattern, ask->draft, &options, canvas, crop.least,
                point_add(at, point(FIGURE_ROOM_MM, FIGURE_TITLE_MM + FIGURE_STAGE_ROOM_MM + tall)));
    return true;
}
