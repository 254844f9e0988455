#include "sheet/picture.h"

#include "base/memory.h"
#include "sheet/picture_kinds.h"
#include "sheet/svg.h"

static const double scales[] = {1,        1 / 2.0,  1 / 2.5,  1 / 3.0,  1 / 4.0,  1 / 5.0,  1 / 6.0,
                                1 / 8.0,  1 / 10.0, 1 / 12.0, 1 / 15.0, 1 / 20.0, 1 / 25.0, 1 / 30.0,
                                1 / 40.0, 1 / 50.0, 1 / 100., 1 / 200., 1 / 500., 1e-3,     1e-4};
enum { SCALES = sizeof scales / sizeof *scales };

double picture_scale(double width, double height, double room_width, double room_height) {
    for (int i = 0; i < SCALES; i++)
        if (width * scales[i] <= room_width && height * scales[i] <= room_height)
            return scales[i];
    return scales[SCALES - 1];
}

double picture_scale_below(double scale) {
    for (int i = 0; i < SCALES; i++)
        if (scales[i] < scale)
            return scales[i];
    return scale;
}

static PictureKindFn *const kinds[] = {
    [PICTURE_ALL] = picture_all,
    [PICTURE_STEP] = picture_step,
    [PICTURE_PIECE] = picture_piece,
    [PICTURE_SEAM] = picture_seam,
};

Pictures *pictures_new(const Pattern *pattern) {
    Pictures *pictures = mem_new(sizeof *pictures);
    pictures->pattern = pattern;
    names_init(&pictures->names, pattern);
    pictures->drafts = mem_new(sizeof *pictures->drafts * (size_t)(pattern->drafts.count + 1));
    pictures->scales = mem_new(sizeof *pictures->scales * 2 * (size_t)(pattern->drafts.count + 1));
    return pictures;
}

void pictures_free(Pictures *pictures) {
    if (pictures == NULL)
        return;
    for (int i = 0; i < pictures->pattern->drafts.count; i++)
        stages_finish(&pictures->drafts[i]);
    mem_free(pictures->drafts);
    mem_free(pictures->scales);
    names_finish(&pictures->names);
    mem_free(pictures);
}

const Stages *pictures_stages(Pictures *pictures, int draft) {
    Stages *stages = &pictures->drafts[draft];
    if (stages->pattern == NULL)
        stages_init(stages, &pictures->names, draft);
    return stages;
}

bool picture_has_step(Pictures *pictures, int step, int draft) {
    return stages_at(pictures_stages(pictures, draft), step) != NULL;
}

bool picture_measure(Pictures *pictures, const PictureAsk *ask, PictureSize *out) {
    return kinds[ask->kind](pictures, ask, NULL, point(0, 0), out);
}

void picture_draw(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at) {
    PictureSize size;
    kinds[ask->kind](pictures, ask, canvas, at, &size);
}

bool picture_svg(Pictures *pictures, const PictureAsk *ask, const char *prefix, const char *title,
                 Buffer *out) {
    PictureSize size;
    if (!picture_measure(pictures, ask, &size))
        return false;
    SvgCanvas svg;
    svg_begin_inside(&svg, size.width, size.height, prefix, title, out);
    picture_draw(pictures, ask, &svg.canvas, point(0, 0));
    svg_end(&svg);
    return true;
}
