#include "pattern/sound.h"

#include <string.h>

#define COUNT_MAX 100000 // of anything
#define EDGES_MAX 1000   // of one piece

static bool step_known(const Pattern *p, int step) {
    return step >= -1 && step < p->steps.count;
}

// A chapter is used by an earlier one, so that none is inside itself.
static bool use_known(const Pattern *p, int chapter) {
    const int step = p->chapters.items[chapter].used_in;
    return step == -1 || (step_known(p, step) && p->steps.items[step].chapter < chapter);
}

static const char *story_wrong(const Pattern *p) {
    for (int i = 0; i < p->steps.count; i++)
        if (p->steps.items[i].chapter >= p->chapters.count)
            return "a step belongs to no chapter";
    for (int i = 0; i < p->chapters.count; i++)
        if (!use_known(p, i))
            return "a chapter is used by a step that is not there before it";
    for (int i = 0; i < p->inputs.count; i++)
        if (p->inputs.items[i].chapter >= p->chapters.count)
            return "an input belongs to no chapter";
    bool known = step_known(p, p->pull_on.step);
    for (int i = 0; i < p->notes.count; i++)
        known = known && step_known(p, p->notes.items[i].step);
    for (int i = 0; i < p->filled.count; i++)
        known = known && step_known(p, p->filled.items[i].step);
    for (int i = 0; i < p->remarks.count; i++)
        known = known && step_known(p, p->remarks.items[i].step);
    return known ? NULL : "something belongs to no step";
}

static const char *draft_wrong(const Pattern *p, const Draft *draft) {
    bool known = step_known(p, draft->step);
    for (int i = 0; i < draft->marks.count; i++) {
        const Mark *mark = &draft->marks.items[i];
        known = known && step_known(p, mark->step);
        if (mark->kind == MARK_PIECE && (mark->piece < 0 || mark->piece >= p->pieces.count))
            return "a mark names a piece that is not there";
    }
    for (int i = 0; i < draft->dimensions.count; i++)
        known = known && step_known(p, draft->dimensions.items[i].step);
    return known ? NULL : "a draft belongs to no step";
}

static const char *notches_wrong(const Piece *piece) {
    double lengths[EDGES_MAX] = {0}; // of the edges that have notches, each measured once
    for (int i = 0; i < piece->notches.count; i++) {
        const Notch *notch = &piece->notches.items[i];
        if (notch->edge >= piece->edges.count)
            return "a notch names an edge that is not there";
        if (lengths[notch->edge] == 0)
            lengths[notch->edge] = path_length(&piece->edges.items[notch->edge].path);
        if (notch->at > lengths[notch->edge] + POINT_ON_MM)
            return "a notch lies beyond its edge";
    }
    return NULL;
}

static const char *piece_wrong(const Pattern *p, const Piece *piece) {
    if (!step_known(p, piece->step) || piece->draft >= p->drafts.count)
        return "a piece belongs to no draft or step";
    if (piece->edges.count == 0 || piece->edges.count > EDGES_MAX)
        return "a piece has no edge, or too many";
    double area = 0;
    for (int i = 0; i < piece->edges.count; i++) {
        const Edge *edge = &piece->edges.items[i];
        const Edge *next = &piece->edges.items[(i + 1) % piece->edges.count];
        if (point_distance(piece_edge_end(edge, PATH_LAST), piece_edge_end(next, PATH_FIRST)) > POINT_ON_MM)
            return "an outline is open";
        for (int k = 0; k < edge->path.count; k++) {
            const double swept = segment_area(&edge->path.items[k]);
            area += edge->backward ? -swept : swept;
        }
        for (int j = 0; j < i; j++)
            if (strcmp(piece->edges.items[j].name, edge->name) == 0)
                return "two edges of a piece have the same name";
    }
    if (area <= 0)
        return "an outline does not wind counter-clockwise";
    return notches_wrong(piece);
}

static bool side_known(const Pattern *p, const SeamEdgeList *side) {
    for (int i = 0; i < side->count; i++)
        if (side->items[i].piece >= p->pieces.count ||
            side->items[i].edge >= p->pieces.items[side->items[i].piece].edges.count)
            return false;
    return side->count > 0;
}

static bool proof_known(const Pattern *p, const Proof *proof) {
    if (!step_known(p, proof->step) || proof->piece >= p->pieces.count)
        return false;
    return proof->edge < 0 || (proof->piece >= 0 && proof->edge < p->pieces.items[proof->piece].edges.count);
}

const char *pattern_wrong(const Pattern *p) {
    if (p->chapters.count > COUNT_MAX || p->steps.count > COUNT_MAX || p->inputs.count > COUNT_MAX ||
        p->notes.count > COUNT_MAX || p->filled.count > COUNT_MAX || p->drafts.count > COUNT_MAX ||
        p->pieces.count > COUNT_MAX || p->seams.count > COUNT_MAX || p->proofs.count > COUNT_MAX ||
        p->remarks.count > COUNT_MAX)
        return "there is too much of something";
    const char *wrong = story_wrong(p);
    for (int i = 0; i < p->drafts.count && !wrong; i++)
        wrong = draft_wrong(p, &p->drafts.items[i]);
    for (int i = 0; i < p->pieces.count && !wrong; i++)
        wrong = piece_wrong(p, &p->pieces.items[i]);
    for (int i = 0; i < p->seams.count && !wrong; i++) {
        const Seam *seam = &p->seams.items[i];
        if (!step_known(p, seam->step) || !side_known(p, &seam->a) || !side_known(p, &seam->b))
            wrong = "a seam names an edge that is not there";
    }
    for (int i = 0; i < p->proofs.count && !wrong; i++)
        if (!proof_known(p, &p->proofs.items[i]))
            wrong = "a proof names an edge that is not there";
    return wrong;
}
