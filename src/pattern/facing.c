#include <string.h>

#include "base/memory.h"
#include "geometry/crossing.h"
#include "geometry/offset.h"
#include "pattern/beside.h"
#include "pattern/own.h"
#include "pattern/piece.h"

static int around(const Piece *piece, int edge) {
    const int count = piece->edges.count;
    return ((edge % count) + count) % count;
}

// The new piece keeps what the old one says of the cloth, and nothing that is marked on it. Its grain is
// still told by the edge it was taken from, which may be an edge of the old piece only.
static Piece blank_like(Arena *arena, const Piece *piece, const char *name) {
    Piece blank = *piece;
    blank.name = arena_text(arena, name);
    blank.note = NULL;
    memset(&blank.edges, 0, sizeof blank.edges);
    memset(&blank.lines, 0, sizeof blank.lines);
    memset(&blank.notches, 0, sizeof blank.notches);
    memset(&blank.dots, 0, sizeof blank.dots);
    return blank;
}

PieceError piece_interfacing(Arena *arena, const Piece *piece, double inset, const char *name, Piece *out) {
    double *widths = mem_new(sizeof *widths * (size_t)piece->edges.count);
    for (int i = 0; i < piece->edges.count; i++)
        widths[i] = piece->edges.items[i].fold ? 0 : -inset;
    Beside inside = {0};
    const GeomError error = beside_make(piece, widths, true, &inside);
    mem_free(widths);
    Piece made = blank_like(arena, piece, name);
    made.cloth = "interfacing";
    Path whole = {0};
    if (error == GEOM_OK && !inside.rough) {
        for (int i = 0; i < piece->edges.count; i++) {
            Edge edge = piece->edges.items[i];
            edge.allowance = 0;
            edge.corner = CORNER_PLAIN;
            if (edge.backward)
                own_reversed(arena, &inside.edges[i], &edge.path);
            else
                own_path(arena, &inside.edges[i], &edge.path);
            OWN_ADD(arena, &made.edges, edge);
        }
        beside_outline(&inside, &whole);
    }
    beside_finish(&inside);
    if (made.edges.count == 0 || path_area(&whole) <= 0) {
        Path outline = {0};
        piece_outline(piece, &outline);
        const GeomError left =
            outline_offset(&outline, -inset, (OffsetOptions){.join = JOIN_MITRE}, &whole, NULL);
        path_finish(&outline);
        memset(&made.edges, 0, sizeof made.edges);
        Edge edge = {.name = "outline", .root = "outline"};
        if (left == GEOM_OK) {
            own_path(arena, &whole, &edge.path);
            OWN_ADD(arena, &made.edges, edge);
        }
    }
    path_finish(&whole);
    if (made.edges.count == 0)
        return PIECE_NO_ROOM;
    *out = made;
    return PIECE_OK;
}

// The edge and those after and before it that have the same root: a neckline that was opened out over the
// centre.
static int same_root_run(const Piece *piece, int edge, int *from) {
    const char *root = piece->edges.items[edge].root;
    int run = 1;
    *from = edge;
    while (run < piece->edges.count && strcmp(piece->edges.items[around(piece, *from - 1)].root, root) == 0) {
        *from = around(piece, *from - 1);
        run++;
    }
    while (run < piece->edges.count && strcmp(piece->edges.items[around(piece, *from + run)].root, root) == 0)
        run++;
    return run;
}

// Where the inner line of the facing meets the rest of the outline, looking from one end of the run.
typedef struct Landing {
    int edge;     // that it lands on
    double along; // mm along that edge in outline order
    PathSpot on_line;
    bool found;
} Landing;

// forward: the edges after the run, in order; else those before it, backwards. The crossing nearest to the
// run counts.
static Landing find_landing(const Piece *piece, const Path *line, int from, int run, bool forward) {
    Landing landing = {0};
    CrossingList crossings = {0};
    Path edge = {0};
    for (int k = 0; k < piece->edges.count - run && !landing.found; k++) {
        const int index = around(piece, forward ? from + run + k : from - 1 - k);
        piece_edge_path(&piece->edges.items[index], &edge);
        path_crossings(&edge, line, &crossings);
        if (crossings.count == 0)
            continue;
        const Crossing at = crossings.items[forward ? 0 : crossings.count - 1];
        landing = (Landing){
            .edge = index, .along = path_spot_distance(&edge, at.on_a), .on_line = at.on_b, .found = true};
    }
    path_finish(&edge);
    crossings_finish(&crossings);
    return landing;
}

// A stretch of an edge in outline order, kept in the author's direction; too short a stretch is left out.
static void add_stretch(Arena *arena, const Piece *piece, int index, double from, double to, Piece *made) {
    Edge edge = piece->edges.items[index];
    Path whole = {0}, part = {0};
    piece_edge_path(&piece->edges.items[index], &whole);
    to = fmin(to, path_length(&whole));
    if (to - from > POINT_ON_MM && path_between(&whole, from, to, &part) == GEOM_OK) {
        if (edge.backward)
            own_reversed(arena, &part, &edge.path);
        else
            own_path(arena, &part, &edge.path);
        edge.corner = CORNER_PLAIN;
        OWN_ADD(arena, &made->edges, edge);
    }
    path_finish(&whole);
    path_finish(&part);
}

