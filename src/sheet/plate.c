#include "sheet/plate.h"

#include <math.h>

#include "base/memory.h"
#include "pattern/allowance.h"
#include "pattern/grain.h"

#define CORNERS_MM 0.3      // an outline as corners, for finding room
#define SKETCH_MARKS 0.16   // the scale from which on a sketch has notches and dots
#define NOTCH_INWARD_MM 5.0 // where there is no allowance to cross

static void add_notches(Plate *plate, const Notch *notch) {
    const Edge *edge = &plate->piece->edges.items[notch->edge];
    Point on_seam[NOTCH_COUNT_MAX], outward[NOTCH_COUNT_MAX];
    int count = piece_notch_places(plate->piece, notch, on_seam, outward);
    bool inward = edge->allowance < 2;
    double reach = inward ? -NOTCH_INWARD_MM : edge->allowance;
    for (int i = 0; i < count; i++) {
        Point cut = point_add(on_seam[i], point_scale(outward[i], reach));
        ARRAY_ADD(&plate->notches, ((NotchMark){.seam = on_seam[i], .cut = cut, .inward = inward}));
        ARRAY_ADD(&plate->keep, on_seam[i]);
        ARRAY_ADD(&plate->keep, cut);
    }
}

// Its ends and three points between: a fold along a band has them all in it, one across it hardly any.
static void keep_line(Plate *plate, const Path *path) {
    for (int i = 0; i <= 4; i++)
        ARRAY_ADD(&plate->keep, point_mix(path_first(path), path_last(path), i / 4.0));
}

#define BRACKET_DEEP_MM 9.0
#define BRACKET_LEAST_MM 3.0

static bool bracket_at(const Plate *plate, const Edge *edge, double deep, Point bracket[4]) {
    const double mm = plate->fine / plate->scale;
    const Point from = path_first(&edge->path), to = path_last(&edge->path);
    const Point along = point_unit(point_sub(to, from));
    const Point in = point_scale(edge->backward ? point_right(along) : point_left(along), deep * mm);
    const Point half = point_scale(along, fmin(point_distance(from, to) * 0.3, 70 * mm));
    const Point middle = point_mix(from, to, 0.5);
    bracket[0] = point_sub(middle, half);
    bracket[1] = point_add(bracket[0], in);
    bracket[3] = point_add(middle, half);
    bracket[2] = point_add(bracket[3], in);
    return polygon_contains(&plate->outside, bracket[1]) && polygon_contains(&plate->outside, bracket[2]) &&
           !(plate->has_grain &&
             line_touches_box(plate->grain, box_add((Box){bracket[0], bracket[0]}, bracket[2])));
}

// In the middle of the edge, at most 140 mm long and so deep that it stays inside the piece and off the grain
// line.
bool plate_fold_bracket(const Plate *plate, const Edge *edge, Point bracket[4]) {
    if (!edge->fold)
        return false;
    double deep = BRACKET_DEEP_MM;
    while (!bracket_at(plate, edge, deep, bracket) && deep > BRACKET_LEAST_MM)
        deep *= 0.75;
    return true;
}

bool plate_shows_marks(const Plate *plate) {
    return !plate->sketch || plate->scale >= SKETCH_MARKS;
}

double plate_notch_size(const Plate *plate) {
    return fmax(4, (plate->sketch ? 1.1 : 1.6) / plate->scale);
}

static void find_bounds(Plate *plate) {
    double notch = plate_notch_size(plate);
    plate->box = path_box(&plate->cut);
    for (int i = 0; i < plate->notches.count && plate_shows_marks(plate); i++) {
        const NotchMark *mark = &plate->notches.items[i];
        Point away = point_scale(point_unit(point_sub(mark->cut, mark->seam)), mark->inward ? 0 : notch);
        plate->box = box_add(plate->box, point_add(mark->cut, away));
    }
    for (int i = 0; i < plate->piece->dots.count; i++)
        plate->box = box_add(plate->box, plate->piece->dots.items[i].at);
    for (int i = 0; i < plate->piece->lines.count; i++)
        plate->box = box_join(plate->box, path_box(&plate->piece->lines.items[i].path));
    if (plate->unproven) {
        double room = 5 / plate->scale;
        plate->box.least = point_sub(plate->box.least, point(room, room));
        plate->box.most = point_add(plate->box.most, point(room, room));
    }
}

