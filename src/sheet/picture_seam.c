// Both sides of a seam laid out straight, one above the other, from the end where they are matched: joints
// between edges as ticks, notches as triangles, each tied to its partner. At the left, or above and below
// where the picture is narrow, the pieces in small with the edges of the seam dark, so that a hand finds
// them; a dot is where the walk begins.
#include <math.h>
#include <stdio.h>

#include "base/memory.h"
#include "geometry/tolerance.h"
#include "sheet/figure.h"
#include "sheet/font.h"
#include "sheet/plain_name.h"
#include "sheet/seam_parts.h"

#define TOTAL_GAP_MM 3.0   // right of the lines, before the whole length
#define STACKED_MM 100.0   // a narrower picture has its pieces above and below the lines
#define ROW_MM 4.2         // of names
#define THUMB_WIDE_MM 24.0 // a piece in small
#define THUMB_TALL_MM 18.0
#define STACKED_TALL_MM 14.0
#define THUMBS_PART 0.5 // of the width, at most
#define THUMB_GAP_MM 4.0
#define EDGE_MM 1.5
#define NAME_ROWS_MAX 40
#define NOTCH_LEAST_MM 0.9
#define NOTCH_STEP 1.1 // from one of a group to the next, of its size

static void add_length(const SeamPicture *picture, double mm, char *out, size_t size) {
    units_format(mm, picture->pattern->units, out, size);
    number_text_mark(out, picture->ask->marks, out, size);
}

static bool names_touch(const EdgeName *a, const EdgeName *b) {
    return a->row == b->row && fabs(a->centre - b->centre) < (a->width + b->width) / 2 + 2;
}

static bool name_is_free(const SeamSide *side, int index) {
    for (int i = 0; i < index; i++)
        if (names_touch(&side->names[i], &side->names[index]))
            return false;
    return true;
}

// Where a line from the edge to its name passes no other name; false where there is no such place.
static bool find_way(const SeamSide *side, int index, double *way) {
    static const double places[] = {0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9};
    const EdgeName *name = &side->names[index];
    for (size_t k = 0; k < sizeof places / sizeof *places; k++) {
        *way = name->from + (name->to - name->from) * places[k];
        bool clear = fabs(*way - name->centre) < name->width / 2;
        for (int i = 0; i < side->edges->count; i++) {
            const EdgeName *other = &side->names[i];
            clear = clear && (i == index || other->row >= name->row ||
                              fabs(*way - other->centre) > other->width / 2 + 0.8);
        }
        if (clear)
            return true;
    }
    return false;
}

static void name_edges(SeamPicture *picture, SeamSide *side) {
    const Pattern *pattern = picture->pattern;
    double at = 0;
    side->names = mem_new(sizeof *side->names * (size_t)side->edges->count);
    for (int i = 0; i < side->edges->count; i++) {
        const SeamEdge *place = &side->edges->items[i];
        const Piece *piece = &pattern->pieces.items[place->piece];
        const Edge *edge = &piece->edges.items[place->edge];
        const double length = path_length(&edge->path) * picture->scale;
        EdgeName *name = &side->names[i];
        char plain[PLAIN_NAME_MAX], number[48];
        plain_name(edge->name, plain);
        add_length(picture, path_length(&edge->path), number, sizeof number);
        const char *colon = picture->ask->colon != NULL ? picture->ask->colon : ":";
        snprintf(name->words, sizeof name->words, "%.150s%.8s %s %s", piece->name, colon, plain, number);
        const double room = picture->width - 2 * EDGE_MM;
        if (canvas_text_width(TEXT_SMALL, name->words) > room) // the pieces in small tell whose it is
            snprintf(name->words, sizeof name->words, "%s %s", plain, number);
        name->size = fmin(1, room / canvas_text_width(TEXT_SMALL, name->words));
        name->width = canvas_text_width(TEXT_SMALL, name->words) * name->size;
        name->from = at;
        name->to = at += length;
        const double least = name->width / 2, most = picture->width - 2 * EDGE_MM - name->width / 2;
        name->centre = fmax(least, fmin((name->from + name->to) / 2, most));
        for (name->row = 0; name->row < NAME_ROWS_MAX && !name_is_free(side, i); name->row++)
            ;
        side->rows = (int)fmax(side->rows, name->row + 1);
    }
}

