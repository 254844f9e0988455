#include <math.h>

#include "base/memory.h"
#include "sheet/gallery.h"
#include "sheet/picture_kinds.h"

#define EDGE_MM 1.0     // round a picture, for half the width of its lines
#define SMALLEST_MM 9.0 // a piece is drawn larger than the others of the table where it would be smaller

bool picture_all(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at, PictureSize *out) {
    const int count = pictures->pattern->pieces.count;
    if (count == 0)
        return false;
    int *pieces = mem_new(sizeof *pieces * (size_t)count);
    for (int i = 0; i < count; i++)
        pieces[i] = i;
    Gallery gallery = {.pictures = pictures, .pieces = pieces, .count = count};
    const bool good = gallery_lay(&gallery, 1, ask->width, ask->height);
    if (good) {
        const Point size = gallery_size(&gallery);
        *out = (PictureSize){.width = size.x, .height = size.y, .scale = gallery.scale};
        if (canvas != NULL)
            gallery_draw(&gallery, canvas, at);
    }
    gallery_finish(&gallery);
    mem_free(pieces);
    return good;
}

static Point size_of(const Piece *piece) {
    Box box = box_empty();
    for (int i = 0; i < piece->edges.count; i++)
        box = box_join(box, path_box(&piece->edges.items[i].path));
    return box_is_empty(box) ? point(0, 0) : point_sub(box.most, box.least);
}

// The largest of the pieces.
static Point size_of_all(Pictures *pictures) {
    Point *most = &pictures->largest_piece;
    for (int i = 0; i < pictures->pattern->pieces.count && !pictures->pieces_measured; i++) {
        const Point size = size_of(&pictures->pattern->pieces.items[i]);
        *most = point(fmax(most->x, size.x), fmax(most->y, size.y));
    }
    pictures->pieces_measured = true;
    return *most;
}

static double scale_in(Point size, double width, double height) {
    return fmin(1, fmin(width / fmax(size.x, 1), height / fmax(size.y, 1)));
}

// All pieces at one scale, though none so small that it could not be known.
static double piece_scale(Pictures *pictures, const Plate *plate, double width, double height) {
    const Box box = gallery_plate_box(plate);
    const Point size = point_sub(box.most, box.least);
    const double shared = scale_in(size_of_all(pictures), width, height);
    return fmin(scale_in(size, width, height), fmax(shared, SMALLEST_MM / fmax(1, fmax(size.x, size.y))));
}

bool picture_piece(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at, PictureSize *out) {
    Plate plate;
    const double room = ask->width - 2 * EDGE_MM, depth = ask->height - 2 * EDGE_MM;
    bool good = pictures_sketch(pictures, ask->piece, 1, &plate);
    for (int i = 0; i < 2 && good; i++) { // what is drawn round it grows as it gets smaller
        const double scale = piece_scale(pictures, &plate, room, depth);
        good = pictures_sketch(pictures, ask->piece, scale, &plate);
    }
    if (good) {
        const Box box = gallery_plate_box(&plate);
        const double scale = fmin(plate.scale, scale_in(point_sub(box.most, box.least), room, depth));
        *out = (PictureSize){.width = (box.most.x - box.least.x) * scale + 2 * EDGE_MM,
                             .height = (box.most.y - box.least.y) * scale + 2 * EDGE_MM,
                             .scale = scale};
        if (canvas != NULL) {
            canvas_view(canvas, canvas_place(scale, 0, box.least,
                                             point_add(at, point(EDGE_MM, out->height - EDGE_MM))));
            plate_draw_sketch(&plate, canvas);
            canvas_paper(canvas);
        }
    }
    return good;
}
