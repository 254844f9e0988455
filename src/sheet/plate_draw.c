#include <math.h>

#include "pattern/grain.h"
#include "sheet/lettering.h"
#include "sheet/plain_name.h"
#include "sheet/plate.h"
#include "sheet/plate_flags.h"
#include "sheet/plate_words.h"

// Order of drawing: what is cut, what is sewn, folds, lines inside, grain, notches, dots, words, and over all
// of them the flags of what is not proven. Lengths given here in mm of paper are divided by the scale of the
// drawing.

static bool on_line(Point p, Point a, Point b) {
    Point foot;
    return point_foot_on_line(p, a, b, &foot) == GEOM_OK && point_distance(p, foot) <= 2 * POINT_ON_MM;
}

static bool lies_on_fold(const Piece *piece, const Segment *s) {
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *edge = &piece->edges.items[i];
        if (!edge->fold)
            continue;
        Point a = path_first(&edge->path), b = path_last(&edge->path);
        if (on_line(s->p0, a, b) && on_line(s->p3, a, b) && on_line(segment_point(s, 0.5), a, b))
            return true;
    }
    return false;
}

static bool has_fold(const Piece *piece) {
    for (int i = 0; i < piece->edges.count; i++)
        if (piece->edges.items[i].fold)
            return true;
    return false;
}

#define SKETCH_ALLOWANCE_MM 1.2 // of paper: a seam line nearer to the cut line runs into it

// The cut line, left open where the piece is placed on the fold of the cloth.
static void draw_cut(const Plate *plate, Canvas *canvas) {
    const LineKind kind = plate->sketch ? LINE_DRAFT : LINE_CUT;
    if (!has_fold(plate->piece)) {
        canvas_draw_path(canvas, kind, &plate->cut);
        return;
    }
    Path run = {.items = NULL};
    int count = plate->cut.count, start = 0;
    while (start < count && !lies_on_fold(plate->piece, &plate->cut.items[start]))
        start++;
    for (int i = 1; i <= count; i++) {
        const Segment *s = &plate->cut.items[(start + i) % count];
        if (!lies_on_fold(plate->piece, s)) {
            path_add(&run, *s);
            continue;
        }
        canvas_path(canvas, &run);
        path_clear(&run);
    }
    canvas_stroke(canvas, kind);
    path_finish(&run);
}

static void draw_seams(const Plate *plate, Canvas *canvas) {
    bool any = false;
    for (int i = 0; i < plate->piece->edges.count; i++) {
        const Edge *edge = &plate->piece->edges.items[i];
        if (edge->fold || edge->allowance <= 0 ||
            (plate->sketch &&
             (!plate_shows_marks(plate) || edge->allowance * plate->scale < SKETCH_ALLOWANCE_MM)))
            continue;
        canvas_path(canvas, &edge->path);
        any = true;
    }
    if (any)
        canvas_stroke(canvas, LINE_STITCH);
}

// A bracket: a line beside the fold whose ends turn at right angles to the edge and point at it.
static void draw_fold_edge(const Plate *plate, Canvas *canvas, const Edge *edge) {
    double mm = plate->fine / plate->scale;
    Point from = path_first(&edge->path), to = path_last(&edge->path), bracket[4];
    // The fold runs on through the allowances of its neighbours.
    for (int i = 0; i < plate->cut.count; i++) {
        const Segment *s = &plate->cut.items[i];
        if (on_line(s->p0, from, to) && on_line(s->p3, from, to))
            canvas_draw_line(canvas, LINE_FOLD_EDGE, s->p0, s->p3);
    }
    plate_fold_bracket(plate, edge, bracket);
    double neck = 2 * mm / point_distance(bracket[0], bracket[1]); // the line ends inside the arrow heads
    canvas_move(canvas, point_mix(bracket[0], bracket[1], neck));
    canvas_line_to(canvas, bracket[1]);
    canvas_line_to(canvas, bracket[2]);
    canvas_line_to(canvas, point_mix(bracket[3], bracket[2], neck));
    canvas_stroke(canvas, plate->sketch ? LINE_DRAFT : LINE_BRACKET);
    canvas_draw_arrow_head(canvas, SHADE_INK, bracket[0], bracket[1], 3.2 * plate->fine);
    canvas_draw_arrow_head(canvas, SHADE_INK, bracket[3], bracket[2], 3.2 * plate->fine);
}

