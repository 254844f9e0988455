// How hard it is to sew, counted from the seams and told with its sum.
#include <math.h>

#include "booklet/composing.h"
#include "geometry/tolerance.h"
#include "pattern/grain.h"
#include "pattern/seam.h"

#define EASE_COUNTS_MM 2.0  // less is no work for the fingers
#define CORNER_COSINE 0.906 // of 25 degrees: a smaller turn is sewn round

// How hard: a rule of thumb of this program, told with its sum. A seam is a point, a curved one another, one
// with ease to hold in another, each corner to turn at another; a piece on the bias, which stretches while it
// is handled, two; a slit two.
#define BIAS_POINTS 2
#define SLIT_POINTS 2
#define EASY_MOST 9
#define MIDDLING_MOST 18

typedef struct Hardness {
    int pieces, seams, curved, eased, corners, bias, slits;
    int points;
} Hardness;

static bool side_is_curved(const Pattern *pattern, const SeamEdgeList *side) {
    for (int i = 0; i < side->count; i++) {
        const SeamEdge *at = &side->items[i];
        if (!path_is_straight(&pattern->pieces.items[at->piece].edges.items[at->edge].path))
            return true;
    }
    return false;
}

static bool seam_is_of_paper(const Pattern *pattern, const Seam *seam) {
    return piece_is_template(&pattern->pieces.items[seam->a.items[0].piece]) &&
           piece_is_template(&pattern->pieces.items[seam->b.items[0].piece]);
}

static int corners_in(const Path *path) {
    int corners = 0;
    for (int i = 1; i < path->count; i++) {
        const Point before = segment_direction(&path->items[i - 1], 1);
        const Point after = segment_direction(&path->items[i], 0);
        corners += point_dot(before, after) < CORNER_COSINE;
    }
    return corners;
}

// A corner lies in the line, or a dot on it says where to stop and turn.
static int edge_corners(const Piece *piece, const Path *edge) {
    int turns = 0;
    for (int i = 0; i < piece->dots.count; i++)
        turns += piece->dots.items[i].kind == DOT_PIVOT &&
                 path_distance(edge, piece->dots.items[i].at) <= POINT_ON_MM;
    const int corners = corners_in(edge);
    return corners > turns ? corners : turns;
}

static int side_corners(const Pattern *pattern, const SeamEdgeList *side) {
    int corners = 0;
    for (int i = 0; i < side->count; i++) {
        const Piece *piece = &pattern->pieces.items[side->items[i].piece];
        corners += edge_corners(piece, &piece->edges.items[side->items[i].edge].path);
    }
    return corners;
}

static Hardness hardness_of(const Pattern *pattern) {
    Hardness hard = {.slits = pattern->pull_on.stated && pattern->pull_on.slit > 0 ? 1 : 0};
    for (int i = 0; i < pattern->pieces.count; i++) {
        const Piece *piece = &pattern->pieces.items[i];
        if (piece_is_template(piece))
            continue;
        hard.pieces++;
        hard.bias += piece_is_true_bias(piece);
    }
    for (int i = 0; i < pattern->seams.count; i++) {
        const Seam *seam = &pattern->seams.items[i];
        if (seam_is_of_paper(pattern, seam))
            continue;
        hard.seams++;
        hard.curved += side_is_curved(pattern, &seam->a) || side_is_curved(pattern, &seam->b);
        hard.eased += fabs(seam->ease) >= EASE_COUNTS_MM;
        hard.corners += side_corners(pattern, &seam->a);
    }
    hard.points = hard.seams + hard.curved + hard.eased + hard.corners + BIAS_POINTS * hard.bias +
                  SLIT_POINTS * hard.slits;
    return hard;
}

void add_hardness(Composing *c, BlockList *out) {
    const Hardness hard = hardness_of(c->pattern);
    if (hard.pieces == 0)
        return;
    const char *grade = say(c,
                            hard.points <= EASY_MOST       ? "hard.easy"
                            : hard.points <= MIDDLING_MOST ? "hard.middling"
                                                           : "hard.demanding",
                            NULL);
    BlockList inner = {0};
    Buffer counts;
    buffer_init(&counts);
    language_count(c->language, &counts, "hard.pieces", hard.pieces);
    buffer_add_text(&counts, ", ");
    language_count(c->language, &counts, "hard.seams", hard.seams);
    const struct {
        const char *key;
        int count;
    } rest[] = {{"hard.curved", hard.curved},
                {"hard.eased", hard.eased},
                {"hard.corners", hard.corners},
                {"hard.bias", hard.bias},
                {"hard.slits", hard.slits}};
    for (size_t i = 0; i < sizeof rest / sizeof *rest; i++)
        if (rest[i].count > 0) {
            buffer_add_text(&counts, ", ");
            language_count(c->language, &counts, rest[i].key, rest[i].count);
        }
    add_paragraph(c, &inner, say(c, "hard.says", grade, keep(c, &counts), NULL));
    add_paragraph(c, &inner,
                  say(c, "hard.how", arena_format(c->arena, "%d", hard.points),
                      arena_format(c->arena, "%d", EASY_MOST), arena_format(c->arena, "%d", MIDDLING_MOST),
                      say_mm(c, EASE_COUNTS_MM), NULL));
    add_section(c, out, ROLE_PLAIN, 2, NULL, say(c, "hard.title", NULL), &inner);
}
