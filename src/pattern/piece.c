#include "pattern/piece.h"

#include <assert.h>
#include <string.h>

#include "geometry/crossing.h"
#include "pattern/flat.h"
#include "pattern/own.h"

static const char *const error_texts[PIECE_ERROR_COUNT] = {
    [PIECE_OK] = "nothing is wrong",
    [PIECE_TOO_FEW] = "an outline needs at least two edges, or one that closes on itself",
    [PIECE_OPEN] = "the outline is open",
    [PIECE_CROSSES] = "the outline crosses itself",
    [PIECE_NO_EDGE] = "the piece has no edge of that name",
    [PIECE_NOT_STRAIGHT] = "a fold must be straight",
    [PIECE_OFF_EDGE] = "the notch lies beyond the end of its edge",
    [PIECE_NO_ROOM] = "nothing is left of the piece",
    [PIECE_SAME_NAME] = "two edges of the piece have the same name",
};

const char *piece_error_text(PieceError error) {
    assert(error >= 0 && error < PIECE_ERROR_COUNT);
    return error_texts[error];
}

// An edge given to piece_trace, with its place in the outline.
typedef struct Link {
    int given;
    bool backward;
    double gap; // from the end before it, mm
} Link;

static Point link_end(const NamedPath *edges, Link link, PathEnd end) {
    const bool last = (end == PATH_LAST) != link.backward;
    return path_end(edges[link.given].path, last ? PATH_LAST : PATH_FIRST);
}

// Follows the outline from the last end of edge 0: always on to the nearest end of an edge not yet used, so
// that an open outline still gets an order and its gaps can be told.
static void links_order(const NamedPath *edges, int count, Link *links) {
    links[0] = (Link){.given = 0};
    for (int k = 1; k < count; k++) {
        const Point at = link_end(edges, links[k - 1], PATH_LAST);
        Link best = {.given = -1};
        for (int i = 1; i < count; i++) {
            bool used = false;
            for (int j = 1; j < k && !used; j++)
                used = links[j].given == i;
            if (used)
                continue;
            const double ahead = point_distance(at, path_first(edges[i].path));
            const double turned = point_distance(at, path_last(edges[i].path));
            if (best.given < 0 || fmin(ahead, turned) < best.gap)
                best = (Link){.given = i, .backward = turned < ahead, .gap = fmin(ahead, turned)};
        }
        links[k] = best;
    }
    links[0].gap =
        point_distance(link_end(edges, links[count - 1], PATH_LAST), link_end(edges, links[0], PATH_FIRST));
}

static int links_widest(const Link *links, int count) {
    int widest = 0;
    for (int k = 1; k < count; k++)
        if (links[k].gap > links[widest].gap)
            widest = k;
    return widest;
}

double piece_trace_gap(Arena *arena, const NamedPath *edges, int count, int *from, int *to) {
    assert(count > 0);
    Link *links = arena_take(arena, sizeof *links * (size_t)count);
    links_order(edges, count, links);
    const int widest = links_widest(links, count);
    *from = links[(widest + count - 1) % count].given;
    *to = links[widest].given;
    return links[widest].gap;
}

// Whether a crossing is only where the two edges follow on each other.
static bool at_shared_end(const Path *a, const Path *b, Point p) {
    const Point ends_a[2] = {path_first(a), path_last(a)}, ends_b[2] = {path_first(b), path_last(b)};
    for (int i = 0; i < 2; i++)
        for (int k = 0; k < 2; k++)
            if (point_distance(ends_a[i], ends_b[k]) <= POINT_ON_MM &&
                point_distance(ends_a[i], p) <= 2 * POINT_ON_MM)
                return true;
    return false;
}

