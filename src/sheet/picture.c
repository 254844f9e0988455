#include "sheet/picture.h"

#include "sheet/picture_kinds.h"
#include "sheet/stage.h"
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

bool picture_has_step(const Pattern *pattern, int step, int draft) {
    return stage_works(pattern, step, draft);
}

bool picture_measure(const Pattern *pattern, const PictureAsk *ask, PictureSize *out) {
    return kinds[ask->kind](pattern, ask, NULL, point(0, 0), out);
}

void picture_draw(const Pattern *pattern, const PictureAsk *ask, Canvas *canvas, Point at) {
    PictureSize size;
    kinds[ask->kind](pattern, ask, canvas, at, &size);
}

bool picture_svg(const Pattern *pattern, const PictureAsk *ask, const char *prefix, const char *title,
                 Buffer *out) {
    PictureSize size;
    if (!picture_measure(pattern, ask, &size))
        return false;
    SvgCanvas svg;
    svg_begin_inside(&svg, size.width, size.height, prefix, title, out);
    picture_draw(pattern, ask, &svg.canvas, point(0, 0));
    svg_end(&svg);
    return true;
}
