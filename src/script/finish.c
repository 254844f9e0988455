#include "script/finish.h"

#include <string.h>

#include "base/buffer.h"
#include "base/measures.h"
#include "base/memory.h"
#include "base/text.h"
#include "pattern/seam.h"

static void seam_fault(Run *run, const Sewn *sewn, const char *message) {
    fault_set(run->fault, sewn->recipe->file, sewn->line, "%s", message);
    fault_set_step(run->fault, run->pattern->steps.items[sewn->step].title);
}

// Keeps as hint the edges the piece has.
static void hint_edges(Fault *fault, const Piece *piece) {
    Buffer list;
    buffer_init(&list);
    for (int i = 0; i < piece->edges.count; i++)
        if (!piece->edges.items[i].fold)
            buffer_add_format(&list, "%s%s", list.length > 0 ? ", " : "", piece->edges.items[i].name);
    if (list.length > 0)
        fault_set_hint(fault, "its edges are %s", list.data);
    buffer_finish(&list);
}

// Finds the final piece and edge that a name means.
static bool find_edge(Run *run, const Sewn *sewn, const SewnEdge *named, SeamEdge *out) {
    const Pattern *pattern = run->pattern;
    char text[3 * LIMIT_NAME_BYTES + 100];
    const int piece = pattern_find_piece(pattern, named->piece);
    if (piece < 0) {
        snprintf(text, sizeof text, "the seam '%s' sews '%s', a piece that is on no draft", sewn->name,
                 named->piece);
        seam_fault(run, sewn, text);
        fault_set_hint(run->fault, "put the finished piece on a draft: draft.name = piece");
        return false;
    }
    const int edge = piece_find_edge(&pattern->pieces.items[piece], named->edge);
    if (edge < 0) {
        snprintf(text, sizeof text, "the seam '%s' sews '%s' of '%s', which is no edge of the finished piece",
                 sewn->name, named->edge, named->piece);
        seam_fault(run, sewn, text);
        hint_edges(run->fault, &pattern->pieces.items[piece]);
        return false;
    }
    *out = (SeamEdge){.piece = piece, .edge = edge, .backward = named->backward};
    return true;
}

// An end of an edge as the seam walks it.
static Point walk_end(const Pattern *pattern, SeamEdge place, PathEnd end) {
    const Path *path = &pattern->pieces.items[place.piece].edges.items[place.edge].path;
    return path_end(path, (end == PATH_FIRST) != place.backward ? PATH_FIRST : PATH_LAST);
}

static bool meet(const Pattern *pattern, SeamEdge a, PathEnd end_a, SeamEdge b, PathEnd end_b) {
    return point_distance(walk_end(pattern, a, end_a), walk_end(pattern, b, end_b)) <= POINT_ON_MM;
}

// Two edges of one piece that follow each other in a list and share a corner, but not the one where the first
// ends and the second begins: one of them is walked the wrong way.
static bool check_turn(Run *run, const Sewn *sewn, SeamEdge from, SeamEdge to) {
    const Pattern *pattern = run->pattern;
    if (from.piece != to.piece || meet(pattern, from, PATH_LAST, to, PATH_FIRST))
        return true;
    const bool first =
        meet(pattern, from, PATH_FIRST, to, PATH_FIRST) || meet(pattern, from, PATH_FIRST, to, PATH_LAST);
    const bool second =
        meet(pattern, from, PATH_FIRST, to, PATH_LAST) || meet(pattern, from, PATH_LAST, to, PATH_LAST);
    if (!first && !second)
        return true;
    const Piece *piece = &pattern->pieces.items[from.piece];
    const char *a = piece->edges.items[from.edge].name, *b = piece->edges.items[to.edge].name;
    char text[4 * LIMIT_NAME_BYTES + 100], name[2 * LIMIT_NAME_BYTES + 20] = "";
    snprintf(text, sizeof text, "the seam '%s' walks '%s' and then '%s' of '%s', but not from end to end",
             sewn->name, a, b, piece->name);
    seam_fault(run, sewn, text);
    if (first && second)
        snprintf(name, sizeof name, "both '%s' and '%s'", a, b);
    else
        snprintf(name, sizeof name, "'%s'", first ? a : b);
    fault_set_hint(run->fault, "walk %s the other way: edge:reverse(), or without it where it is there",
                   name);
    return false;
}

static bool find_side(Run *run, const Sewn *sewn, const SewnSide *side, SeamEdgeList *out) {
    for (int i = 0; i < side->count; i++) {
        SeamEdge edge;
        if (!find_edge(run, sewn, &side->items[i], &edge))
            return false;
        if (i > 0 && !check_turn(run, sewn, out->items[i - 1], edge))
            return false;
        ARRAY_ADD(out, edge);
    }
    return true;
}

