#include "pattern/seam.h"

#include <assert.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/own.h"

// A joint this near the end of a seam, or a joint of the partner, meets it with a little ease and needs no
// mark: a notch that near a corner cannot be told from it.
#define JOINT_MM 3.0

static const Edge *edge_of(const Pattern *pattern, SeamEdge place) {
    return &pattern->pieces.items[place.piece].edges.items[place.edge];
}

double seam_side_length(const Pattern *pattern, const SeamEdgeList *side) {
    double length = 0;
    for (int i = 0; i < side->count; i++)
        length += path_length(&edge_of(pattern, side->items[i])->path);
    return length;
}

SeamWalk seam_walk(const Pattern *pattern, const Seam *seam) {
    SeamWalk walk = {.length_a = seam_side_length(pattern, &seam->a),
                     .length_b = seam_side_length(pattern, &seam->b)};
    walk.difference = walk.length_a - walk.length_b - seam->ease;
    walk.holds = fabs(walk.difference) <= seam->tolerance + LENGTH_RELATIVE * walk.length_a;
    return walk;
}

double seam_partner(const Seam *seam, SeamWalk walk, double at, bool from_a) {
    const double mine = from_a ? walk.length_a : walk.length_b;
    const double other = from_a ? walk.length_b : walk.length_a;
    if (seam->ease == 0)
        return fmin(at, other);
    return mine > 0 ? at * other / mine : 0;
}

bool seam_side_has(const SeamEdgeList *side, int piece, int edge) {
    for (int i = 0; i < side->count; i++)
        if (side->items[i].piece == piece && side->items[i].edge == edge)
            return true;
    return false;
}

static bool edge_is_sewn(const Pattern *pattern, int piece, int edge) {
    for (int i = 0; i < pattern->seams.count; i++)
        if (seam_side_has(&pattern->seams.items[i].a, piece, edge) ||
            seam_side_has(&pattern->seams.items[i].b, piece, edge))
            return true;
    return false;
}

// On the edge, and on its twins over a fold, which lie on the same stitches or on their mirror image: all but
// those that have a seam of their own.
static void notch_with_twins(Pattern *pattern, SeamEdge place, double at, int count, const char *seam) {
    Piece *piece = &pattern->pieces.items[place.piece];
    piece_add_notch(&pattern->arena, piece, place.edge, at, count, seam);
    const Edge *edge = &piece->edges.items[place.edge];
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *twin = &piece->edges.items[i];
        if (i != place.edge && strcmp(twin->root, edge->root) == 0 &&
            !edge_is_sewn(pattern, place.piece, i) &&
            fabs(path_length(&twin->path) - path_length(&edge->path)) <= POINT_ON_MM)
            piece_add_notch(&pattern->arena, piece, i, at, count, seam);
    }
}

static void notch_side(Pattern *pattern, const SeamEdgeList *side, double at, int count, const char *seam) {
    for (int i = 0; i < side->count; i++) {
        const SeamEdge place = side->items[i];
        const double length = path_length(&edge_of(pattern, place)->path);
        if (at <= length + POINT_ON_MM || i == side->count - 1) {
            at = fmin(at, length);
            notch_with_twins(pattern, place, place.backward ? length - at : at, count, seam);
            return;
        }
        at -= length;
    }
}

GeomError seam_notch(Pattern *pattern, int index, double at, int count) {
    assert(index >= 0 && index < pattern->seams.count);
    const Seam *seam = &pattern->seams.items[index];
    const SeamWalk walk = seam_walk(pattern, seam);
    if (at < 0)
        at += walk.length_a;
    if (!(at >= -POINT_ON_MM && at <= walk.length_a + POINT_ON_MM))
        return GEOM_BEYOND_END;
    at = fmin(fmax(at, 0), walk.length_a);
    notch_side(pattern, &seam->a, at, count, seam->name);
    notch_side(pattern, &seam->b, seam_partner(seam, walk, at, true), count, seam->name);
    return GEOM_OK;
}

double seam_nearest_joint(const Pattern *pattern, const SeamEdgeList *side, double at) {
    double joint = 0, gap = fabs(at);
    for (int i = 0; i < side->count; i++) {
        joint += path_length(&edge_of(pattern, side->items[i])->path);
        gap = fmin(gap, fabs(at - joint));
    }
    return gap;
}

static void notch_joints(Pattern *pattern, const Seam *seam, bool from_a) {
    const SeamWalk walk = seam_walk(pattern, seam);
    const SeamEdgeList *mine = from_a ? &seam->a : &seam->b;
    const SeamEdgeList *other = from_a ? &seam->b : &seam->a;
    double at = 0;
    for (int i = 0; i + 1 < mine->count; i++) {
        at += path_length(&edge_of(pattern, mine->items[i])->path);
        const double partner = seam_partner(seam, walk, at, from_a);
        if (seam_nearest_joint(pattern, other, partner) > JOINT_MM)
            notch_side(pattern, other, partner, 1, seam->name);
    }
}

void seam_notch_joints(Pattern *pattern, int index) {
    assert(index >= 0 && index < pattern->seams.count);
    notch_joints(pattern, &pattern->seams.items[index], true);
    notch_joints(pattern, &pattern->seams.items[index], false);
}

// Where a notch on a side lies along it, from the matched first end; -1 when it is not on the side.
static double along_side(const Pattern *pattern, const SeamEdgeList *side, int piece, const Notch *notch) {
    double before = 0;
    for (int i = 0; i < side->count; i++) {
        const double length = path_length(&edge_of(pattern, side->items[i])->path);
        if (side->items[i].piece == piece && side->items[i].edge == notch->edge)
            return before + (side->items[i].backward ? length - notch->at : notch->at);
        before += length;
    }
    return -1;
}

void seam_side_notches(const Pattern *pattern, const Seam *seam, bool on_a, SeamNotchList *out) {
    const SeamEdgeList *side = on_a ? &seam->a : &seam->b;
    out->count = 0;
    for (int i = 0; i < side->count; i++) {
        const int piece = side->items[i].piece;
        bool seen = false;
        for (int k = 0; k < i && !seen; k++)
            seen = side->items[k].piece == piece;
        if (seen)
            continue;
        const Piece *p = &pattern->pieces.items[piece];
        for (int n = 0; n < p->notches.count; n++) {
            const Notch *notch = &p->notches.items[n];
            const bool own = notch->seam && strcmp(notch->seam, seam->name) == 0;
            const double at = along_side(pattern, side, piece, notch);
            if (at >= 0)
                ARRAY_ADD(
                    out,
                    ((SeamNotch){
                        .at = at, .count = notch->count, .piece = piece, .edge = notch->edge, .own = own}));
        }
    }
}
