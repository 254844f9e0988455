#include "sheet/plate_flags.h"

#include <math.h>

#include "base/buffer.h"

#define HATCHES_MAX 400 // along one edge
#define FLAG_UP_MM 4.0  // above the base line of the words, mm of paper
#define FLAG_DOWN_MM 2.0

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

static bool is_flagged(const Plate *plate, const Proof *proof) {
    return proof->piece == plate->index && !proof->holds && !proof->accepted;
}

static const Edge *flagged_edge(const Plate *plate, const Proof *proof) {
    const bool has_edge = proof->edge >= 0 && proof->edge < plate->piece->edges.count;
    return has_edge ? &plate->piece->edges.items[proof->edge] : NULL;
}

static bool edge_flagged(const Plate *plate, int edge) {
    for (int i = 0; i < plate->pattern->proofs.count; i++)
        if (is_flagged(plate, &plate->pattern->proofs.items[i]) &&
            plate->pattern->proofs.items[i].edge == edge)
            return true;
    return false;
}

// All that the piece covers of the paper.
static Box piece_on_paper(const Plate *plate, Affine view) {
    const Point a = affine_point(view, plate->box.least), b = affine_point(view, plate->box.most);
    return (Box){{fmin(a.x, b.x), fmin(a.y, b.y)}, {fmax(a.x, b.x), fmax(a.y, b.y)}};
}

static bool meets_any(Box box, const Box *others, int count) {
    for (int i = 0; i < count; i++)
        if (box_touch(box, others[i], 0))
            return true;
    return false;
}

// Over the middle of the edge where the proof names one, else over the label; within the bounds of the piece
// where it is wide enough; then by turns lower and higher until it lies on no other flag.
static Box place_flag(const Plate *plate, Affine view, const Proof *proof, double width, const Box *others,
                      int count) {
    Point at = plate->label_at;
    const Edge *edge = flagged_edge(plate, proof);
    PathSpot spot;
    if (edge != NULL && path_spot_at(&edge->path, path_length(&edge->path) / 2, &spot) == GEOM_OK)
        at = path_spot_point(&edge->path, spot);
    at = affine_point(view, at);
    const Box piece = piece_on_paper(plate, view);
    at.x = fmin(fmax(at.x, piece.least.x + width / 2),
                fmax(piece.most.x - width / 2, piece.least.x + width / 2));
    Box box;
    for (int i = 0; i <= 2 * count; i++) {
        const double down = (i % 2 == 1 ? 1 : -1) * ((i + 1) / 2) * (FLAG_UP_MM + FLAG_DOWN_MM + 1);
        box = (Box){{at.x - width / 2, at.y + down - FLAG_UP_MM},
                    {at.x + width / 2, at.y + down + FLAG_DOWN_MM}};
        const bool inside = box.least.y >= piece.least.y && box.most.y <= piece.most.y;
        if (!meets_any(box, others, count) && (inside || i == 0))
            return box;
    }
    // No room on the piece: below it.
    while (meets_any(box, others, count)) {
        box.least.y += 1;
        box.most.y += 1;
    }
    return box;
}

void plate_draw_flags(const Plate *plate, Canvas *canvas) {
    if (!plate->unproven)
        return;
    const Pattern *pattern = plate->pattern;
    for (int i = 0; i < plate->piece->edges.count; i++)
        if (edge_flagged(plate, i))
            hatch_edge(plate, canvas, &plate->piece->edges.items[i]);
    const Affine view = canvas->view;
    canvas_paper(canvas);
    Box flags[FLAGS_MAX];
    int count = 0;
    for (int i = 0; i < pattern->proofs.count && count < FLAGS_MAX; i++) {
        const Proof *proof = &pattern->proofs.items[i];
        if (!is_flagged(plate, proof))
            continue;
        Buffer words;
        buffer_init(&words);
        buffer_add_format(&words, "NOT PROVEN: %s", proof->what);
        const double width = canvas_text_width(TEXT_FLAG, words.data) + 4;
        const Box box = place_flag(plate, view, proof, width, flags, count);
        flags[count++] = box;
        canvas_box(canvas, box);
        canvas_fill(canvas, SHADE_FLAG);
        canvas_text(canvas, TEXT_FLAG, ALIGN_MIDDLE,
                    point((box.least.x + box.most.x) / 2, box.most.y - FLAG_DOWN_MM), 0, words.data);
        buffer_finish(&words);
    }
    canvas_view(canvas, view);
}