static void find_thumbs(SeamSide *side) {
    for (int i = 0; i < side->edges->count; i++) {
        const int piece = side->edges->items[i].piece;
        bool there = false;
        for (int k = 0; k < side->thumb_count; k++)
            there = there || side->thumbs[k] == piece;
        if (!there && side->thumb_count < THUMBS_MAX)
            side->thumbs[side->thumb_count++] = piece;
    }
}

static Box piece_box(const Piece *piece) {
    Box box = box_empty();
    for (int i = 0; i < piece->edges.count; i++)
        box = box_join(box, path_box(&piece->edges.items[i].path));
    return box;
}

// All pieces of a side have room beside each other.
static double thumb_width(const SeamPicture *picture) {
    const double room = picture->stacked ? picture->ask->width : picture->ask->width * THUMBS_PART;
    const int count =
        picture->a.thumb_count > picture->b.thumb_count ? picture->a.thumb_count : picture->b.thumb_count;
    return fmin(THUMB_WIDE_MM, room / count - THUMB_GAP_MM);
}

static double thumb_scale(const SeamPicture *picture, Box box) {
    return fmin(picture->thumb_wide / (box.most.x - box.least.x), THUMB_TALL_MM / (box.most.y - box.least.y));
}

static void measure_thumbs(const SeamPicture *picture, SeamSide *side) {
    for (int i = 0; i < side->thumb_count; i++) {
        const Box box = piece_box(&picture->pattern->pieces.items[side->thumbs[i]]);
        side->thumb_tall = fmax(side->thumb_tall, (box.most.y - box.least.y) * thumb_scale(picture, box));
    }
}

static Point walk_start(const Pattern *pattern, const SeamEdgeList *side) {
    const SeamEdge *first = &side->items[0];
    const Path *path = &pattern->pieces.items[first->piece].edges.items[first->edge].path;
    return first->backward ? path_last(path) : path_first(path);
}

static void draw_thumbs(const SeamPicture *picture, const SeamSide *side, Canvas *canvas, Point at) {
    for (int i = 0; i < side->thumb_count; i++) {
        const Piece *piece = &picture->pattern->pieces.items[side->thumbs[i]];
        const Box box = piece_box(piece);
        const double scale = thumb_scale(picture, box), tall = (box.most.y - box.least.y) * scale;
        const Point low =
            point(at.x + i * (picture->thumb_wide + THUMB_GAP_MM), at.y + (side->thumb_tall + tall) / 2);
        canvas_view(canvas, canvas_place(scale, 0, box.least, low));
        for (int k = 0; k < piece->edges.count; k++)
            canvas_path(canvas, &piece->edges.items[k].path);
        canvas_stroke(canvas, LINE_CONSTRUCTION);
        for (int k = 0; k < piece->edges.count; k++)
            if (seam_side_has(side->edges, side->thumbs[i], k))
                canvas_path(canvas, &piece->edges.items[k].path);
        canvas_stroke(canvas, LINE_DRAFT_EDGE);
        if (side->edges->items[0].piece == side->thumbs[i]) {
            const Point start = walk_start(picture->pattern, side->edges);
            canvas_move(canvas, start);
            canvas_line_to(canvas, start);
            canvas_stroke(canvas, LINE_POINT);
        }
        canvas_paper(canvas);
    }
}

static bool is_matched(const SeamPicture *picture, const SeamSide *side, int notch) {
    for (int i = 0; i < picture->matches.count; i++)
        if ((side == &picture->a ? picture->matches.items[i].notch_a : picture->matches.items[i].notch_b) ==
            notch)
            return true;
    return false;
}

