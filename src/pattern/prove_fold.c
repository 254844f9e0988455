// How edges meet a fold. An edge that is square to the fold, or nearly so, is meant to run on smoothly when
// the piece is opened out; a little off, it shows a peak or a dip. One that is far from square is meant as a
// corner, and told as a fact.
#include <string.h>

#include "pattern/mend.h"
#include "pattern/proving.h"

#define SQUARE_WITHIN 0.6 // degrees: 1 mm in 10 cm
#define CORNER_FROM 20.0  // degrees off square

// Where an edge meets a fold.
typedef struct FoldEnd {
    double angle; // inside the piece, between fold and edge, degrees
    const char *edge;
    int index; // of the edge
} FoldEnd;

static void prove_end_list(Pattern *pattern, int index, const char *fold, const FoldEnd *ends, int count) {
    const Piece *piece = &pattern->pieces.items[index];
    const FoldEnd *worst = NULL;
    for (int i = 0; i < count; i++) {
        const double off = fabs(ends[i].angle - 90);
        if (off > CORNER_FROM) {
            if (i > 0 && fabs(ends[i].angle - ends[0].angle) <= SQUARE_WITHIN &&
                strcmp(ends[i].edge, ends[0].edge) == 0)
                continue;
            proof_add(pattern,
                      (Proof){.step = piece->step,
                              .measure = MEASURE_ANGLE,
                              .found = ends[i].angle,
                              .wanted = ends[i].angle,
                              .holds = true,
                              .piece = index,
                              .edge = ends[i].index},
                      "corner on the fold: %s, %s at %s", piece->name, fold, ends[i].edge);
        } else if (!worst || off > fabs(worst->angle - 90)) {
            worst = &ends[i];
        }
    }
    if (!worst)
        return;
    Proof proof = {.step = piece->step,
                   .measure = MEASURE_ANGLE,
                   .found = worst->angle,
                   .wanted = 90,
                   .relation = "equal",
                   .tolerance = SQUARE_WITHIN,
                   .holds = fabs(worst->angle - 90) <= SQUARE_WITHIN,
                   .piece = index,
                   .edge = worst->index};
    if (!proof.holds)
        proof_mend(pattern, &proof, worst->angle < 90 ? "mend.fold_peak" : "mend.fold_dip",
                   (MendPart[]){{.name = worst->edge}, {.name = fold}}, 2);
    proof_add(pattern, proof, "fold: %s, %s", piece->name, fold);
}

static int around(const Piece *piece, int edge) {
    const int count = piece->edges.count;
    return ((edge % count) + count) % count;
}

// An edge placed on the fold, with the fold edges that follow it in one line.
static void prove_placed(Pattern *pattern, int index, int from) {
    const Piece *piece = &pattern->pieces.items[index];
    int to = from;
    while (around(piece, to + 1) != from && piece->edges.items[around(piece, to + 1)].fold &&
           fabs(piece_corner_angle(piece, to) - 180) <= SQUARE_WITHIN)
        to = around(piece, to + 1);
    const int before = around(piece, from - 1), after = around(piece, to + 1);
    const FoldEnd ends[2] = {
        {.angle = piece_corner_angle(piece, before),
         .edge = piece->edges.items[before].name,
         .index = before},
        {.angle = piece_corner_angle(piece, to), .edge = piece->edges.items[after].name, .index = after}};
    prove_end_list(pattern, index, piece->edges.items[from].name, ends, 2);
}

static bool continues_fold(const Piece *piece, int edge) {
    const int before = around(piece, edge - 1);
    return before != edge && piece->edges.items[before].fold &&
           fabs(piece_corner_angle(piece, before) - 180) <= SQUARE_WITHIN;
}

// A fold that was opened out: the outline shows at its ends how the edges meet it. An end inside the piece,
// on another fold, has nothing to show.
static void prove_opened(Pattern *pattern, int index, const InnerLine *line) {
    const Piece *piece = &pattern->pieces.items[index];
    FoldEnd ends[2];
    int count = 0;
    for (int k = 0; k < 2; k++) {
        const PathEnd end = k == 0 ? PATH_FIRST : PATH_LAST;
        const Point at = path_end(&line->path, end);
        const Point along = path_direction(&line->path, end);
        const Point inward = end == PATH_FIRST ? along : point_scale(along, -1);
        for (int i = 0; i < piece->edges.count; i++) {
            const Edge *edge = &piece->edges.items[i];
            if (point_distance(piece_edge_end(edge, PATH_FIRST), at) > POINT_ON_MM)
                continue;
            const Edge *before = &piece->edges.items[around(piece, i - 1)];
            // Of the two edges there, the one that is no twin is named.
            const bool original =
                strcmp(edge->name, edge->root) == 0 || strcmp(before->name, before->root) != 0;
            ends[count++] =
                (FoldEnd){.angle = fabs(point_turn(piece_edge_direction(edge, PATH_FIRST), inward)),
                          .edge = original ? edge->name : before->name,
                          .index = original ? i : around(piece, i - 1)};
            break;
        }
    }
    if (count > 0)
        prove_end_list(pattern, index, line->name, ends, count);
}

void prove_folds(Pattern *pattern, int index) {
    const Piece *piece = &pattern->pieces.items[index];
    for (int i = 0; i < piece->edges.count; i++)
        if (piece->edges.items[i].fold && !continues_fold(piece, i))
            prove_placed(pattern, index, i);
    for (int i = 0; i < piece->lines.count; i++) {
        const InnerLine *line = &piece->lines.items[i];
        if (line->kind == INNER_FOLD && strcmp(line->name, line->root) == 0)
            prove_opened(pattern, index, line);
    }
}
