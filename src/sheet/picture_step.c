// A step's picture shows the part of the draft its work lies in, with some of what was there round it: at
// least the nearest marks, from which a hand finds the place again.
#include <math.h>

#include "base/memory.h"
#include "sheet/draft_scale.h"
#include "sheet/figure.h"
#include "sheet/gallery.h"
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

static const Draft *draft_of(const Stage *stage) {
    return &stage->of->pattern->drafts.items[stage->of->draft];
}

// The pieces that a step traced, where it did nothing else on the draft; gives how many, 0 where it did.
static int find_traced(const Stage *stage, int *pieces) {
    int count = 0;
    for (int i = 0; i < stage->shown; i++) {
        const Mark *mark = &draft_of(stage)->marks.items[i];
        if (stage_age(stage, i) != MARK_NEW)
            continue;
        if (mark->kind != MARK_PIECE)
            return 0;
        if (figure_piece(stage->of->pattern, stage->of->draft, mark) != NULL)
            pieces[count++] = mark->piece;
    }
    for (int i = 0; i < draft_of(stage)->dimensions.count; i++)
        if (stage_measures(stage, i))
            return 0;
    return stage->lines.count > 0 ? 0 : count;
}

// Beside each other instead of over each other.
static bool draw_traced(Pictures *pictures, const PictureAsk *ask, const Stage *stage, const int *pieces,
                        int count, double scale, Canvas *canvas, Point at, PictureSize *out) {
    const Pattern *pattern = stage->of->pattern;
    Gallery gallery = {
        .pictures = pictures, .pieces = pieces, .count = count, .measured = true, .marks = ask->marks};
    const bool good = gallery_lay(&gallery, scale, ask->width, ask->height - FIGURE_TITLE_MM);
    if (good) {
        const Point size = gallery_size(&gallery);
        const double title = figure_stage_title_width(pattern, ask->draft, gallery.scale, ask->marks);
        *out = (PictureSize){.width = fmax(size.x, fmin(title, ask->width)),
                             .height = size.y + FIGURE_TITLE_MM,
                             .scale = gallery.scale};
        if (canvas != NULL) {
            canvas_group(canvas, "draft", draft_of(stage)->name);
            figure_draw_stage_title(pattern, ask->draft, gallery.scale, ask->marks, canvas,
                                    point(at.x, at.y + FIGURE_TITLE_MM));
            gallery_draw(&gallery, canvas, point(at.x, at.y + FIGURE_TITLE_MM));
            canvas_group_end(canvas);
        }
    }
    gallery_finish(&gallery);
    return good;
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
    int *pieces = mem_new(sizeof *pieces * (size_t)(stage->shown + 1));
    const int traced = find_traced(stage, pieces);
    const bool shown =
        traced > 0 && draw_traced(pictures, ask, stage, pieces, traced, scale, canvas, at, out);
    mem_free(pieces);
    if (shown)
        return true;
    const Box crop = part_shown(stage, scale, width, height);
    const double room = fmin(width, box_width(crop) * scale), tall = fmin(height, box_height(crop) * scale);
    *out = (PictureSize){
        .width = fmax(room + 2 * FIGURE_ROOM_MM,
                      fmin(figure_stage_title_width(pattern, ask->draft, scale, ask->marks), ask->width)),
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

bool picture_draft(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at, PictureSize *out) {
    const Pattern *pattern = pictures->pattern;
    const Box box = figure_box(pattern, ask->draft);
    const Point room = draft_room(ask->width, ask->height - 2 * (FIGURE_ROOM_MM - FIGURE_STAGE_ROOM_MM));
    if (box_is_empty(box) || !pictures_stages(pictures, ask->draft)->drawable)
        return false;
    const double scale = picture_scale(box_width(box), box_height(box), room.x, room.y);
    const double tall = box_height(box) * scale;
    *out = (PictureSize){
        .width = fmax(box_width(box) * scale + 2 * FIGURE_ROOM_MM,
                      fmin(figure_stage_title_width(pattern, ask->draft, scale, ask->marks), ask->width)),
        .height = tall + 2 * FIGURE_ROOM_MM + FIGURE_TITLE_MM,
        .scale = scale};
    if (canvas == NULL)
        return true;
    const FigureOptions options = {
        .scale = scale, .units = pattern->units, .marks = ask->marks, .wordless = true};
    figure_draw(pattern, ask->draft, &options, canvas, box.least,
                point_add(at, point(FIGURE_ROOM_MM, FIGURE_TITLE_MM + FIGURE_ROOM_MM + tall)));
    return true;
}
