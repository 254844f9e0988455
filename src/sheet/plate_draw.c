#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/grain.h"
#include "sheet/plate.h"
#include "sheet/plate_words.h"

// Order of drawing: what is cut, what is sewn, folds, lines inside, grain, notches, dots, words, and over all
// of them the flags of what is not proven. Lengths given here in mm of paper are divided by the scale of the
// drawing.

#define HATCHES_MAX 400

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

// The cut line, left open where the piece is placed on the fold of the cloth.
static void draw_cut(const Plate *plate, Canvas *canvas) {
    if (!has_fold(plate->piece)) {
        canvas_draw_path(canvas, LINE_CUT, &plate->cut);
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
    canvas_stroke(canvas, LINE_CUT);
    path_finish(&run);
}

static void draw_seams(const Plate *plate, Canvas *canvas) {
    bool any = false;
    for (int i = 0; i < plate->piece->edges.count; i++) {
        const Edge *edge = &plate->piece->edges.items[i];
        if (edge->fold || edge->allowance <= 0)
            continue;
        canvas_path(canvas, &edge->path);
        any = true;
    }
    if (any)
        canvas_stroke(canvas, LINE_STITCH);
}

// Words in the middle of a line, readable from below or from the right of the paper, on the side away from
// `keep_off` where that is given.
static void draw_words_along(const Plate *plate, Canvas *canvas, TextKind kind, Point at, Point along,
                             double offset, const char *words) {
    double degrees = point_angle(along), seen = fmod(degrees + canvas->turn + 720, 360);
    if (seen > 90.0001 && seen <= 270.0001)
        degrees += 180;
    Point up = point_polar(point(0, 0), degrees + 90, 1);
    canvas_text_sized(canvas, kind, text_style(kind)->size * plate->fine, ALIGN_MIDDLE,
                      point_add(at, point_scale(up, offset)), degrees, words);
}

// Where between the arrows of the bracket (0 to 1) words of that width, in the piece's mm, keep clear of dots
// and their names; the middle where no place does.
static double fold_words_at(const Plate *plate, const Point bracket[4], double width) {
    static const double places[] = {0.5, 0.3, 0.7, 0.2, 0.8};
    double mm = plate->fine / plate->scale, length = point_distance(bracket[0], bracket[3]);
    Point along = point_unit(point_sub(bracket[3], bracket[0]));
    for (int i = 0; i < 5; i++) {
        double at = places[i] * length, half = width / 2 + 3 * mm;
        bool clear = at >= half && at <= length - half;
        for (int k = 0; k < plate->piece->dots.count && clear; k++) {
            Point beside = point_sub(plate->piece->dots.items[k].at, bracket[0]);
            bool near = fabs(point_cross(along, beside)) < 20 * mm;
            clear = !near || fabs(point_dot(along, beside) - at) > half + 2 * mm;
        }
        if (clear)
            return places[i];
    }
    return 0.5;
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
    canvas_stroke(canvas, LINE_GRAIN);
    canvas_draw_arrow_head(canvas, SHADE_INK, bracket[0], bracket[1], 3.2 * plate->fine);
    canvas_draw_arrow_head(canvas, SHADE_INK, bracket[3], bracket[2], 3.2 * plate->fine);
    static const char *const words[] = {"place on fold", "fold"};
    double room = point_distance(bracket[0], bracket[3]) / mm - 7;
    for (int i = 0; i < 2; i++) {
        double width = canvas_text_width(TEXT_BODY, words[i]);
        if (width > room)
            continue;
        double at = fold_words_at(plate, bracket, width * mm);
        Point middle = point_add(point_mix(bracket[0], bracket[3], at),
                                 point_scale(point_sub(bracket[1], bracket[0]), 0.5));
        draw_words_along(plate, canvas, TEXT_BODY, middle, point_sub(to, from), -1.2 * mm, words[i]);
        break;
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
    double mm = plate->fine / plate->scale;
    for (int kind = INNER_FOLD; kind <= INNER_MATCH; kind++)
        for (int i = 0; i < plate->piece->lines.count; i++) {
            const InnerLine *line = &plate->piece->lines.items[i];
            if (line->kind != (InnerKind)kind || line->path.count == 0)
                continue;
            canvas_draw_path(canvas, inner_looks[kind].line, &line->path);
        }
    for (int i = 0; i < plate->piece->lines.count; i++) {
        const InnerLine *line = &plate->piece->lines.items[i];
        const char *words =
            inner_looks[line->kind].words != NULL ? inner_looks[line->kind].words : line->name;
        double length = path_length(&line->path);
        if (words == NULL || length / mm < canvas_text_width(TEXT_SMALL, words) * 1.5)
            continue;
        PathSpot spot;
        if (path_spot_at(&line->path, length * 0.3, &spot) != GEOM_OK)
            continue;
        draw_words_along(plate, canvas, TEXT_SMALL, path_spot_point(&line->path, spot),
                         path_spot_direction(&line->path, spot), 1.0 * mm, words);
    }
}

// A place along the grain line where words of that width (in the piece's mm) cross no other line, from the
// middle outward.
static double grain_words_at(const Plate *plate, double width) {
    static const double places[] = {0.5, 0.35, 0.65, 0.25, 0.75};
    const Line *grain = &plate->grain;
    double length = point_distance(grain->from, grain->to), half = width / 2 / length;
    for (int i = 0; i < 5; i++) {
        if (places[i] - half < 0.06 || places[i] + half > 0.94)
            continue;
        Line words = {point_mix(grain->from, grain->to, places[i] - half),
                      point_mix(grain->from, grain->to, places[i] + half)};
        bool clear = true;
        for (int k = 0; k < plate->inner.count && clear; k++)
            clear = !lines_cross(words, plate->inner.items[k]);
        if (clear)
            return places[i];
    }
    return 0.5;
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
    bool bias = piece_is_true_bias(plate->piece), one_way = plate->piece->one_way;
    const char *words = bias      ? (one_way ? "true bias, one way" : "true bias")
                        : one_way ? "grain, one way"
                                  : "grain";
    double length = point_distance(grain->from, grain->to);
    double width = canvas_text_width(TEXT_SMALL, words) * mm;
    if (length > width + 12 * mm)
        draw_words_along(plate, canvas, TEXT_SMALL,
                         point_mix(grain->from, grain->to, grain_words_at(plate, width + 4 * mm)), along,
                         1.0 * mm, words);
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
    for (int i = 0; i < plate->piece->dots.count; i++) {
        const Dot *dot = &plate->piece->dots.items[i];
        Point beside = point_add(dot->at, point(3.4 * mm, 1.2 * mm));
        canvas_text_sized(canvas, TEXT_SMALL, text_style(TEXT_SMALL)->size * plate->fine, ALIGN_LEFT, beside,
                          -canvas->turn, dot->name);
    }
}

// Hatching on the outer side of the edge, 4 mm deep, a stroke every 2.5 mm of paper; never more than
// HATCHES_MAX.
static void hatch_edge(const Plate *plate, Canvas *canvas, const Edge *edge) {
    double mm = 1 / plate->scale, length = path_length(&edge->path);
    double apart = fmax(2.5 * mm, length / HATCHES_MAX);
    for (double at = 0; at <= length; at += apart) {
        PathSpot spot;
        if (path_spot_at(&edge->path, at, &spot) != GEOM_OK)
            break;
        Point p = path_spot_point(&edge->path, spot), along = path_spot_direction(&edge->path, spot);
        Point out = edge->backward ? point_left(along) : point_right(along);
        canvas_move(canvas, p);
        canvas_line_to(canvas, point_add(p, point_scale(point_add(out, point_scale(along, 0.6)), 4 * mm)));
    }
    canvas_path(canvas, &edge->path);
    canvas_stroke(canvas, LINE_FLAG);
}

static void draw_flag(const Plate *plate, Canvas *canvas, const Proof *proof, int row) {
    double mm = 1 / plate->scale;
    Point at = plate->label_at;
    const Edge *edge = NULL;
    if (proof->edge >= 0 && proof->edge < plate->piece->edges.count) {
        edge = &plate->piece->edges.items[proof->edge];
        hatch_edge(plate, canvas, edge);
        PathSpot spot;
        if (path_spot_at(&edge->path, path_length(&edge->path) / 2, &spot) == GEOM_OK)
            at = path_spot_point(&edge->path, spot);
    }
    Buffer words;
    buffer_init(&words);
    buffer_add_format(&words, "NOT PROVEN: %s", proof->what);
    double width = canvas_text_width(TEXT_FLAG, words.data) + 4;
    // Upright on the paper whatever the view's turn, and inside the drawing's bounds where it is wide enough.
    double half = width / 2 * mm;
    if (canvas->turn == 0)
        at.x = fmin(fmax(at.x, plate->box.least.x + half),
                    fmax(plate->box.most.x - half, plate->box.least.x + half));
    at.y -= row * 7 * mm;
    Affine upright = affine_swing(at, -canvas->turn);
    const double corners[4][2] = {{-half, -2 * mm}, {half, -2 * mm}, {half, 4 * mm}, {-half, 4 * mm}};
    for (int i = 0; i < 4; i++) {
        Point p = affine_point(upright, point(at.x + corners[i][0], at.y + corners[i][1]));
        if (i == 0)
            canvas_move(canvas, p);
        else
            canvas_line_to(canvas, p);
    }
    canvas_close(canvas);
    canvas_fill(canvas, SHADE_FLAG);
    canvas_text(canvas, TEXT_FLAG, ALIGN_MIDDLE, at, -canvas->turn, words.data);
    buffer_finish(&words);
}

void plate_draw(const Plate *plate, Canvas *canvas) {
    canvas_group(canvas, "piece", plate->piece->name);
    draw_cut(plate, canvas);
    draw_seams(plate, canvas);
    for (int i = 0; i < plate->piece->edges.count; i++)
        if (plate->piece->edges.items[i].fold)
            draw_fold_edge(plate, canvas, &plate->piece->edges.items[i]);
    draw_inner_lines(plate, canvas);
    draw_grain(plate, canvas);
    draw_notches(plate, canvas);
    draw_dots(plate, canvas);
    plate_draw_label(plate, canvas);
    int row = 0;
    for (int i = 0; plate->unproven && i < plate->pattern->proofs.count; i++) {
        const Proof *proof = &plate->pattern->proofs.items[i];
        if (proof->piece == plate->index && !proof->holds && !proof->accepted)
            draw_flag(plate, canvas, proof, row++);
    }
    canvas_group_end(canvas);
}

void plate_draw_small(const Plate *plate, Canvas *canvas) {
    canvas_path(canvas, &plate->cut);
    canvas_fill_stroke(canvas, cloth_shade(plate->piece->cloth), LINE_INNER);
}