// Places along a line from its middle outward, parts of its length.
static const double along_places[] = {0.5, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85};
enum { ALONG_PLACES = sizeof along_places / sizeof *along_places };

// Between the arrows of the bracket.
static void draw_fold_words(const Plate *plate, Canvas *canvas, Lettering *lettering, const Edge *edge) {
    Point bracket[4];
    if (!plate_fold_bracket(plate, edge, bracket))
        return;
    static const char *const words[] = {"place on fold", "fold"};
    const double mm = plate->fine / plate->scale, length = point_distance(bracket[0], bracket[3]);
    const Point in = point_scale(point_sub(bracket[1], bracket[0]), 0.5);
    const Point along = point_unit(point_sub(bracket[3], bracket[0]));
    for (int i = 0; i < 2; i++) {
        const double room = canvas_text_width(TEXT_BODY, words[i]) * mm + 7 * mm;
        Words places[ALONG_PLACES];
        int count = 0;
        for (int k = 0; k < ALONG_PLACES; k++) {
            const double at = along_places[k] * length;
            if (at >= room / 2 && at <= length - room / 2)
                places[count++] =
                    lettering_words(lettering, TEXT_BODY, words[i],
                                    point_add(point_mix(bracket[0], bracket[3], along_places[k]), in), along);
        }
        const int chosen = lettering_choose(lettering, places, count);
        if (chosen < 0)
            continue;
        lettering_draw(lettering, canvas, TEXT_BODY, words[i], &places[chosen]);
        return;
    }
}

static const struct {
    LineKind line;
    const char *words; // NULL: the line's own name
} inner_looks[] = {
    [INNER_FOLD] = {LINE_FOLD, "fold"},       [INNER_ROLL] = {LINE_ROLL, "roll line"},
    [INNER_CENTRE] = {LINE_CENTRE, "centre"}, [INNER_LINE] = {LINE_INNER, NULL},
    [INNER_MATCH] = {LINE_MATCH, NULL},
};

static void draw_inner_lines(const Plate *plate, Canvas *canvas) {
    for (int kind = INNER_FOLD; kind <= INNER_MATCH; kind++)
        for (int i = 0; i < plate->piece->lines.count; i++) {
            const InnerLine *line = &plate->piece->lines.items[i];
            if (line->kind != (InnerKind)kind || line->path.count == 0)
                continue;
            canvas_draw_path(canvas, inner_looks[kind].line, &line->path);
        }
}

// Beside a line of that length, on either side of it, where they are inside the piece.
static void draw_inner_words(const Plate *plate, Canvas *canvas, Lettering *lettering,
                             const InnerLine *line) {
    const double mm = plate->fine / plate->scale, length = path_length(&line->path);
    char words[PLAIN_NAME_MAX];
    plain_name(inner_looks[line->kind].words != NULL ? inner_looks[line->kind].words : line->name, words);
    if (words[0] == '\0' || length / mm < canvas_text_width(TEXT_SMALL, words) * 1.5)
        return;
    Words places[2 * ALONG_PLACES];
    int count = 0;
    for (int i = 0; i < ALONG_PLACES; i++)
        for (int side = 0; side < 2; side++) {
            PathSpot spot;
            if (path_spot_at(&line->path, length * along_places[(i + 1) % ALONG_PLACES], &spot) != GEOM_OK)
                continue;
            const Point along = path_spot_direction(&line->path, spot);
            Words *place = &places[count++];
            *place = lettering_words(lettering, TEXT_SMALL, words, path_spot_point(&line->path, spot), along);
            const double off = (side == 0 ? 1 : -1) * (place->half_height + 0.5 * mm);
            place->centre = point_add(place->centre, point_scale(point_left(place->along), off));
        }
    const int chosen = lettering_choose(lettering, places, count);
    if (chosen >= 0)
        lettering_draw(lettering, canvas, TEXT_SMALL, words, &places[chosen]);
}

