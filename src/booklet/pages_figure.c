#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "booklet/paging.h"

#define SIDE_PART 0.485   // of the width, for figures beside prose; two of them stand beside each other
#define SIDE_GAP_MM 6.0   // between them
#define SIDE_TALL_MM 98.0 // of one figure
#define SIDE_ALL_MM 215.0 // of all figures of a step
#define SIDE_OVER_MM 25.0 // prose may run on below its figures
#define STACK_PART 0.7    // of their height several figures have prose beside them, or they go below
#define SIDE_SCALE 0.72   // of the scale at the whole width: a figure smaller than that goes below
#define SIDE_LARGE_MM 60.0
#define NARROWEST_MM 60.0 // prose has no figure beside it in less
#define FIGURE_TALL_MM 150.0
#define ALL_TALL_MM 105.0
#define SEAM_TALL_MM 120.0
#define DOT_MM (25.4 / 150) // of a picture of pixels, at its largest

static double page_height(const Paging *p) {
    return p->bottom - p->top;
}

static bool place_image(const BookImage *image, double width, double height, Placed *out) {
    if (image->width <= 0 || image->height <= 0)
        return false;
    const double k = fmin(DOT_MM, fmin(width / image->width, height / image->height));
    out->width = image->width * k;
    out->height = image->height * k;
    return true;
}

static bool place_picture(const Paging *p, const BookPicture *picture, double width, double height,
                          Placed *out) {
    static const PictureKind kinds[] = {[BOOK_PICTURE_ALL] = PICTURE_ALL,
                                        [BOOK_PICTURE_STEP] = PICTURE_STEP,
                                        [BOOK_PICTURE_PIECE] = PICTURE_PIECE,
                                        [BOOK_PICTURE_SEAM] = PICTURE_SEAM};
    *out = (Placed){.picture = picture};
    if (picture->kind == BOOK_PICTURE_IMAGE)
        return place_image(&picture->image, width, height, out);
    out->ask = (PictureAsk){.kind = kinds[picture->kind],
                            .step = picture->step,
                            .draft = picture->draft,
                            .piece = picture->piece,
                            .seam = picture->seam,
                            .width = width,
                            .height = height,
                            .marks = p->marks};
    PictureSize size;
    if (!picture_measure(p->book->pattern, &out->ask, &size))
        return false;
    out->width = size.width;
    out->height = size.height;
    return true;
}

static double side_width(const Column *column) {
    return column->width * SIDE_PART;
}

// Whether a step's picture can be read in the narrow column: it is large there, or hardly smaller than it
// would be in the whole width.
static bool fits_beside(const Paging *p, const Column *column, const BookPicture *picture) {
    Placed narrow, wide;
    PictureSize a, b;
    if (picture->kind != BOOK_PICTURE_STEP ||
        !place_picture(p, picture, side_width(column), SIDE_TALL_MM, &narrow) ||
        !place_picture(p, picture, column->width, FIGURE_TALL_MM, &wide))
        return false;
    return picture_measure(p->book->pattern, &narrow.ask, &a) &&
           picture_measure(p->book->pattern, &wide.ask, &b) &&
           (a.scale >= SIDE_SCALE * b.scale || fmax(a.width, a.height) >= SIDE_LARGE_MM);
}

static double tall_for(const Paging *p, const BookPicture *picture, double share) {
    const double most = picture->kind == BOOK_PICTURE_ALL    ? ALL_TALL_MM
                        : picture->kind == BOOK_PICTURE_SEAM ? SEAM_TALL_MM
                                                             : FIGURE_TALL_MM;
    return fmin(most, page_height(p) * share);
}

static void add_shelf(Paging *p, const Column *column, const Placed *shelf, int count, bool first) {
    Placed *own = arena_take(&p->arena, sizeof *own * (size_t)count);
    memcpy(own, shelf, sizeof *own * (size_t)count);
    Row row = {.kind = ROW_PICTURES,
               .before = first ? 3.5 : PICTURE_GAP_MM,
               .x = column->x,
               .width = column->width,
               .frame = column->frame,
               .table = -1,
               .header = -1,
               .pictures = own,
               .picture_count = count};
    for (int i = 0; i < count; i++)
        row.height = fmax(row.height, own[i].height);
    ARRAY_ADD(column->rows, row);
}

