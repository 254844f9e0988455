#include "sample.h"

#include <criterion/criterion.h>
#include <string.h>

#include "base/memory.h"
#include "pattern/own.h"
#include "pattern/prove.h"
#include "pattern/seam.h"

static Path straight(Point from, Point to) {
    Path path = {0};
    path_line(from, to, &path);
    return path;
}

Piece sample_half_funnel(Arena *arena, const char *name, double h, double height) {
    const Point v = point(0, -h), s = point(h, 0), u = point(h, height), t = point(0, height);
    Path paths[4] = {straight(v, s), straight(s, u), straight(u, t), straight(t, v)};
    const NamedPath edges[4] = {
        {"neckline", &paths[0]}, {"side", &paths[1]}, {"top", &paths[2]}, {"centre", &paths[3]}};
    Piece piece = {0};
    double gap;
    int at;
    cr_assert_eq(piece_trace(arena, name, edges, 4, &piece, &gap, &at), PIECE_OK);
    piece.grain = GRAIN_ALONG;
    piece.grain_angle = 45;
    piece.grain_edge = "neckline";
    for (int i = 0; i < 4; i++)
        path_finish(&paths[i]);
    return piece;
}

Piece sample_funnel(Arena *arena, const char *name, double h, double height) {
    const Piece half = sample_half_funnel(arena, name, h, height);
    Piece faced, whole;
    cr_assert_eq(piece_unfold(arena, &half, "top", &faced), PIECE_OK);
    cr_assert_eq(piece_unfold(arena, &faced, "centre", &whole), PIECE_OK);
    return whole;
}

Piece sample_polygon(Arena *arena, const char *name, const Point *corners, int count) {
    NamedPath *edges = arena_take(arena, sizeof *edges * (size_t)count);
    Path *paths = arena_take(arena, sizeof *paths * (size_t)count);
    for (int i = 0; i < count; i++) {
        paths[i] = straight(corners[i], corners[(i + 1) % count]);
        edges[i] = (NamedPath){arena_format(arena, "%c", 'a' + i), &paths[i]};
    }
    Piece piece = {0};
    double gap;
    int at;
    cr_assert_eq(piece_trace(arena, name, edges, count, &piece, &gap, &at), PIECE_OK);
    for (int i = 0; i < count; i++)
        path_finish(&paths[i]);
    return piece;
}

Piece sample_band(Arena *arena, const char *name) {
    Path neckline = {0}, outer = {0};
    cr_assert_eq(path_arc(point(0, 0), 70, 270, 80, &neckline), GEOM_OK);
    cr_assert_eq(path_arc(point(0, 0), 130, 270, 80, &outer), GEOM_OK);
    Path shoulder = straight(path_last(&neckline), path_last(&outer));
    Path centre = straight(path_first(&outer), path_first(&neckline));
    const NamedPath edges[4] = {
        {"neckline", &neckline}, {"shoulder", &shoulder}, {"outer", &outer}, {"centre", &centre}};
    Piece piece = {0};
    double gap;
    int at;
    cr_assert_eq(piece_trace(arena, name, edges, 4, &piece, &gap, &at), PIECE_OK);
    piece.grain = GRAIN_ALONG;
    piece.grain_angle = 90;
    piece.grain_edge = "centre";
    path_finish(&neckline);
    path_finish(&outer);
    path_finish(&shoulder);
    path_finish(&centre);
    return piece;
}

static void add_draft(Pattern *pattern) {
    const int index = pattern_add_draft(pattern, "Front", 0);
    Draft *draft = &pattern->drafts.items[index];
    Path axis = straight(point(0, 100), point(0, -400)), curve = {0};
    cr_assert_eq(path_arc(point(0, 0), 100, 0, 60, &curve), GEOM_OK);
    Mark mark = {.name = "axis", .step = 0, .line = 12, .kind = MARK_PATH, .piece = -1};
    pattern_own_path(pattern, &axis, &mark.path);
    ARRAY_ADD(&draft->marks, mark);
    mark = (Mark){.name = "curve", .step = 1, .line = 13, .kind = MARK_PATH, .piece = -1};
    pattern_own_path(pattern, &curve, &mark.path);
    ARRAY_ADD(&draft->marks, mark);
    ARRAY_ADD(&draft->marks,
              ((Mark){.name = "S", .step = 1, .line = 14, .point = {140, -20.70001}, .piece = -1}));
    ARRAY_ADD(&draft->marks,
              ((Mark){.name = "funnel", .step = 1, .line = 20, .kind = MARK_PIECE, .piece = 0}));
    ARRAY_ADD(&draft->dimensions,
              ((Dimension){.from = {0, 0}, .to = {140, 0}, .step = 1, .text = "a \"quarter\""}));
    ARRAY_ADD(&draft->dimensions, ((Dimension){.from = {0, -0.00001}, .to = {0, 140}, .step = 1}));
    path_finish(&axis);
    path_finish(&curve);
}