static void draw_grain(const Plate *plate, Canvas *canvas) {
    if (!plate->has_grain)
        return;
    const Line *grain = &plate->grain;
    double mm = plate->fine / plate->scale, head = 5;
    Point along = point_unit(point_sub(grain->to, grain->from));
    Point from = point_add(grain->from, point_scale(along, plate->piece->one_way ? 0 : head * 0.8 * mm));
    canvas_draw_line(canvas, LINE_GRAIN, from, point_sub(grain->to, point_scale(along, head * 0.8 * mm)));
    canvas_draw_arrow_head(canvas, SHADE_INK, grain->to, grain->from, head * plate->fine);
    if (!plate->piece->one_way)
        canvas_draw_arrow_head(canvas, SHADE_INK, grain->from, grain->to, head * plate->fine);
}

static void draw_grain_words(const Plate *plate, Canvas *canvas, Lettering *lettering) {
    if (!plate->has_grain)
        return;
    const Line *grain = &plate->grain;
    const bool bias = piece_is_called_bias(plate->piece), one_way = plate->piece->one_way;
    const char *words = bias      ? (one_way ? "true bias, one way" : "true bias")
                        : one_way ? "grain, one way"
                                  : "grain";
    const double mm = plate->fine / plate->scale, length = point_distance(grain->from, grain->to);
    const Point along = point_unit(point_sub(grain->to, grain->from));
    Words places[2 * ALONG_PLACES];
    int count = 0;
    for (int i = 0; i < ALONG_PLACES; i++)
        for (int side = 0; side < 2; side++) {
            Words place = lettering_words(lettering, TEXT_SMALL, words,
                                          point_mix(grain->from, grain->to, along_places[i]), along);
            const double at = along_places[i] * length, room = place.half_width + 6 * mm;
            if (at < room || at > length - room)
                continue;
            const double off = (side == 0 ? 1 : -1) * (place.half_height + 0.4 * mm);
            place.centre = point_add(place.centre, point_scale(point_left(place.along), off));
            places[count++] = place;
        }
    const int chosen = lettering_choose(lettering, places, count);
    if (chosen >= 0)
        lettering_draw(lettering, canvas, TEXT_SMALL, words, &places[chosen]);
}

// A tick at right angles to the seam line across the allowance, and a triangle on the cut line, 4 mm at its
// base.
static void draw_notches(const Plate *plate, Canvas *canvas) {
    if (plate->notches.count == 0)
        return;
    double size = plate_notch_size(plate);
    for (int i = 0; i < plate->notches.count; i++) {
        canvas_move(canvas, plate->notches.items[i].seam);
        canvas_line_to(canvas, plate->notches.items[i].cut);
    }
    canvas_stroke(canvas, LINE_NOTCH);
    for (int i = 0; i < plate->notches.count; i++) {
        const NotchMark *mark = &plate->notches.items[i];
        Point base = mark->inward ? mark->seam : mark->cut;
        Point out = point_unit(point_sub(mark->cut, mark->seam));
        if (mark->inward)
            out = point_scale(out, -1);
        Point side = point_scale(point_left(out), size / 2);
        canvas_move(canvas, point_add(base, side));
        canvas_line_to(canvas, point_add(base, point_scale(out, size * 0.8)));
        canvas_line_to(canvas, point_sub(base, side));
        canvas_close(canvas);
    }
    canvas_fill(canvas, SHADE_INK);
}