void page_figure(Paging *p, const Column *column, const BookBlock *figure) {
    Placed *shelf = mem_new(sizeof *shelf * (size_t)(figure->picture_count + 1));
    int count = 0;
    double reached = 0;
    bool first = true, steps = false;
    for (int i = 0; i < figure->picture_count; i++) {
        const BookPicture *picture = &figure->pictures[i];
        const bool narrow = fits_beside(p, column, picture);
        const double width = narrow ? side_width(column) : column->width;
        Placed placed;
        steps = steps || picture->kind == BOOK_PICTURE_STEP;
        if (!place_picture(p, picture, width, narrow ? SIDE_TALL_MM : tall_for(p, picture, 0.8), &placed))
            continue;
        if (count > 0 && reached + PICTURE_GAP_MM + placed.width > column->width) {
            add_shelf(p, column, shelf, count, first);
            count = 0;
            first = false;
        }
        placed.x = count > 0 ? reached + PICTURE_GAP_MM : 0;
        shelf[count++] = placed;
        reached = placed.x + placed.width;
    }
    if (count > 0)
        add_shelf(p, column, shelf, count, first);
    mem_free(shelf);
    if (count == 0 || steps || figure->spans.count == 0) // a step's picture has its draft's name in it
        return;
    column->rows->items[column->rows->count - 1].keep = true;
    TypeText *caption =
        page_text(p, TYPE_CAPTION, figure->spans, column->width, column->language, ALIGN_LEFT);
    for (int i = 0; i < type_text_lines(caption); i++) {
        const Row row = {.kind = ROW_LINE,
                         .before = i == 0 ? 1.5 : 0,
                         .height = type_text_line_height(caption, i),
                         .x = column->x,
                         .width = column->width,
                         .keep = i + 1 < type_text_lines(caption),
                         .frame = column->frame,
                         .table = -1,
                         .header = -1,
                         .role = "Caption",
                         .text = caption,
                         .line = i};
        ARRAY_ADD(column->rows, row);
    }
}

static double rows_height(const RowList *rows) {
    double height = 0;
    for (int i = 0; i < rows->count; i++)
        height += (i > 0 ? rows->items[i].before : 0) + rows->items[i].height;
    return height;
}

// Below each other at the right side; gives how high they stand, 0 where they do not fit there.
static double stack(const Paging *p, const Column *column, const BookBlock *figures, int count, Placed *out,
                    int *placed) {
    const double width = side_width(column), left = column->width - width;
    double reached = 0;
    *placed = 0;
    for (int f = 0; f < count; f++)
        for (int i = 0; i < figures[f].picture_count; i++) {
            const BookPicture *picture = &figures[f].pictures[i];
            Placed *at = &out[*placed];
            if (picture->kind != BOOK_PICTURE_STEP)
                return 0;
            if (!place_picture(p, picture, width, SIDE_TALL_MM, at))
                continue;
            if (!fits_beside(p, column, picture))
                return 0;
            if (*placed > 0)
                reached += PICTURE_GAP_MM;
            at->x = left;
            at->y = reached;
            reached += at->height;
            (*placed)++;
        }
    return reached <= fmin(SIDE_ALL_MM, page_height(p) * 0.85) ? reached : 0;
}

static int pictures_in(const BookBlock *figures, int count) {
    int pictures = 0;
    for (int f = 0; f < count; f++)
        pictures += figures[f].picture_count;
    return pictures;
}

int page_beside(Paging *p, const Column *column, const BookBlock *blocks, int count, const BookBlock *figures,
                int figure_count) {
    const double prose = column->width - side_width(column) - SIDE_GAP_MM;
    for (int i = 0; i < figure_count; i++)
        if (figures[i].kind != BOOK_FIGURE)
            return -1;
    if (prose < NARROWEST_MM)
        return -1;
    Placed *pictures =
        arena_take(&p->arena, sizeof *pictures * (size_t)(pictures_in(figures, figure_count) + 1));
    int placed;
    const double tall = stack(p, column, figures, figure_count, pictures, &placed);
    if (tall == 0)
        return -1;
    RowList rows = {.items = NULL};
    Column narrow = *column;
    narrow.width = prose;
    narrow.rows = &rows;
    int done = 0;
    while (done < count) {
        const int before = rows.count;
        page_blocks(p, &narrow, &blocks[done], 1);
        if (before > 0 && rows_height(&rows) > tall + SIDE_OVER_MM) {
            rows.count = before; // it would stand beside nothing
            break;
        }
        done++;
    }
    const double words = rows_height(&rows);
    if (words > page_height(p) * 0.9 || (placed > 1 && words < tall * STACK_PART)) {
        mem_free(rows.items);
        return -1;
    }
    Row *left = arena_take(&p->arena, sizeof *left * (size_t)(rows.count + 1));
    if (rows.count > 0)
        memcpy(left, rows.items, sizeof *left * (size_t)rows.count);
    double y = rows.count > 0 && left[0].frame >= 0 ? FRAME_PAD_MM : 0;
    for (int i = 0; i < rows.count; i++) {
        left[i].y = y += i > 0 ? left[i].before : 0;
        y += left[i].height;
    }
    const Row row = {.kind = ROW_PAIR,
                     .before = 2.2,
                     .height = fmax(y, tall),
                     .x = column->x,
                     .width = column->width,
                     .frame = column->frame,
                     .table = -1,
                     .header = -1,
                     .pictures = pictures,
                     .picture_count = placed,
                     .left = left,
                     .left_count = rows.count};
    mem_free(rows.items);
    ARRAY_ADD(column->rows, row);
    return done;
}