// Those of other seams on the same edge are outlines.
static void draw_notches(const SeamPicture *picture, const SeamSide *side, Canvas *canvas, Point at,
                         double up) {
    const double size = picture->notch;
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < side->notches.count; i++) {
            const SeamNotch *notch = &side->notches.items[i];
            for (int k = 0; k < notch->count && is_matched(picture, side, i) == (pass == 0); k++) {
                const double apart = size * NOTCH_STEP * (k - (notch->count - 1) / 2.0);
                const double x = at.x + notch->at * picture->scale + apart;
                canvas_move(canvas, point(x - size / 2, at.y));
                canvas_line_to(canvas, point(x, at.y + up * -size * 0.9));
                canvas_line_to(canvas, point(x + size / 2, at.y));
                canvas_close(canvas);
            }
        }
        if (canvas->pen.count > 0 && pass == 0)
            canvas_fill(canvas, SHADE_INK);
        else if (canvas->pen.count > 0)
            canvas_stroke(canvas, LINE_CONSTRUCTION);
    }
}

static double notch_size(const SeamPicture *picture) {
    double size = NOTCH_MM;
    for (int s = 0; s < 2; s++) {
        const SeamNotchList *list = s == 0 ? &picture->a.notches : &picture->b.notches;
        for (int i = 0; i < list->count; i++)
            for (int k = 0; k < i; k++) {
                const double apart = fabs(list->items[i].at - list->items[k].at) * picture->scale;
                const double wide = (list->items[i].count + list->items[k].count) / 2.0 * NOTCH_STEP;
                if (apart > POINT_ON_MM)
                    size = fmin(size, (apart - 0.3) / wide);
            }
    }
    return fmax(size, NOTCH_LEAST_MM);
}

// up: names and notches stand above the line (-1 is towards the top of the paper), else below.
static void draw_side(const SeamPicture *picture, const SeamSide *side, Canvas *canvas, Point at, double up) {
    const double end = at.x + side->length * picture->scale;
    canvas_draw_line(canvas, LINE_DRAFT_EDGE, at, point(end, at.y));
    canvas_draw_line(canvas, LINE_POINT, at, at);
    for (int i = 0; i < side->edges->count; i++) {
        const EdgeName *name = &side->names[i];
        const double from = at.x + name->from, to = at.x + name->to;
        canvas_move(canvas, point(from, at.y - 1.6));
        canvas_line_to(canvas, point(from, at.y + 1.6));
        canvas_move(canvas, point(to, at.y - 1.6));
        canvas_line_to(canvas, point(to, at.y + 1.6));
        canvas_stroke(canvas, LINE_DRAFT);
        const double clear = 4.0 + name->row * ROW_MM;
        const double base = up < 0 ? at.y - clear : at.y + clear + text_style(TEXT_SMALL)->size * FONT_CAP;
        double way;
        if (name->row > 0 && find_way(side, i, &way))
            canvas_draw_line(canvas, LINE_DIMENSION, point(at.x + way, at.y + up * 2),
                             point(at.x + way, at.y + up * (clear - 0.8)));
        canvas_text_sized(canvas, TEXT_SMALL, text_style(TEXT_SMALL)->size * name->size, ALIGN_MIDDLE,
                          point(at.x + name->centre, base), 0, name->words);
    }
    draw_notches(picture, side, canvas, at, up);
    char number[48];
    add_length(picture, side->length, number, sizeof number);
    canvas_text(canvas, TEXT_MARK, ALIGN_LEFT,
                point(fmax(end, at.x) + TOTAL_GAP_MM, at.y + text_style(TEXT_MARK)->size * FONT_CAP / 2), 0,
                number);
}

// Right of the lines, for the whole lengths.
static double total_width(const SeamPicture *picture) {
    double width = 0;
    for (int s = 0; s < 2; s++) {
        char number[48];
        add_length(picture, s == 0 ? picture->a.length : picture->b.length, number, sizeof number);
        width = fmax(width, canvas_text_width(TEXT_MARK, number));
    }
    return TOTAL_GAP_MM + width;
}