bool piece_trace_crossing(const NamedPath *edges, int count, int *one, int *other, Point *where) {
    CrossingList crossings = {0};
    bool found = false;
    for (int i = 0; i < count && !found; i++) {
        for (int j = i; j < count && !found; j++) {
            if (i == j)
                path_self_crossings(edges[i].path, &crossings);
            else
                path_crossings(edges[i].path, edges[j].path, &crossings);
            for (int k = 0; k < crossings.count && !found; k++) {
                const Point p = crossings.items[k].point;
                if (i != j && at_shared_end(edges[i].path, edges[j].path, p))
                    continue;
                *one = i;
                *other = j;
                *where = p;
                found = true;
            }
        }
    }
    crossings_finish(&crossings);
    return found;
}

static void links_turn_over(Link *links, int count) {
    for (int i = 1, j = count - 1; i < j; i++, j--) {
        const Link kept = links[i];
        links[i] = links[j];
        links[j] = kept;
    }
    for (int i = 0; i < count; i++)
        links[i].backward = !links[i].backward;
}

// What a path sweeps seen from the origin, mm2: over a whole outline these add up to its area.
static double swept_area(const Path *path) {
    double area = 0;
    for (int i = 0; i < path->count; i++)
        area += segment_area(&path->items[i]);
    return area;
}

static double links_area(const NamedPath *edges, const Link *links, int count) {
    double area = 0;
    for (int k = 0; k < count; k++) {
        const double swept = swept_area(edges[links[k].given].path);
        area += links[k].backward ? -swept : swept;
    }
    return area;
}

bool piece_is_simple(const Piece *piece) {
    Path outline = {0};
    piece_outline(piece, &outline);
    const bool simple = outline_is_simple(&outline);
    path_finish(&outline);
    return simple;
}

PieceError piece_trace(Arena *arena, const char *name, const NamedPath *edges, int count, Piece *out,
                       double *gap, int *at) {
    if (count < 1 ||
        (count == 1 && point_distance(path_first(edges[0].path), path_last(edges[0].path)) > POINT_ON_MM))
        return PIECE_TOO_FEW;
    for (int i = 0; i < count; i++)
        for (int j = 0; j < i; j++)
            if (strcmp(edges[i].name, edges[j].name) == 0)
                return PIECE_SAME_NAME;
    Link *links = arena_take(arena, sizeof *links * (size_t)count);
    links_order(edges, count, links);
    const int widest = links_widest(links, count);
    if (links[widest].gap > POINT_ON_MM) {
        if (gap)
            *gap = links[widest].gap;
        if (at)
            *at = links[(widest + count - 1) % count].given;
        return PIECE_OPEN;
    }
    const double area = links_area(edges, links, count);
    if (fabs(area) < POINT_ON_MM)
        return PIECE_NO_ROOM;
    if (area < 0)
        links_turn_over(links, count);

    Piece piece = {.name = arena_text(arena, name), .draft = -1, .step = -1, .cut = 1, .cloth = "self"};
    for (int k = 0; k < count; k++) {
        const NamedPath *given = &edges[links[k].given];
        Edge edge = {.name = arena_text(arena, given->name),
                     .backward = links[k].backward,
                     .allowance = ALLOWANCE_DEFAULT_MM};
        edge.root = edge.name;
        own_path(arena, given->path, &edge.path);
        const Point first = link_end(edges, links[k], PATH_FIRST);
        const Point last = link_end(edges, links[(k + 1) % count], PATH_FIRST);
        own_path_ends(&edge.path, edge.backward ? last : first, edge.backward ? first : last);
        OWN_ADD(arena, &piece.edges, edge);
    }
    if (!piece_is_simple(&piece))
        return PIECE_CROSSES;
    *out = piece;
    return PIECE_OK;
}

int piece_find_edge(const Piece *piece, const char *name) {
    for (int i = 0; i < piece->edges.count; i++)
        if (strcmp(piece->edges.items[i].name, name) == 0)
            return i;
    return -1;
}

const Path *piece_find_path(const Piece *piece, const char *name) {
    const int edge = piece_find_edge(piece, name);
    if (edge >= 0)
        return &piece->edges.items[edge].path;
    for (int i = 0; i < piece->lines.count; i++)
        if (strcmp(piece->lines.items[i].name, name) == 0)
            return &piece->lines.items[i].path;
    return NULL;
}