static void add_seam(Pattern *pattern, const char *name, const char *edge_a, const char *edge_b) {
    Seam seam = {.name = name, .step = 1, .tolerance = 1};
    const Piece *a = &pattern->pieces.items[0], *b = &pattern->pieces.items[1];
    ARRAY_ADD(&seam.a, ((SeamEdge){.piece = 0, .edge = piece_find_edge(a, edge_a)}));
    ARRAY_ADD(&seam.b, ((SeamEdge){.piece = 1, .edge = piece_find_edge(b, edge_b)}));
    ARRAY_ADD(&pattern->seams, seam);
}

void sample_pattern(Pattern *pattern) {
    pattern_init(pattern);
    pattern->recipe = "collars/sample-funnel";
    pattern->title = "Sample funnel";
    pattern->body = "Ada";
    ARRAY_ADD(&pattern->chapters, ((Chapter){.recipe = "blocks/sample",
                                             .title = "Block",
                                             .summary = "A block.",
                                             .hash = "00ff",
                                             .used_in = -1}));
    ARRAY_ADD(&pattern->chapters, ((Chapter){.recipe = "collars/sample-funnel",
                                             .title = "Sample funnel",
                                             .summary = "Two\nlines, \\ and \"quotes\"",
                                             .hash = "abcd",
                                             .used_in = -1}));
    ARRAY_ADD(&pattern->steps, ((Step){.chapter = 0, .line = 1, .title = "Block"}));
    ARRAY_ADD(&pattern->steps, ((Step){.chapter = 1, .line = 9, .title = "Rule the width"}));
    ARRAY_ADD(&pattern->inputs, ((Input){.name = "head_girth",
                                         .about = "round the head",
                                         .chapter = 1,
                                         .measure = MEASURE_LENGTH,
                                         .value = 560,
                                         .least = 1,
                                         .most = 0}));
    ARRAY_ADD(&pattern->inputs, ((Input){.name = "centre",
                                         .about = "how the centre is cut",
                                         .chapter = 1,
                                         .choice = true,
                                         .is_default = true,
                                         .measure = MEASURE_TEXT,
                                         .text = "seam",
                                         .options = "seam, fold",
                                         .least = 1}));
    ARRAY_ADD(&pattern->inputs, ((Input){.name = "waist_girth",
                                         .about = "round the waist",
                                         .chapter = 1,
                                         .optional = true,
                                         .missing = true,
                                         .is_default = true,
                                         .measure = MEASURE_LENGTH,
                                         .least = 1}));
    ARRAY_ADD(&pattern->notes, ((Note){.name = "bust", .step = 0, .measure = MEASURE_LENGTH, .value = 880}));
    ARRAY_ADD(&pattern->notes,
              ((Note){.name = "quarter", .step = 1, .measure = MEASURE_LENGTH, .value = 140}));
    ARRAY_ADD(&pattern->notes,
              ((Note){.name = "diagonal", .step = 1, .measure = MEASURE_LENGTH, .value = 140 * sqrt(2)}));
    ARRAY_ADD(&pattern->notes,
              ((Note){.name = "way", .step = 1, .measure = MEASURE_TEXT, .text = "h\xC3\xA9rit\xC3\xA9"}));
    ARRAY_ADD(&pattern->filled, ((Filled){.step = 1, .line = 10, .column = 4, .text = "14.0 cm"}));
    add_draft(pattern);
    Piece front = sample_funnel(&pattern->arena, "Front funnel", 140, 100);
    Piece back = sample_funnel(&pattern->arena, "Back funnel", 140, 100);
    front.draft = 0;
    front.step = 1;
    front.note = "mind the corner";
    OWN_ADD(&pattern->arena, &front.dots, ((Dot){.kind = DOT_PIVOT, .name = "S", .at = {140, 0}}));
    pattern_add_piece(pattern, &front);
    pattern_add_piece(pattern, &back);
    add_seam(pattern, "left side", "side", "side");
    add_seam(pattern, "right side", "side over centre", "side over centre");
    seam_notch(pattern, 0, 50, 1);
    ARRAY_ADD(&pattern->remarks,
              ((Remark){.kind = REMARK_CAUTION, .step = 1, .text = "No cords at a child's neck."}));
    ARRAY_ADD(&pattern->proofs, ((Proof){.kind = PROOF_TOLD,
                                         .what = "the funnel passes over the head",
                                         .step = 1,
                                         .measure = MEASURE_LENGTH,
                                         .found = 564.6,
                                         .wanted = 560,
                                         .relation = "at least",
                                         .holds = true,
                                         .piece = -1,
                                         .edge = -1}));
    pattern->pull_on = (PullOn){.stated = true,
                                .step = 1,
                                .length = 564.6,
                                .slit = 0,
                                .stretch = 0.03,
                                .ease = 20,
                                .head_girth = 560};
}

const Proof *proof_find(const Pattern *pattern, const char *what) {
    for (int i = 0; i < pattern->proofs.count; i++)
        if (strcmp(pattern->proofs.items[i].what, what) == 0)
            return &pattern->proofs.items[i];
    return NULL;
}

const Proof *proof_found(const Pattern *pattern, const char *what) {
    const Proof *proof = proof_find(pattern, what);
    cr_assert_not_null(proof, "%s", what);
    return proof;
}

void prove_again(Pattern *pattern) {
    const char *unknown;
    pattern_prove(pattern, NULL, 0, &unknown);
    cr_assert_null(unknown);
}
