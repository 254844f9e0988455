#include <assert.h>

#include "pattern/own.h"
#include "pattern/piece.h"

#define NOTCH_SAME_MM 0.1 // a cutter cannot snip two notches closer than this

PieceError piece_add_notch(Arena *arena, Piece *piece, int edge, double at, int count, const char *seam) {
    assert(edge >= 0 && edge < piece->edges.count);
    assert(count >= 1 && count <= NOTCH_COUNT_MAX);
    const double length = path_length(&piece->edges.items[edge].path);
    if (at < 0)
        at += length;
    if (!(at >= -POINT_ON_MM && at <= length + POINT_ON_MM))
        return PIECE_OFF_EDGE;
    at = fmin(fmax(at, 0), length);
    for (int i = 0; i < piece->notches.count; i++) {
        const Notch *there = &piece->notches.items[i];
        if (there->edge == edge && there->count == count && fabs(there->at - at) <= NOTCH_SAME_MM)
            return PIECE_OK;
    }
    Notch notch = {.edge = edge, .at = at, .count = count, .seam = arena_text(arena, seam)};
    OWN_ADD(arena, &piece->notches, notch);
    return PIECE_OK;
}

int piece_notch_places(const Piece *piece, const Notch *notch, Point *on_seam, Point *outward) {
    const Edge *edge = &piece->edges.items[notch->edge];
    const double length = path_length(&edge->path);
    const double half = NOTCH_APART_MM * (notch->count - 1) / 2;
    const double middle = length > 2 * half ? fmin(fmax(notch->at, half), length - half) : length / 2;
    for (int i = 0; i < notch->count; i++) {
        const double at = fmin(fmax(middle - half + NOTCH_APART_MM * i, 0), length);
        PathSpot spot = path_end_spot(&edge->path, PATH_LAST);
        if (path_spot_at(&edge->path, at, &spot) != GEOM_OK)
            spot = path_end_spot(&edge->path, PATH_LAST);
        const Point along = path_spot_direction(&edge->path, spot);
        on_seam[i] = path_spot_point(&edge->path, spot);
        outward[i] = edge->backward ? point_left(along) : point_right(along);
    }
    return notch->count;
}