void piece_copy(Arena *arena, const Piece *piece, Piece *out) {
    Piece copy = *piece;
    copy.name = arena_text(arena, piece->name);
    copy.cloth = arena_text(arena, piece->cloth);
    copy.note = arena_text(arena, piece->note);
    copy.grain_edge = arena_text(arena, piece->grain_edge);
    memset(&copy.edges, 0, sizeof copy.edges);
    memset(&copy.lines, 0, sizeof copy.lines);
    memset(&copy.notches, 0, sizeof copy.notches);
    memset(&copy.dots, 0, sizeof copy.dots);
    for (int i = 0; i < piece->edges.count; i++) {
        Edge edge = piece->edges.items[i];
        edge.name = arena_text(arena, edge.name);
        edge.root = arena_text(arena, edge.root);
        own_path(arena, &piece->edges.items[i].path, &edge.path);
        OWN_ADD(arena, &copy.edges, edge);
    }
    for (int i = 0; i < piece->lines.count; i++) {
        InnerLine line = piece->lines.items[i];
        line.name = arena_text(arena, line.name);
        line.root = arena_text(arena, line.root);
        own_path(arena, &piece->lines.items[i].path, &line.path);
        OWN_ADD(arena, &copy.lines, line);
    }
    for (int i = 0; i < piece->notches.count; i++) {
        Notch notch = piece->notches.items[i];
        notch.seam = arena_text(arena, notch.seam);
        OWN_ADD(arena, &copy.notches, notch);
    }
    for (int i = 0; i < piece->dots.count; i++) {
        Dot dot = piece->dots.items[i];
        dot.name = arena_text(arena, dot.name);
        OWN_ADD(arena, &copy.dots, dot);
    }
    *out = copy;
}

void piece_edge_path(const Edge *edge, Path *out) {
    if (edge->backward)
        path_reverse(&edge->path, out);
    else
        path_copy(&edge->path, out);
}

void piece_outline(const Piece *piece, Path *out) {
    path_clear(out);
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *edge = &piece->edges.items[i];
        const int count = edge->path.count;
        for (int k = 0; k < count; k++) {
            if (edge->backward)
                path_add(out, segment_reverse(&edge->path.items[count - 1 - k]));
            else
                path_add(out, edge->path.items[k]);
        }
    }
    if (out->count > 0)
        out->items[out->count - 1].p3 = out->items[0].p0;
}

double piece_area(const Piece *piece) {
    double area = 0;
    for (int i = 0; i < piece->edges.count; i++) {
        const double swept = swept_area(&piece->edges.items[i].path);
        area += piece->edges.items[i].backward ? -swept : swept;
    }
    return area;
}

Box piece_box_along(const Piece *piece, double angle) {
    const Affine turn = affine_swing(point(0, 0), -angle);
    Box box = box_empty();
    for (int i = 0; i < piece->edges.count; i++) {
        const Path *path = &piece->edges.items[i].path;
        for (int k = 0; k < path->count; k++) {
            const Segment turned = segment_transform(&path->items[k], turn);
            box = box_join(box, segment_box(&turned));
        }
    }
    return box;
}

Point piece_edge_end(const Edge *edge, PathEnd end) {
    const bool last = (end == PATH_LAST) != edge->backward;
    return path_end(&edge->path, last ? PATH_LAST : PATH_FIRST);
}

Point piece_edge_direction(const Edge *edge, PathEnd end) {
    const bool last = (end == PATH_LAST) != edge->backward;
    const Point along = path_direction(&edge->path, last ? PATH_LAST : PATH_FIRST);
    return edge->backward ? point_scale(along, -1) : along;
}

double piece_corner_angle(const Piece *piece, int edge) {
    const Edge *items = piece->edges.items;
    const int next = (edge + 1) % piece->edges.count;
    return 180 - point_turn(piece_edge_direction(&items[edge], PATH_LAST),
                            piece_edge_direction(&items[next], PATH_FIRST));
}

bool piece_is_template(const Piece *piece) {
    return strcmp(piece->cloth, "paper") == 0;
}
