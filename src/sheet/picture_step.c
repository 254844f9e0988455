// The scale of the steps of one recipe on one draft is that at which the largest of them has room. Each shows
// the part its work lies in, with some of what was there round it. Where that part would be smaller than can
// be read, the step has a larger scale of its own.
#include <math.h>

#include "sheet/figure.h"
#include "sheet/picture_kinds.h"

#define READABLE_MM 45.0 // the larger side of a step's work is at least that, where the scale can be had
#define LARGER_MOST 2.5  // times the shared scale: what is round the work must still be known again
#define FAR_SMALLER 0.8  // a scale of that part of the next one
#define NEAR_SMALLER \
    0.6               // the drafts of one step share a scale that is no smaller than that part of their own
#define ROUND_MM 10.0 // of the draft shown round the work, mm of paper
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
    const Box all = stage_all(stage), work = stage->box;
    Box box = box_grown(work, ROUND_MM / scale);
    stretch(&box.least.x, &box.most.x, fmin(CROP_LEAST_MM, width) / scale);
    stretch(&box.least.y, &box.most.y, fmin(CROP_LEAST_MM, height) / scale);
    box = (Box){point(fmax(box.least.x, all.least.x), fmax(box.least.y, all.least.y)),
                point(fmin(box.most.x, all.most.x), fmin(box.most.y, all.most.y))};
    trim(&box.least.x, &box.most.x, work.least.x, work.most.x, width / scale);
    trim(&box.least.y, &box.most.y, work.least.y, work.most.y, height / scale);
    return box;
}

static double scale_for(Box work, double width, double height) {
    return picture_scale(box_width(work), box_height(work), width, height);
}

static int chapter_of(const Pattern *pattern, int step) {
    return step >= 0 && step < pattern->steps.count ? pattern->steps.items[step].chapter : -1;
}

// One step that takes far more room than all others, as one that rules long lines, goes by itself.
static double shared_scale(const Stages *stages, int chapter, double width, double height) {
    double least = 1, next = 1;
    for (int i = 0; i < stages->list.count; i++) {
        const Stage *stage = &stages->list.items[i];
        if (chapter_of(stages->pattern, stage->step) != chapter)
            continue;
        const double scale = scale_for(stage->box, width, height);
        next = fmin(next, fmax(scale, least));
        least = fmin(least, scale);
    }
    return least <= FAR_SMALLER * next ? next : least;
}

static double draft_scale(const Stage *stage, double width, double height) {
    const Box work = stage->box;
    const double side = fmax(box_width(work), box_height(work));
    const double own = scale_for(work, width, height);
    const int chapter = chapter_of(stage->of->pattern, stage->step);
    const double scale = fmin(own, shared_scale(stage->of, chapter, width, height));
    if (side * scale >= fmin(READABLE_MM, fmax(width, height) / 2))
        return scale;
    const double wanted = picture_scale(side, 0, 1.5 * READABLE_MM, 1);
    return fmax(scale, fmin(fmin(own, wanted), picture_scale(1, 0, LARGER_MOST * scale * 1.001, 1)));
}

// The front and the back of a step are compared: so they are drawn at one scale.
static double scale_of(Pictures *pictures, const Stage *stage, double width, double height) {
    const double own = draft_scale(stage, width, height);
    double scale = own;
    for (int i = 0; i < pictures->pattern->drafts.count; i++) {
        const Stage *other = stages_at(pictures_stages(pictures, i), stage->step);
        if (other == NULL || other == stage)
            continue;
        const double theirs = draft_scale(other, width, height);
        if (theirs >= own * NEAR_SMALLER)
            scale = fmin(scale, theirs);
    }
    return scale;
}

bool picture_step(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at, PictureSize *out) {
    const Pattern *pattern = pictures->pattern;
    const Stage *stage = stages_at(pictures_stages(pictures, ask->draft), ask->step);
    if (stage == NULL || !stage->of->drawable)
        return false;
    const double width = ask->width - 2 * FIGURE_ROOM_MM,
                 height = ask->height - 2 * FIGURE_STAGE_ROOM_MM - FIGURE_TITLE_MM;
    const double scale = scale_of(pictures, stage, width, height);
    if (box_is_empty(stage->box))
        return false;
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