// The seam is the pattern's from the start, so that its lists are given back whatever happens.
static bool make_seam(Run *run, const Sewn *sewn) {
    Pattern *pattern = run->pattern;
    ARRAY_ADD(&pattern->seams, ((Seam){.name = arena_text(&pattern->arena, sewn->name),
                                       .step = sewn->step,
                                       .ease = sewn->ease,
                                       .tolerance = sewn->tolerance,
                                       .smooth_first = sewn->smooth_first,
                                       .smooth_last = sewn->smooth_last}));
    Seam *seam = &pattern->seams.items[pattern->seams.count - 1];
    return find_side(run, sewn, &sewn->a, &seam->a) && find_side(run, sewn, &sewn->b, &seam->b);
}

static bool make_notches(Run *run, const Sewn *sewn, int seam) {
    Pattern *pattern = run->pattern;
    if (sewn->a.count > 1 || sewn->b.count > 1)
        seam_notch_joints(pattern, seam);
    if (sewn->notch_count == 0)
        return true;
    const double length = seam_walk(pattern, &pattern->seams.items[seam]).length_a;
    double at = sewn->notch_mm ? sewn->notch_at : sewn->notch_at * length;
    if (at < 0)
        at += length;
    if (!seam_notch(pattern, seam, at, sewn->notch_count))
        return true;
    char text[LIMIT_NAME_BYTES + 200], found[80], along[80];
    run_show(run, MEASURE_LENGTH, at, found, sizeof found);
    run_show(run, MEASURE_LENGTH, length, along, sizeof along);
    snprintf(text, sizeof text, "the notch at %s lies beyond the end of the seam '%s', which is %s long",
             found, sewn->name, along);
    seam_fault(run, sewn, text);
    return false;
}

static bool tells_opening(const Pattern *pattern) {
    for (int i = 0; i < pattern->proofs.count; i++)
        if (strstr(pattern->proofs.items[i].what, "head") || strstr(pattern->proofs.items[i].what, "opening"))
            return true;
    return pattern->pull_on.stated;
}

// A garment that goes round the neck must get past the head: where both are known and nothing is said, that
// is said.
static void remark_opening(Run *run) {
    Pattern *pattern = run->pattern;
    bool knows_head = false;
    for (int i = 0; i < pattern->inputs.count; i++)
        knows_head = knows_head || (strcmp(pattern->inputs.items[i].name, "head_girth") == 0 &&
                                    pattern->inputs.items[i].value > 0);
    if (!knows_head || !run->needs_bodice || pattern->pieces.count == 0 || tells_opening(pattern))
        return;
    const Remark remark = {.kind = REMARK_WARNING,
                           .step = pattern->steps.count - 1,
                           .text = arena_text(&pattern->arena, REMARK_NO_OPENING)};
    ARRAY_ADD(&pattern->remarks, remark);
}

bool finish_run(Run *run) {
    for (int i = 0; i < run->sewn.count; i++)
        if (!make_seam(run, &run->sewn.items[i]))
            return false;
    for (int i = 0; i < run->sewn.count; i++)
        if (!make_notches(run, &run->sewn.items[i], i))
            return false;
    remark_opening(run);
    return true;
}

// A setting that only a recipe within another has is decided by the one that uses it.
static void setting_fault(Run *run, const Setting *setting) {
    const Pattern *pattern = run->pattern;
    const char *name = setting->name;
    const char *names[LIMIT_INPUTS];
    int count = 0;
    for (int i = 0; i < pattern->inputs.count && count < LIMIT_INPUTS; i++)
        names[count++] = pattern->inputs.items[i].name;
    fault_set(run->fault, NULL, 0, "%s=%s: no recipe of the chain needs or chooses '%s'", name,
              setting->value, name);
    const char *near = strlen(name) <= LIMIT_NAME_BYTES ? text_nearest(name, names, count) : NULL;
    if (near && strcmp(near, name) == 0)
        fault_set_hint(run->fault, "'%s' belongs to a recipe that one of them uses, and that one decides it",
                       name);
    else if (near)
        fault_set_hint(run->fault, "did you mean '%s'?", near);
}

bool finish_settings(Run *run) {
    for (int i = 0; i < run->job->setting_count; i++) {
        if (run->used_settings[i] || measure_known(run->job->settings[i].name))
            continue;
        setting_fault(run, &run->job->settings[i]);
        return false;
    }
    return true;
}
