#include "sheet/picture.h"

#include "base/memory.h"
#include "sheet/picture_kinds.h"
#include "sheet/svg.h"

static PictureKindFn *const kinds[] = {
    [PICTURE_ALL] = picture_all,     [PICTURE_STEP] = picture_step, [PICTURE_DRAFT] = picture_draft,
    [PICTURE_PIECE] = picture_piece, [PICTURE_SEAM] = picture_seam,
};

Pictures *pictures_new(const Pattern *pattern) {
    Pictures *pictures = mem_new(sizeof *pictures);
    pictures->pattern = pattern;
    names_init(&pictures->names, pattern);
    pictures->drafts = mem_new(sizeof *pictures->drafts * (size_t)(pattern->drafts.count + 1));
    pictures->scales = mem_new(sizeof *pictures->scales * 2 * (size_t)(pattern->drafts.count + 1));
    pictures->sketches = mem_new(sizeof *pictures->sketches * (size_t)(pattern->pieces.count + 1));
    return pictures;
}

void pictures_free(Pictures *pictures) {
    if (pictures == NULL)
        return;
    for (int i = 0; i < pictures->pattern->drafts.count; i++)
        stages_finish(&pictures->drafts[i]);
    for (int i = 0; i < pictures->pattern->pieces.count; i++)
        plate_finish(&pictures->sketches[i]);
    mem_free(pictures->sketches);
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

bool pictures_sketch(Pictures *pictures, int piece, double scale, Plate *out) {
    Plate *whole = &pictures->sketches[piece];
    if (whole->piece == NULL) {
        Fault fault;
        fault_init(&fault);
        const bool good = plate_init_sketch(whole, pictures->pattern, piece, 1, &fault);
        fault_finish(&fault);
        if (!good) {
            plate_finish(whole);
            return false;
        }
    }
    plate_sketch_at(whole, scale, out);
    return true;
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
