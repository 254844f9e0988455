#include <math.h>

#include "base/memory.h"
#include "sheet/font.h"
#include "sheet/layout.h"
#include "sheet/picture_kinds.h"
#include "sheet/plate.h"

#define NAME_MM 5.0      // under a piece, for its name
#define GAP_MM 5.0       // between pieces
#define GALLERY_MOST 100 // pieces shown together: the first of them; fewer where so many have no room
#define EDGE_MM 1.0      // round a picture, for half the width of its lines
#define DOT_MM 2.6       // from the middle of a dot to the ends of its cross, at full size
#define SMALLEST_NAME 0.95

static double box_width(Box box) {
    return box.most.x - box.least.x;
}

static double box_height(Box box) {
    return box.most.y - box.least.y;
}

// With its dots and the brackets of its folds, which in a small drawing can reach beyond a narrow piece.
static Box drawn_box(const Plate *plate) {
    Box box = plate->box;
    Point bracket[4];
    const double reach = DOT_MM * plate->fine / plate->scale;
    for (int i = 0; i < plate->piece->dots.count; i++) {
        const Point at = plate->piece->dots.items[i].at;
        box = box_add(box_add(box, point_sub(at, point(reach, reach))), point_add(at, point(reach, reach)));
    }
    for (int i = 0; i < plate->piece->edges.count; i++)
        for (int k = 0; k < 4 && plate_fold_bracket(plate, &plate->piece->edges.items[i], bracket); k++)
            box = box_add(box, bracket[k]);
    return box;
}

static double name_size(const char *name, double width) {
    const double full = text_style(TEXT_SMALL)->size, needs = canvas_text_width(TEXT_SMALL, name);
    return full * fmin(1, fmax(SMALLEST_NAME, width / needs));
}

static double name_width(const char *name, double width) {
    const double full = text_style(TEXT_SMALL)->size;
    return canvas_text_width(TEXT_SMALL, name) * name_size(name, width) / full;
}

typedef struct Gallery {
    Plate *plates;
    LayoutItem *items;
    int count;
    Layout layout;
} Gallery;

static bool lay_out(Gallery *gallery, double scale, const PictureAsk *ask) {
    for (int i = 0; i < gallery->count; i++) {
        const Plate *plate = &gallery->plates[i];
        const double width = box_width(drawn_box(plate)) * scale;
        gallery->items[i] = (LayoutItem){.width = fmax(width, name_width(plate->piece->name, width)) + GAP_MM,
                                         .height = box_height(drawn_box(plate)) * scale + NAME_MM + GAP_MM};
    }
    gallery->layout = (Layout){.items = gallery->items, .count = gallery->count};
    return layout_into(&gallery->layout, ask->width, ask->height);
}

static void gallery_finish(Gallery *gallery) {
    for (int i = 0; i < gallery->count; i++)
        plate_finish(&gallery->plates[i]);
    mem_free(gallery->plates);
    mem_free(gallery->items);
}

static bool gallery_make(Gallery *gallery, const Pattern *pattern, int most, double scale) {
    Fault fault;
    for (int i = 0; i < gallery->count; i++)
        plate_finish(&gallery->plates[i]);
    for (gallery->count = 0; gallery->count < pattern->pieces.count && gallery->count < most;
         gallery->count++)
        if (!plate_init(&gallery->plates[gallery->count], pattern, gallery->count, scale, &fault))
            return false;
    return true;
}

static void draw_gallery(const Gallery *gallery, Canvas *canvas, Point at, double scale) {
    for (int i = 0; i < gallery->count; i++) {
        const Plate *plate = &gallery->plates[i];
        const LayoutItem *item = &gallery->items[i];
        const double room = item->width - GAP_MM, width = box_width(drawn_box(plate)) * scale,
                     height = box_height(drawn_box(plate)) * scale;
        const Point corner = point_add(at, item->at);
        canvas_view(canvas, canvas_place(scale, 0, drawn_box(plate).least,
                                         point(corner.x + (room - width) / 2, corner.y + height)));
        plate_draw_quiet(plate, canvas);
        canvas_paper(canvas);
        const double size = name_size(plate->piece->name, width);
        canvas_text_sized(canvas, TEXT_SMALL, size, ALIGN_MIDDLE,
                          point(corner.x + room / 2, corner.y + height + 1 + size * FONT_CAP + 0.4), 0,
                          plate->piece->name);
    }
}

bool picture_all(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at, PictureSize *out) {
    const Pattern *pattern = pictures->pattern;
    if (pattern->pieces.count == 0)
        return false;
    Gallery gallery = {.plates = mem_new(sizeof *gallery.plates * (size_t)pattern->pieces.count),
                       .items = mem_new(sizeof *gallery.items * (size_t)pattern->pieces.count)};
    bool good = false;
    double scale = 1;
    for (int most = GALLERY_MOST; !good && most > 0; most /= 3) {
        double before = 2;
        for (scale = 1; scale < before; before = scale, scale = picture_scale_below(scale)) {
            good = gallery_make(&gallery, pattern, most, scale) && lay_out(&gallery, scale, ask);
            if (good)
                break;
        }
    }
    if (good) {
        *out = (PictureSize){.scale = scale};
        for (int i = 0; i < gallery.count; i++) {
            out->width =
                fmax(out->width, gallery.items[i].at.x + gallery.items[i].width - GAP_MM + 2 * EDGE_MM);
            out->height =
                fmax(out->height, gallery.items[i].at.y + gallery.items[i].height - GAP_MM + 2 * EDGE_MM);
        }
        if (canvas != NULL)
            draw_gallery(&gallery, canvas, point_add(at, point(EDGE_MM, EDGE_MM)), scale);
    }
    gallery_finish(&gallery);
    return good;
}

bool picture_piece(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at, PictureSize *out) {
    const Pattern *pattern = pictures->pattern;
    Plate plate;
    Fault fault;
    if (!plate_init(&plate, pattern, ask->piece, 1, &fault))
        return false;
    const double wide = box_width(drawn_box(&plate)), tall = box_height(drawn_box(&plate));
    const double room = ask->width - 2 * EDGE_MM, depth = ask->height - 2 * EDGE_MM;
    const double scale = fmin(1, fmin(room / wide, depth / tall));
    plate_finish(&plate);
    if (!plate_init(&plate, pattern, ask->piece, scale, &fault))
        return false;
    const double k =
        fmin(1, fmin(room / box_width(drawn_box(&plate)), depth / box_height(drawn_box(&plate))) / scale);
    *out = (PictureSize){.width = box_width(drawn_box(&plate)) * scale * k + 2 * EDGE_MM,
                         .height = box_height(drawn_box(&plate)) * scale * k + 2 * EDGE_MM,
                         .scale = scale * k};
    if (canvas != NULL) {
        canvas_view(canvas, canvas_place(scale * k, 0, drawn_box(&plate).least,
                                         point_add(at, point(EDGE_MM, out->height - EDGE_MM))));
        plate_draw_quiet(&plate, canvas);
        canvas_paper(canvas);
    }
    plate_finish(&plate);
    return true;
}