static double words_tall(const SeamSide *side) {
    return 4 + side->rows * ROW_MM + 1;
}

static void side_begin(SeamPicture *picture, SeamSide *side, const SeamEdgeList *edges, double length,
                       bool on_a) {
    side->edges = edges;
    side->length = length;
    seam_side_notches(picture->pattern, picture->seam, on_a, &side->notches);
    find_thumbs(side);
}

static void side_finish(SeamSide *side) {
    mem_free(side->names);
    mem_free(side->notches.items);
}

bool picture_seam(Pictures *pictures, const PictureAsk *ask, Canvas *canvas, Point at, PictureSize *out) {
    const Pattern *pattern = pictures->pattern;
    const Seam *seam = &pattern->seams.items[ask->seam];
    if (seam->a.count == 0 || seam->b.count == 0)
        return false;
    SeamPicture picture = {.pattern = pattern,
                           .ask = ask,
                           .seam = seam,
                           .walk = seam_walk(pattern, seam),
                           .stacked = ask->width < STACKED_MM};
    SeamSide *const a = &picture.a, *const b = &picture.b;
    side_begin(&picture, a, &seam->a, picture.walk.length_a, true);
    side_begin(&picture, b, &seam->b, picture.walk.length_b, false);
    picture.thumb_wide = thumb_width(&picture);
    measure_thumbs(&picture, a);
    measure_thumbs(&picture, b);
    const double thumbs = fmax(a->thumb_count, b->thumb_count) * (picture.thumb_wide + THUMB_GAP_MM);
    const double beside = picture.stacked ? 0 : thumbs, total = total_width(&picture);
    picture.width = ask->width - beside;
    const double longest = fmax(a->length, b->length);
    picture.scale = picture_scale(longest, 0, picture.width - total - 2 * EDGE_MM, 1);
    name_edges(&picture, a);
    name_edges(&picture, b);
    seam_matches(pattern, seam, &picture.matches);
    picture.notch = notch_size(&picture);
    double reach = longest * picture.scale + total;
    for (int s = 0; s < 2; s++)
        for (int i = 0; i < (s == 0 ? a : b)->edges->count; i++) {
            const EdgeName *name = &(s == 0 ? a : b)->names[i];
            reach = fmax(reach, name->centre + name->width / 2);
        }
    if (picture.stacked)
        reach = fmax(reach, thumbs - THUMB_GAP_MM);
    // From the top: where the lines lie, and the pieces of the second side.
    const double above = a->thumb_tall + THUMB_GAP_MM / 2;
    const double line =
        EDGE_MM + (picture.stacked ? above + words_tall(a) : fmax(words_tall(a), above - APART_MM / 2));
    const double words_end = line + APART_MM + words_tall(b);
    const double under =
        picture.stacked ? words_end + THUMB_GAP_MM / 2 : line + (APART_MM + THUMB_GAP_MM) / 2;
    *out = (PictureSize){.width = beside + reach + 2 * EDGE_MM,
                         .height = EDGE_MM + fmax(words_end, under + b->thumb_tall),
                         .scale = picture.scale};
    if (canvas != NULL) {
        const double left = at.x + EDGE_MM;
        const Point first = point(left + beside, at.y + line), second = point(first.x, first.y + APART_MM);
        canvas_group(canvas, "seam", seam->name);
        draw_thumbs(&picture, a, canvas, point(left, at.y + EDGE_MM));
        seam_draw_rungs(&picture, canvas, first, second);
        draw_side(&picture, a, canvas, first, -1);
        draw_side(&picture, b, canvas, second, 1);
        draw_thumbs(&picture, b, canvas, point(left, at.y + under));
        canvas_group_end(canvas);
    }
    side_finish(a);
    side_finish(b);
    mem_free(picture.matches.items);
    return true;
}