static void draw_dots(const Plate *plate, Canvas *canvas) {
    double mm = plate->fine / plate->scale;
    for (int i = 0; i < plate->piece->dots.count; i++) {
        const Dot *dot = &plate->piece->dots.items[i];
        double radius = (dot->kind == DOT_PIVOT ? 2.2 : 1.5) * plate->fine,
               reach = (dot->kind == DOT_PIVOT ? 2.2 : 2.6) * mm;
        canvas_circle(canvas, dot->at, radius);
        canvas_move(canvas, point(dot->at.x - reach, dot->at.y));
        canvas_line_to(canvas, point(dot->at.x + reach, dot->at.y));
        canvas_move(canvas, point(dot->at.x, dot->at.y - reach));
        canvas_line_to(canvas, point(dot->at.x, dot->at.y + reach));
    }
    if (plate->piece->dots.count > 0)
        canvas_stroke(canvas, LINE_DOT);
}

// Upright on the paper, round the dot, near it before further off; right of it where no place is free.
static void draw_dot_name(const Plate *plate, Canvas *canvas, Lettering *lettering, const Dot *dot) {
    static const double sides[][2] = {{1, 0}, {-1, 0}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}, {0, 1}, {0, -1}};
    enum { SIDES = sizeof sides / sizeof *sides, RINGS = 4 };
    char name[PLAIN_NAME_MAX];
    plain_name(dot->name, name);
    if (name[0] == '\0')
        return;
    const double mm = plate->fine / plate->scale;
    const Point right = point_polar(point(0, 0), -canvas->turn, 1), up = point_left(right);
    const Words middle = lettering_words(lettering, TEXT_SMALL, name, dot->at, right);
    Words places[SIDES * RINGS];
    for (int i = 0; i < SIDES * RINGS; i++) {
        const double *side = sides[i % SIDES], gap = (2.8 + 3.0 * (i / SIDES)) * mm;
        const double across = side[0] * (middle.half_width + gap),
                     away = side[1] * (middle.half_height + (side[0] == 0 ? gap : 0.7 * gap));
        places[i] = middle;
        places[i].centre = point_add(dot->at, point_add(point_scale(right, across), point_scale(up, away)));
    }
    const int chosen = lettering_choose(lettering, places, SIDES * RINGS);
    lettering_draw(lettering, canvas, TEXT_SMALL, name, &places[chosen < 0 ? 0 : chosen]);
}

static void draw_small_words(const Plate *plate, Canvas *canvas) {
    const Piece *piece = plate->piece;
    Lettering lettering;
    lettering_init(&lettering, plate, canvas->turn);
    for (int i = 0; i < piece->edges.count; i++)
        draw_fold_words(plate, canvas, &lettering, &piece->edges.items[i]);
    for (int i = 0; i < piece->dots.count; i++)
        draw_dot_name(plate, canvas, &lettering, &piece->dots.items[i]);
    for (int i = 0; i < piece->lines.count; i++)
        draw_inner_words(plate, canvas, &lettering, &piece->lines.items[i]);
    draw_grain_words(plate, canvas, &lettering);
    lettering_finish(&lettering);
}

static void draw_lines(const Plate *plate, Canvas *canvas) {
    draw_cut(plate, canvas);
    draw_seams(plate, canvas);
    for (int i = 0; i < plate->piece->edges.count; i++)
        if (plate->piece->edges.items[i].fold)
            draw_fold_edge(plate, canvas, &plate->piece->edges.items[i]);
    draw_inner_lines(plate, canvas);
    draw_grain(plate, canvas);
    if (!plate_shows_marks(plate))
        return;
    draw_notches(plate, canvas);
    draw_dots(plate, canvas);
}

void plate_draw(const Plate *plate, Canvas *canvas) {
    canvas_group(canvas, "piece", plate->piece->name);
    draw_lines(plate, canvas);
    draw_small_words(plate, canvas);
    plate_draw_label(plate, canvas);
    plate_draw_flags(plate, canvas);
    canvas_group_end(canvas);
}

void plate_draw_sketch(const Plate *plate, Canvas *canvas) {
    draw_lines(plate, canvas);
}

void plate_draw_small(const Plate *plate, Canvas *canvas) {
    canvas_path(canvas, &plate->cut);
    canvas_fill_stroke(canvas, cloth_shade(plate->piece->cloth), LINE_INNER);
}