// Ends of neighbours made one point, as after every cutting of a curve.
static void close_up(Piece *piece) {
    for (int i = 0; i < piece->edges.count; i++) {
        Edge *edge = &piece->edges.items[i];
        const Point last = piece_edge_end(&piece->edges.items[around(piece, i + 1)], PATH_FIRST);
        const Point first = piece_edge_end(edge, PATH_FIRST);
        own_path_ends(&edge->path, edge->backward ? last : first, edge->backward ? first : last);
    }
}

static void keep_marks(Arena *arena, const Piece *piece, int from, int run, Piece *made) {
    for (int i = 0; i < piece->notches.count; i++) {
        Notch notch = piece->notches.items[i];
        if (around(piece, notch.edge - from) >= run)
            continue;
        notch.edge = piece_find_edge(made, piece->edges.items[notch.edge].name);
        OWN_ADD(arena, &made->notches, notch);
    }
    Path outline = {0};
    piece_outline(made, &outline);
    for (int i = 0; i < piece->dots.count; i++) {
        const Dot dot = piece->dots.items[i];
        if (path_distance(&outline, dot.at) <= POINT_ON_MM || path_contains(&outline, dot.at))
            OWN_ADD(arena, &made->dots, dot);
    }
    path_finish(&outline);
}

static PieceError facing_edges(Arena *arena, const Piece *piece, int from, int run, const Path *line,
                               Piece *made) {
    const Landing after = find_landing(piece, line, from, run, true);
    const Landing before = find_landing(piece, line, from, run, false);
    if (!after.found || !before.found)
        return PIECE_NO_ROOM;
    const bool ordered = before.on_line.index < after.on_line.index ||
                         (before.on_line.index == after.on_line.index && before.on_line.t < after.on_line.t);
    const int steps_after = around(piece, after.edge - from),
              steps_before = around(piece, before.edge - from);
    if (!ordered || steps_after > steps_before ||
        (steps_after == steps_before && after.along >= before.along))
        return PIECE_NO_ROOM;
    for (int k = 0; k < run; k++) {
        Edge edge = piece->edges.items[around(piece, from + k)];
        if (k == run - 1)
            edge.corner = CORNER_PLAIN;
        OWN_ADD(arena, &made->edges, edge);
    }
    const double all = 2 * COORDINATE_LIMIT_MM;
    for (int k = run; k < steps_after; k++)
        add_stretch(arena, piece, around(piece, from + k), 0, all, made);
    add_stretch(arena, piece, after.edge, 0, after.along, made);
    Path inner = {0};
    path_between_spots(line, before.on_line, after.on_line, &inner);
    Edge edge = {.name = "inner", .root = "inner", .backward = true};
    own_path(arena, &inner, &edge.path);
    path_finish(&inner);
    OWN_ADD(arena, &made->edges, edge);
    add_stretch(arena, piece, before.edge, before.along, all, made);
    for (int k = steps_before + 1; k < piece->edges.count; k++)
        add_stretch(arena, piece, around(piece, from + k), 0, all, made);
    // The two ends of the band may lie on one edge: the second stretch then needs a name of its own.
    for (int i = 0; i < made->edges.count; i++)
        for (int j = 0; j < i; j++)
            if (strcmp(made->edges.items[i].name, made->edges.items[j].name) == 0)
                made->edges.items[i].name = arena_format(arena, "%s again", made->edges.items[i].name);
    for (int i = 0; i < made->edges.count; i++)
        for (int j = 0; j < i; j++)
            if (strcmp(made->edges.items[i].name, made->edges.items[j].name) == 0)
                return PIECE_SAME_NAME;
    return PIECE_OK;
}

PieceError piece_facing(Arena *arena, const Piece *piece, const char *name_of_edge, double width,
                        const char *name, Piece *out) {
    const int edge = piece_find_edge(piece, name_of_edge);
    if (edge < 0)
        return PIECE_NO_EDGE;
    int from;
    const int run = same_root_run(piece, edge, &from);
    if (run == piece->edges.count)
        return PIECE_NO_ROOM;
    Path along = {0}, next = {0}, line = {0}, longer = {0};
    for (int k = 0; k < run; k++) {
        piece_edge_path(&piece->edges.items[around(piece, from + k)], &next);
        path_add_path(&along, &next);
    }
    GeomError error = path_offset(&along, width, SIDE_LEFT, (OffsetOptions){.join = JOIN_MITRE}, &line);
    // Run on far enough to reach neighbours that lean away.
    if (error == GEOM_OK)
        error = path_extend(&line, PATH_FIRST, 2 * width, &longer);
    if (error == GEOM_OK)
        error = path_extend(&longer, PATH_LAST, 2 * width, &line);
    Piece made = blank_like(arena, piece, name);
    PieceError result = PIECE_NO_ROOM;
    if (error == GEOM_OK)
        result = facing_edges(arena, piece, from, run, &line, &made);
    path_finish(&along);
    path_finish(&next);
    path_finish(&line);
    path_finish(&longer);
    if (result != PIECE_OK)
        return result;
    close_up(&made);
    if (!piece_is_simple(&made) || piece_area(&made) <= 0)
        return PIECE_NO_ROOM;
    keep_marks(arena, piece, from, run, &made);
    *out = made;
    return PIECE_OK;
}
