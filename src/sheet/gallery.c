#include "sheet/gallery.h"

#include <math.h>
#include <stdio.h>

#include "base/memory.h"
#include "sheet/font.h"
#include "sheet/picture_kinds.h"

#define ROW_MM 3.8       // of a name, and of a size under it
#define GAP_MM 5.0       // between pieces
#define EDGE_MM 1.0      // round all, for half the width of its lines
#define DOT_MM 2.6       // from the middle of a dot to the ends of its cross, at full size
#define SQUARE_PART 1e-3 // a rectangle fills the box round it but for that part

static double box_width(Box box) {
    return box.most.x - box.least.x;
}

static double box_height(Box box) {
    return box.most.y - box.least.y;
}

Box gallery_plate_box(const Plate *plate) {
    Box box = plate->box;
    Point bracket[4];
    const double reach = plate_shows_marks(plate) ? DOT_MM * plate->fine / plate->scale : 0;
    for (int i = 0; i < plate->piece->dots.count; i++) {
        const Point at = plate->piece->dots.items[i].at;
        box = box_add(box_add(box, point_sub(at, point(reach, reach))), point_add(at, point(reach, reach)));
    }
    for (int i = 0; i < plate->piece->edges.count; i++)
        for (int k = 0; k < 4 && plate_fold_bracket(plate, &plate->piece->edges.items[i], bracket); k++)
            box = box_add(box, bracket[k]);
    return box;
}

// "40.8 cm × 4.0 cm" of the seam lines, for a rectangle.
static bool write_size(const Gallery *gallery, const Piece *piece, char *out, size_t size) {
    Path seam = {.items = NULL};
    piece_outline(piece, &seam);
    const Box box = path_box(&seam);
    const double wide = box_width(box), tall = box_height(box);
    const bool rectangle =
        gallery->measured && wide * tall > 0 && fabs(path_area(&seam)) >= wide * tall * (1 - SQUARE_PART);
    char numbers[2][48];
    for (int i = 0; i < 2 && rectangle; i++) {
        units_format(i == 0 ? fmax(wide, tall) : fmin(wide, tall), gallery->pictures->pattern->units,
                     numbers[i], sizeof numbers[i]);
        number_text_mark(numbers[i], gallery->marks, numbers[i], sizeof numbers[i]);
    }
    if (rectangle)
        snprintf(out, size, "%s \u00d7 %s", numbers[0], numbers[1]);
    path_finish(&seam);
    return rectangle;
}

static bool make_plates(Gallery *gallery, double scale) {
    for (int i = 0; i < gallery->count; i++)
        if (!pictures_sketch(gallery->pictures, gallery->pieces[i], scale, &gallery->plates[i]))
            return false;
    gallery->scale = scale;
    return true;
}

static bool lay_out(Gallery *gallery, double width, double height) {
    for (int i = 0; i < gallery->count; i++) {
        const Plate *plate = &gallery->plates[i];
        char size[112];
        const bool sized = write_size(gallery, plate->piece, size, sizeof size);
        double wide = fmax(box_width(gallery_plate_box(plate)) * gallery->scale,
                           canvas_text_width(TEXT_SMALL, plate->piece->name));
        if (sized)
            wide = fmax(wide, canvas_text_width(TEXT_SMALL, size));
        gallery->items[i] = (LayoutItem){.width = wide + GAP_MM,
                                         .height = box_height(gallery_plate_box(plate)) * gallery->scale +
                                                   ROW_MM * (sized ? 2 : 1) + 1 + GAP_MM};
    }
    gallery->layout = (Layout){.items = gallery->items, .count = gallery->count};
    return layout_into(&gallery->layout, width, height);
}

bool gallery_lay(Gallery *gallery, double most, double width, double height) {
    gallery->plates = mem_new(sizeof *gallery->plates * (size_t)(gallery->count + 1));
    gallery->items = mem_new(sizeof *gallery->items * (size_t)(gallery->count + 1));
    for (double scale = most, before = 2 * most; scale < before;
         before = scale, scale = picture_scale_below(scale)) {
        if (!make_plates(gallery, scale))
            return false;
        if (lay_out(gallery, width, height))
            return true;
    }
    return false;
}

void gallery_finish(Gallery *gallery) {
    mem_free(gallery->plates);
    mem_free(gallery->items);
    *gallery = (Gallery){.pictures = NULL};
}

Point gallery_size(const Gallery *gallery) {
    Point size = point(0, 0);
    for (int i = 0; i < gallery->count; i++) {
        const LayoutItem *item = &gallery->items[i];
        size = point(fmax(size.x, item->at.x + item->width - GAP_MM + 2 * EDGE_MM),
                     fmax(size.y, item->at.y + item->height - GAP_MM + 2 * EDGE_MM));
    }
    return size;
}

void gallery_draw(const Gallery *gallery, Canvas *canvas, Point at) {
    for (int i = 0; i < gallery->count; i++) {
        const Plate *plate = &gallery->plates[i];
        const LayoutItem *item = &gallery->items[i];
        const Box box = gallery_plate_box(plate);
        const double room = item->width - GAP_MM, width = box_width(box) * gallery->scale,
                     height = box_height(box) * gallery->scale;
        const Point corner = point_add(at, point_add(item->at, point(EDGE_MM, EDGE_MM)));
        canvas_view(canvas, canvas_place(gallery->scale, 0, box.least,
                                         point(corner.x + (room - width) / 2, corner.y + height)));
        plate_draw_sketch(plate, canvas);
        canvas_paper(canvas);
        char size[112];
        const double base = corner.y + height + 1.4 + text_style(TEXT_SMALL)->size * FONT_CAP;
        canvas_text(canvas, TEXT_SMALL, ALIGN_MIDDLE, point(corner.x + room / 2, base), 0,
                    plate->piece->name);
        if (write_size(gallery, plate->piece, size, sizeof size))
            canvas_text(canvas, TEXT_DIMENSION, ALIGN_MIDDLE, point(corner.x + room / 2, base + ROW_MM), 0,
                        size);
    }
}
