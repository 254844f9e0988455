// Folding and opening out.
//
// In outline order (counter-clockwise) the edges of a piece are a run R that lies on the fold line, from A to
// B, and the rest E1 .. Ek from B back to A. A mirror image of the rest winds clockwise, so the opened
// outline is
//     E1 .. Ek, mirror of Ek .. mirror of E1
// and every twin runs against the author's direction exactly where its original ran with it. The corner at
// the end of Ej was between Ej and Ej+1; on the other side it is at the end of the twin of Ej+1, between that
// and the twin of Ej.
#include "pattern/piece.h"

#include <string.h>

#include "pattern/own.h"

static int around(const Piece *piece, int edge) {
    const int count = piece->edges.count;
    return ((edge % count) + count) % count;
}

static double off_line(Point p, Point a, Point b) {
    const Point along = point_unit(point_sub(b, a));
    return fabs(point_cross(along, point_sub(p, a)));
}

static bool on_line(const Path *path, Point a, Point b) {
    return path_is_straight(path) && off_line(path_first(path), a, b) <= POINT_ON_MM &&
           off_line(path_last(path), a, b) <= POINT_ON_MM;
}

// The run of edges on the fold line, *from .. *to in outline order (may wrap); returns how many.
static int fold_run(const Piece *piece, int edge, int *from, int *to) {
    const Point a = path_first(&piece->edges.items[edge].path);
    const Point b = path_last(&piece->edges.items[edge].path);
    int run = 1;
    *from = *to = edge;
    while (run < piece->edges.count && on_line(&piece->edges.items[around(piece, *from - 1)].path, a, b)) {
        *from = around(piece, *from - 1);
        run++;
    }
    while (run < piece->edges.count && on_line(&piece->edges.items[around(piece, *to + 1)].path, a, b)) {
        *to = around(piece, *to + 1);
        run++;
    }
    return run;
}

// What one unfolding needs to know.
typedef struct Fold {
    Arena *arena;
    const Piece *piece;
    const char *name;
    Point a, b; // the ends of the run, in outline order
    int from, run, rest;
    Affine mirror;
} Fold;

static const char *twin_name(const Fold *fold, const char *name) {
    return name ? arena_format(fold->arena, "%s over %s", name, fold->name) : NULL;
}

static void fold_edges(const Fold *fold, Piece *out) {
    const Piece *piece = fold->piece;
    const int first = fold->from + fold->run;
    // The outline starts with the edge the author gave first, unless that is the fold.
    const int lead = around(piece, -first) < fold->rest ? around(piece, -first) : 0;
    for (int k = 0; k < 2 * fold->rest; k++) {
        const int place = (lead + k) % (2 * fold->rest);
        const bool twin = place >= fold->rest;
        const int j = twin ? 2 * fold->rest - 1 - place : place;
        Edge edge = piece->edges.items[around(piece, first + j)];
        if (!twin) {
            if (j == fold->rest - 1)
                edge.corner = CORNER_PLAIN;
            OWN_ADD(fold->arena, &out->edges, edge);
            continue;
        }
        const Path *path = &piece->edges.items[around(piece, first + j)].path;
        own_transformed(fold->arena, path, fold->mirror, &edge.path);
        Point start = path_first(&edge.path), end = path_last(&edge.path);
        // In outline order E1 starts at B and Ek ends at A; their twins meet them there exactly.
        if (j == 0)
            *(edge.backward ? &end : &start) = fold->b;
        if (j == fold->rest - 1)
            *(edge.backward ? &start : &end) = fold->a;
        own_path_ends(&edge.path, start, end);
        edge.name = twin_name(fold, edge.name);
        edge.backward = !edge.backward;
        if (j > 0) {
            const Edge *before = &piece->edges.items[around(piece, first + j - 1)];
            edge.corner = before->corner;
            edge.other_first = !before->other_first;
        } else {
            edge.corner = CORNER_PLAIN;
        }
        OWN_ADD(fold->arena, &out->edges, edge);
    }
}

static void fold_lines(const Fold *fold, Piece *out) {
    const Piece *piece = fold->piece;
    for (int i = 0; i < piece->lines.count; i++) {
        InnerLine line = piece->lines.items[i];
        OWN_ADD(fold->arena, &out->lines, line);
        if (on_line(&line.path, fold->a, fold->b))
            continue;
        line.name = twin_name(fold, line.name);
        own_transformed(fold->arena, &piece->lines.items[i].path, fold->mirror, &line.path);
        OWN_ADD(fold->arena, &out->lines, line);
    }
    for (int i = 0; i < fold->run; i++) {
        const Edge *edge = &piece->edges.items[around(piece, fold->from + i)];
        InnerLine line = {.kind = INNER_FOLD, .name = edge->name, .root = edge->root, .path = edge->path};
        OWN_ADD(fold->arena, &out->lines, line);
    }
}

