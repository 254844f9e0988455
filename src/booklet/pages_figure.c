#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "booklet/paging.h"

#define SIDE_SCALE 0.99 // of the scale at the whole width: a figure smaller than that goes below
#define FIGURE_TALL_MM 150.0
#define ALL_TALL_MM 150.0
#define ALL_SMALLER 0.8 // and smaller by that part, for what stands on its page
#define ALL_WAYS 3
#define ALL_PRICE 15.0
#define SEAM_TALL_MM 120.0
#define SHELF_BEFORE_MM 3.5 // above the first pictures
#define TALLEST_PART 0.8    // of a page
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

bool place_picture(const Paging *p, const BookPicture *picture, double width, double height, Placed *out) {
    static const PictureKind kinds[] = {[BOOK_PICTURE_ALL] = PICTURE_ALL,
                                        [BOOK_PICTURE_STEP] = PICTURE_STEP,
                                        [BOOK_PICTURE_DRAFT] = PICTURE_DRAFT,
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
                            .page_width = p->width,
                            .page_height = FIGURE_TALL_MM,
                            .marks = p->marks,
                            .colon = language_word(p->book->language, "figure.colon")};
    PictureSize size;
    if (!picture_measure(p->book->pictures, &out->ask, &size))
        return false;
    out->width = size.width;
    out->height = size.height;
    return true;
}

SpanList page_picture_words(Paging *p, const BookPicture *picture, SpanList below) {
    Span *spans = arena_take(&p->arena, sizeof *spans * (size_t)(below.count + 2));
    int count = 0;
    spans[count++] = (Span){.style = SPAN_EMPHASIS, .text = picture->alt};
    if (below.count > 0)
        spans[count++] = (Span){.text = "\n"};
    for (int i = 0; i < below.count; i++)
        spans[count++] = below.items[i];
    return (SpanList){.items = spans, .count = count};
}

static double side_width(const Column *column) {
    return column->width * SIDE_PART;
}

bool picture_is_narrow(const Paging *p, const Column *column, const BookPicture *picture) {
    Placed narrow, wide;
    PictureSize a, b;
    if (picture->kind == BOOK_PICTURE_DRAFT)
        return true; // two of them on the front
    if (picture->kind != BOOK_PICTURE_STEP ||
        !place_picture(p, picture, side_width(column), p->figure_tall, &narrow) ||
        !place_picture(p, picture, column->width, FIGURE_TALL_MM, &wide))
        return false;
    return picture_measure(p->book->pictures, &narrow.ask, &a) &&
           picture_measure(p->book->pictures, &wide.ask, &b) && a.scale >= SIDE_SCALE * b.scale;
}

// part: of the height it may have.
static double tall_for(const Paging *p, const BookPicture *picture, double part) {
    const double most = picture->kind == BOOK_PICTURE_ALL    ? ALL_TALL_MM
                        : picture->kind == BOOK_PICTURE_SEAM ? SEAM_TALL_MM
                                                             : FIGURE_TALL_MM;
    return fmin(most, page_height(p) * TALLEST_PART) * part;
}

void page_pictures(Paging *p, const Column *column, const Placed *pictures, int count, double before) {
    Placed *own = arena_take(&p->arena, sizeof *own * (size_t)count);
    memcpy(own, pictures, sizeof *own * (size_t)count);
    Row row = {ROW_AT(column, 0), .kind = ROW_PICTURES, .before = before, .pictures = own,
               .picture_count = count};
    for (int i = 0; i < count; i++)
        row.height = fmax(row.height, own[i].y + own[i].height);
    ARRAY_ADD(column->rows, row);
}

// The words of a picture that cannot be drawn.
static void add_words(Paging *p, const Column *column, const BookPicture *picture) {
    const SpanList words = page_picture_words(p, picture, (SpanList){0});
    page_lines(column,
               page_text(p, column->small ? TYPE_SMALL : TYPE_BODY, words, column->width, column->language,
                         ALIGN_LEFT),
               SHELF_BEFORE_MM, "P", false);
}

static void add_figure(Paging *p, const Column *column, const BookBlock *figure, double part) {
    Placed *shelf = mem_new(sizeof *shelf * (size_t)(figure->picture_count + 1));
    int count = 0;
    double reached = 0;
    bool first = true, steps = false;
    for (int i = 0; i < figure->picture_count; i++) {
        const BookPicture *picture = &figure->pictures[i];
        const bool narrow = picture_is_narrow(p, column, picture);
        const double width = narrow ? side_width(column) : column->width;
        Placed placed;
        steps = steps || picture->kind == BOOK_PICTURE_STEP;
        if (!place_picture(p, picture, width, narrow ? p->figure_tall : tall_for(p, picture, part),
                           &placed)) {
            if (count > 0)
                page_pictures(p, column, shelf, count, first ? SHELF_BEFORE_MM : PICTURE_GAP_MM);
            add_words(p, column, picture);
            count = 0;
            first = false;
            continue;
        }
        if (count > 0 && reached + PICTURE_GAP_MM + placed.width > column->width) {
            page_pictures(p, column, shelf, count, first ? SHELF_BEFORE_MM : PICTURE_GAP_MM);
            count = 0;
            first = false;
        }
        placed.x = count > 0 ? reached + PICTURE_GAP_MM : 0;
        shelf[count++] = placed;
        reached = placed.x + placed.width;
    }
    if (count > 0)
        page_pictures(p, column, shelf, count, first ? SHELF_BEFORE_MM : PICTURE_GAP_MM);
    mem_free(shelf);
    if (figure->picture_count == 0 || steps ||
        figure->spans.count == 0) // a step's picture has its draft's name in it
        return;
    column->rows->items[column->rows->count - 1].keep = true;
    TypeText *caption =
        page_text(p, TYPE_CAPTION, figure->spans, column->width, column->language, ALIGN_LEFT);
    page_lines(column, caption, 1.5, "Caption", true);
    column->rows->items[column->rows->count - 1].keep = false;
}

void page_figure(Paging *p, const Column *column, const BookBlock *figure) {
    if (column->rows != &p->rows || figure->picture_count != 1 ||
        figure->pictures[0].kind != BOOK_PICTURE_ALL) {
        add_figure(p, column, figure, 1);
        return;
    }
    const int from = joint_here(p), to = joint_new(p);
    double part = 1, before = 0;
    for (int i = 0; i < ALL_WAYS; i++, part *= ALL_SMALLER) {
        const int first = p->rows.count;
        way_begins(p, from);
        add_figure(p, column, figure, part);
        if (p->rows.count > first && p->rows.items[first].height == before)
            p->rows.count = first;
        if (p->rows.count > first) {
            before = p->rows.items[first].height;
            p->rows.items[first].price = ALL_PRICE * i;
        }
        way_ends(p, from, to);
    }
    joint_close(p, from, to);
}