static bool fault_piece(Fault *fault, const Piece *piece, const char *why) {
    fault_set(fault, NULL, 0, "the piece \"%s\" cannot be drawn: %s", piece->name, why);
    return false;
}

static bool marks_finite(const Piece *piece) {
    for (int i = 0; i < piece->lines.count; i++)
        if (!path_finite(&piece->lines.items[i].path))
            return false;
    for (int i = 0; i < piece->dots.count; i++)
        if (!point_finite(piece->dots.items[i].at))
            return false;
    for (int i = 0; i < piece->edges.count; i++)
        if (!(piece->edges.items[i].allowance <= COORDINATE_LIMIT_MM))
            return false;
    return piece->grain == GRAIN_NONE || fabs(piece->grain_angle) <= COORDINATE_LIMIT_MM;
}

// Set up to its scale.
static bool work_out(Plate *plate, Fault *fault) {
    const Pattern *pattern = plate->pattern;
    const Piece *piece = plate->piece;
    const int index = plate->index;
    GeomError error = piece_cut_outline(piece, &plate->cut);
    if (error == GEOM_OK && !path_finite(&plate->cut))
        error = GEOM_NOT_FINITE;
    if (error != GEOM_OK)
        return fault_piece(fault, piece, geom_error_text(error));

    if (!marks_finite(piece))
        return fault_piece(fault, piece, geom_error_text(GEOM_NOT_FINITE));

    Path seam = {.items = NULL};
    piece_outline(piece, &seam);
    polygon_from_path(&plate->cut, CORNERS_MM, &plate->outside);
    polygon_from_path(&seam, CORNERS_MM, &plate->inside);
    path_finish(&seam);

    for (int i = 0; i < piece->edges.count; i++)
        ARRAY_ADD(&plate->keep, path_first(&piece->edges.items[i].path));
    for (int i = 0; i < piece->dots.count; i++)
        ARRAY_ADD(&plate->keep, piece->dots.items[i].at);
    for (int i = 0; i < piece->notches.count; i++)
        add_notches(plate, &piece->notches.items[i]);
    for (int i = 0; i < piece->edges.count; i++)
        if (piece->edges.items[i].fold)
            keep_line(plate, &piece->edges.items[i].path);
    for (int i = 0; i < piece->lines.count; i++)
        if (piece->lines.items[i].kind == INNER_FOLD && piece->lines.items[i].path.count > 0)
            keep_line(plate, &piece->lines.items[i].path);
    for (int i = 0; i < piece->lines.count; i++)
        lines_add_path(&plate->inner, &piece->lines.items[i].path, 0.5);
    plate->has_grain = piece_grain_line(piece, &plate->grain.from, &plate->grain.to);
    for (int i = 0; i < pattern->proofs.count; i++) {
        const Proof *proof = &pattern->proofs.items[i];
        plate->unproven |= proof->piece == index && !proof->holds && !proof->accepted;
    }
    find_bounds(plate);
    return true;
}

bool plate_init(Plate *plate, const Pattern *pattern, int index, double scale, Fault *fault) {
    *plate =
        (Plate){.pattern = pattern, .piece = &pattern->pieces.items[index], .index = index, .scale = scale};
    plate->fine = fmin(fmax(sqrt(scale), 0.6), 1);
    return work_out(plate, fault);
}

static double sketch_fine(double scale) {
    return fmin(fmax(0.75 * sqrt(scale), 0.25), 1);
}

bool plate_init_sketch(Plate *plate, const Pattern *pattern, int index, double scale, Fault *fault) {
    *plate = (Plate){.pattern = pattern,
                     .piece = &pattern->pieces.items[index],
                     .index = index,
                     .scale = scale,
                     .sketch = true};
    plate->fine = sketch_fine(scale);
    return work_out(plate, fault);
}

void plate_sketch_at(const Plate *plate, double scale, Plate *out) {
    *out = *plate;
    out->scale = scale;
    out->fine = sketch_fine(scale);
    find_bounds(out);
}

void plate_finish(Plate *plate) {
    path_finish(&plate->cut);
    polygon_finish(&plate->outside);
    polygon_finish(&plate->inside);
    polygon_finish(&plate->keep);
    mem_free(plate->inner.items);
    mem_free(plate->notches.items);
    *plate = (Plate){.piece = NULL};
}
