// Sewing: the order, from the recipe's own prose, then each seam with both its sides.
#include <math.h>

#include "base/memory.h"
#include "booklet/composing.h"
#include "pattern/seam.h"

#define EASE_TOLD_MM 0.05

// "neckline of Back, neckline of Front".
static const char *side_words(Composing *c, const SeamEdgeList *side) {
    Buffer text;
    buffer_init(&text);
    for (int i = 0; i < side->count; i++) {
        const Piece *piece = &c->pattern->pieces.items[side->items[i].piece];
        const Edge *edge = &piece->edges.items[side->items[i].edge];
        if (i > 0)
            buffer_add_text(&text, ", ");
        language_say(c->language, &text, "seam.edge", say_name(c, edge->name), piece->name, NULL);
    }
    return keep(c, &text);
}

static const char *ease_words(Composing *c, const Seam *seam, const char *a, const char *b) {
    const double ease = fabs(seam->ease);
    if (ease < EASE_TOLD_MM)
        return say(c, "seam.no_ease", NULL);
    return say(c, seam->ease > 0 ? "seam.ease" : "seam.stretch", say_mm(c, ease), a, b, NULL);
}

static int notch_groups(const Composing *c, const Seam *seam) {
    SeamNotchList notches = {0};
    seam_side_notches(c->pattern, seam, true, &notches);
    const int count = notches.count;
    mem_free(notches.items);
    return count;
}

static void add_seam(Composing *c, int index, BlockList *out) {
    const Seam *seam = &c->pattern->seams.items[index];
    const SeamWalk walk = seam_walk(c->pattern, seam);
    const char *a = side_words(c, &seam->a), *b = side_words(c, &seam->b);
    BlockList inner = {0};
    add_paragraph(c, &inner,
                  say(c, "seam.says", a, say_mm(c, walk.length_a), b, say_mm(c, walk.length_b),
                      ease_words(c, seam, a, b), NULL));
    const int notches = notch_groups(c, seam);
    if (notches > 0)
        add_paragraph(c, &inner, say_count(c, "seam.notches", notches));
    if (!walk.holds)
        add_notice(c, &inner, TONE_FAILED, say(c, "seam.failed", say_mm(c, fabs(walk.difference)), NULL),
                   false);
    BookPicture *picture = add_figure(c, &inner, 1, (SpanList){0});
    *picture =
        (BookPicture){.kind = BOOK_PICTURE_SEAM, .seam = index, .alt = say(c, "figure.seam_alt", a, b, NULL)};
    add_section(c, out, ROLE_STEP, 4, arena_format(c->arena, "seam-%d", index + 1), seam->name, &inner);
    BookBlock *section = &out->items[out->count - 1];
    section->items[0].authored = true;
}

void add_sewing(Composing *c, BlockList *out) {
    BlockList inner = {0}, seams = {0};
    add_sewing_steps(c, &inner);
    for (int i = 0; i < c->pattern->seams.count; i++)
        add_seam(c, i, &seams);
    add_section(c, &inner, ROLE_PART, 3, "seams", say(c, "seam.title", NULL), &seams);
    add_section(c, out, ROLE_SEWING, 2, "sewing", say(c, "part.sewing", NULL), &inner);
}