static void fold_dots(const Fold *fold, Piece *out) {
    for (int i = 0; i < fold->piece->dots.count; i++) {
        Dot dot = fold->piece->dots.items[i];
        OWN_ADD(fold->arena, &out->dots, dot);
        if (off_line(dot.at, fold->a, fold->b) <= POINT_ON_MM)
            continue;
        dot.name = twin_name(fold, dot.name);
        dot.at = affine_point(fold->mirror, dot.at);
        OWN_ADD(fold->arena, &out->dots, dot);
    }
}

static void fold_notches(const Fold *fold, Piece *out) {
    for (int i = 0; i < fold->piece->notches.count; i++) {
        Notch notch = fold->piece->notches.items[i];
        const Edge *old = &fold->piece->edges.items[notch.edge];
        notch.edge = piece_find_edge(out, old->name);
        if (notch.edge < 0) {
            Dot dot = {.kind = DOT_PIVOT};
            if (path_at(&old->path, notch.at, &dot.at) == GEOM_OK)
                OWN_ADD(fold->arena, &out->dots, dot);
            continue;
        }
        OWN_ADD(fold->arena, &out->notches, notch);
        notch.edge = piece_find_edge(out, twin_name(fold, old->name));
        OWN_ADD(fold->arena, &out->notches, notch);
    }
}

PieceError piece_unfold(Arena *arena, const Piece *piece, const char *name, Piece *out) {
    const int edge = piece_find_edge(piece, name);
    if (edge < 0)
        return PIECE_NO_EDGE;
    if (!path_is_straight(&piece->edges.items[edge].path))
        return PIECE_NOT_STRAIGHT;
    int from, to;
    Fold fold = {.arena = arena, .piece = piece, .name = piece->edges.items[edge].name};
    fold.run = fold_run(piece, edge, &from, &to);
    fold.rest = piece->edges.count - fold.run;
    fold.from = from;
    fold.a = piece_edge_end(&piece->edges.items[from], PATH_FIRST);
    fold.b = piece_edge_end(&piece->edges.items[to], PATH_LAST);
    if (fold.rest < 1 || affine_mirror(fold.a, fold.b, &fold.mirror) != GEOM_OK)
        return PIECE_NO_ROOM;

    Piece open = *piece;
    memset(&open.edges, 0, sizeof open.edges);
    memset(&open.lines, 0, sizeof open.lines);
    memset(&open.notches, 0, sizeof open.notches);
    memset(&open.dots, 0, sizeof open.dots);
    fold_edges(&fold, &open);
    for (int i = 0; i < open.edges.count; i++)
        for (int j = 0; j < i; j++)
            if (strcmp(open.edges.items[i].name, open.edges.items[j].name) == 0)
                return PIECE_SAME_NAME;
    fold_lines(&fold, &open);
    fold_dots(&fold, &open);
    fold_notches(&fold, &open);
    if (!piece_is_simple(&open))
        return PIECE_CROSSES;
    *out = open;
    return PIECE_OK;
}

void piece_fold_angles(const Piece *piece, int edge, double *first, double *last) {
    int from, to;
    fold_run(piece, edge, &from, &to);
    const double before = piece_corner_angle(piece, around(piece, from - 1));
    const double after = piece_corner_angle(piece, to);
    const bool backward = piece->edges.items[edge].backward;
    *first = backward ? after : before;
    *last = backward ? before : after;
}

PieceError piece_place_on_fold(Arena *arena, const Piece *piece, const char *name, Piece *out) {
    const int edge = piece_find_edge(piece, name);
    if (edge < 0)
        return PIECE_NO_EDGE;
    if (!path_is_straight(&piece->edges.items[edge].path))
        return PIECE_NOT_STRAIGHT;
    Piece copy;
    piece_copy(arena, piece, &copy);
    int from, to;
    const int run = fold_run(&copy, edge, &from, &to);
    for (int i = 0; i < run; i++) {
        Edge *folded = &copy.edges.items[around(&copy, from + i)];
        folded->fold = true;
        folded->allowance = 0;
    }
    *out = copy;
    return PIECE_OK;
}
