// Sewing: the order, from the recipe's own prose, then each seam with both its sides.
#include <math.h>
#include <string.h>

#include "booklet/composing.h"
#include "pattern/seam_match.h"

#define EASE_TOLD_MM 0.5   // no hand eases less
#define EASED_IN_MOST 0.12 // a part of the longer edge; more is not eased in, the other is stretched

static const Edge *edge_of(const Composing *c, const SeamEdgeList *side, int index) {
    return &c->pattern->pieces.items[side->items[index].piece].edges.items[side->items[index].edge];
}

// "neckline of Back and Front", "neck of Collar and lap of Collar": edges of one name in one breath, a piece
// once.
static const char *side_words(Composing *c, const SeamEdgeList *side) {
    const char *told = "", *name = NULL, *pieces = NULL, *last = NULL;
    for (int i = 0; i < side->count; i++) {
        const Piece *piece = &c->pattern->pieces.items[side->items[i].piece];
        const char *edge = say_edge(c, edge_of(c, side, i)->name);
        const bool same = name && strcmp(name, edge) == 0;
        if (!same)
            pieces = piece->name;
        else if (strcmp(last, piece->name) != 0)
            pieces = say(c, "seam.and", pieces, piece->name, NULL);
        last = piece->name;
        name = edge;
        const bool more = i + 1 < side->count;
        if (more && strcmp(say_edge(c, edge_of(c, side, i + 1)->name), name) == 0)
            continue;
        const char *group = say(c, "seam.edge", name, pieces, NULL);
        told = *told ? say(c, "seam.and", told, group, NULL) : group;
    }
    return told;
}

// "Back and Front", each once.
static const char *pieces_words(Composing *c, const SeamEdgeList *side) {
    const char *told = NULL;
    for (int i = 0; i < side->count; i++) {
        bool before = false;
        for (int k = 0; k < i; k++)
            before = before || side->items[k].piece == side->items[i].piece;
        const char *name = c->pattern->pieces.items[side->items[i].piece].name;
        if (!before)
            told = told ? say(c, "seam.and", told, name, NULL) : name;
    }
    return told;
}

static const char *ease_words(Composing *c, const Seam *seam) {
    const double ease = fabs(seam->ease);
    if (ease < EASE_TOLD_MM)
        return say(c, "seam.no_ease", NULL);
    const bool first = seam->ease > 0;
    const SeamEdgeList *longer = first ? &seam->a : &seam->b, *shorter = first ? &seam->b : &seam->a;
    const bool stretched = ease > EASED_IN_MOST * seam_side_length(c->pattern, longer);
    return say(c, stretched ? "seam.shorter" : "seam.longer", pieces_words(c, stretched ? shorter : longer),
               say_mm(c, ease), NULL);
}

// Of a piece sewn to itself, or to the other of its pair, both sides have one name and are told as one.
static const char *seam_words(Composing *c, const Seam *seam, const char *a, const char *b) {
    const SeamWalk walk = seam_walk(c->pattern, seam);
    const char *long_a = say_mm(c, walk.length_a), *long_b = say_mm(c, walk.length_b);
    if (strcmp(a, b) == 0 && strcmp(long_a, long_b) == 0)
        return say(c, "seam.itself", a, long_a, ease_words(c, seam), NULL);
    return say(c, "seam.says", a, long_a, b, long_b, ease_words(c, seam), NULL);
}

static void add_seam(Composing *c, int index, BlockList *out) {
    const Seam *seam = &c->pattern->seams.items[index];
    const SeamWalk walk = seam_walk(c->pattern, seam);
    const char *a = side_words(c, &seam->a), *b = side_words(c, &seam->b);
    BlockList inner = {0};
    add_paragraph(c, &inner, begun_large(c, seam_words(c, seam, a, b)));
    const int notches = seam_matched_notches(c->pattern, seam);
    if (notches > 0)
        add_paragraph(c, &inner, say_count(c, "seam.notches", notches));
    if (!walk.holds)
        add_notice(c, &inner, TONE_FAILED, say(c, "seam.failed", say_mm(c, fabs(walk.difference)), NULL), -1);
    BookPicture *picture = add_figure(c, &inner, 1, (SpanList){0});
    *picture =
        (BookPicture){.kind = BOOK_PICTURE_SEAM, .seam = index, .alt = say(c, "figure.seam_alt", a, b, NULL)};
    add_section(c, out, ROLE_STEP, 4, arena_format(c->arena, "seam-%d", index + 1), seam->name, &inner);
    BookBlock *section = &out->items[out->count - 1];
    section->items[0].authored = true;
    section->items[0].language = language_of_step(c, seam->step);
}

void add_sewing(Composing *c, BlockList *out) {
    BlockList inner = {0}, seams = {0};
    add_sewing_steps(c, &inner);
    for (int i = 0; i < c->pattern->seams.count; i++)
        add_seam(c, i, &seams);
    add_section(c, &inner, ROLE_PART, 3, "seams", say(c, "seam.title", NULL), &seams);
    add_section(c, out, ROLE_SEWING, 2, "sewing", say(c, "part.sewing", NULL), &inner);
}
