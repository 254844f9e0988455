#include "example.h"

#include <assert.h>

#include "base/memory.h"
#include "geometry/hobby.h"

static void add_point(Pattern *pattern, int draft, int step, const char *name, double x, double y) {
    ARRAY_ADD(&pattern->drafts.items[draft].marks,
              ((Mark){.name = name, .step = step, .kind = MARK_POINT, .point = {x, y}, .piece = -1}));
}

static void add_path(Pattern *pattern, int draft, int step, const char *name, const Path *path) {
    Mark mark = {.name = name, .step = step, .kind = MARK_PATH, .piece = -1};
    pattern_own_path(pattern, path, &mark.path);
    ARRAY_ADD(&pattern->drafts.items[draft].marks, mark);
}

static void add_dimension(Pattern *pattern, int draft, int step, const char *text, Point from, Point to) {
    ARRAY_ADD(&pattern->drafts.items[draft].dimensions,
              ((Dimension){.from = from, .to = to, .step = step, .text = text}));
}

static Piece traced(Pattern *pattern, const char *name, const NamedPath *edges, int count) {
    Piece piece;
    PieceError error = piece_trace(&pattern->arena, name, edges, count, &piece, NULL, NULL);
    assert(error == PIECE_OK);
    (void)error;
    piece.draft = pattern->drafts.count > 0 ? 0 : -1;
    piece.step = 0;
    return piece;
}

static void start(Pattern *pattern, const char *title) {
    pattern_init(pattern);
    pattern->recipe = "collars/example";
    pattern->title = title;
    pattern->body = "bust 88";
    ARRAY_ADD(&pattern->chapters,
              ((Chapter){.recipe = "blocks/example", .title = "Block", .depth = 0, .used_in = -1}));
    ARRAY_ADD(&pattern->chapters,
              ((Chapter){.recipe = "collars/example",
                         .title = title,
                         .summary = "A funnel set on a square neckline, cut on the straight so "
                                    "that it falls on the bias over the shoulder.",
                         .depth = 0,
                         .used_in = -1}));
    ARRAY_ADD(&pattern->steps, ((Step){.chapter = 0, .title = "The block"}));
    ARRAY_ADD(&pattern->steps, ((Step){.chapter = 1, .title = "Rule the width"}));
    ARRAY_ADD(&pattern->steps, ((Step){.chapter = 1, .title = "Raise the funnel"}));
}

// The square: 140 mm each way from the corner, neckline at 45 degrees, 90 mm high.
static Piece funnel(Pattern *pattern, const char *name, double half, double height) {
    Point v = point(0, 0), s = point(half, half), u = point(half, half + height), t = point(0, half + height);
    Path neckline = {.items = NULL}, side = {.items = NULL}, top = {.items = NULL}, centre = {.items = NULL};
    path_line(v, s, &neckline);
    path_line(s, u, &side);
    path_line(u, t, &top);
    path_line(t, v, &centre);
    NamedPath edges[] = {{"neckline", &neckline}, {"side", &side}, {"top", &top}, {"centre", &centre}};
    Piece piece = traced(pattern, name, edges, 4), open;
    piece_unfold(&pattern->arena, &piece, "top", &open);
    piece_unfold(&pattern->arena, &open, "centre", &piece);
    path_finish(&neckline);
    path_finish(&side);
    path_finish(&top);
    path_finish(&centre);
    piece.grain = GRAIN_BIAS;
    piece.grain_angle = 45;
    piece.grain_edge = "neckline";
    piece.cloth = "self";
    return piece;
}

static void draw_block(Pattern *pattern) {
    int d = pattern_add_draft(pattern, "front", 0);
    Path path = {.items = NULL};
    path_line(point(0, 0), point(0, 330), &path);
    add_path(pattern, d, 0, "axis", &path);
    path_line(point(70, 400), point(190, 355), &path);
    add_path(pattern, d, 0, "shoulder", &path);
    path_box_curve(point(0, 330), 0, point(70, 400), 90, 0.5523, &path);
    add_path(pattern, d, 0, "neck", &path);
    path_box_curve(point(190, 355), -110, point(240, 200), 0, 0.5523, &path);
    add_path(pattern, d, 0, "armhole", &path);
    add_point(pattern, d, 0, "N", 70, 400);
    add_point(pattern, d, 0, "SP", 190, 355);
    path_line(point(0, 240), point(140, 380), &path);
    add_path(pattern, d, 1, "neckline", &path);
    path_line(point(140, 373.75), point(140, 470), &path);
    add_path(pattern, d, 2, "side", &path);
    path_line(point(140, 470), point(0, 470), &path);
    add_path(pattern, d, 2, "top", &path);
    path_finish(&path);
    add_point(pattern, d, 1, "S", 140, 373.75);
    add_point(pattern, d, 2, "U", 140, 470);
    add_point(pattern, d, 2, "T", 0, 470);
    add_point(pattern, d, 1, "G", 0, 373.75);
    add_point(pattern, d, 1, "V", 0, 240);
    add_dimension(pattern, d, 1, NULL, point(0, 373.75), point(140, 373.75));
    add_dimension(pattern, d, 2, "height", point(140, 373.75), point(140, 470));
}

void example_funnel(Pattern *pattern) {
    start(pattern, "Square funnel");
    draw_block(pattern);
    Piece piece = funnel(pattern, "Front funnel", 140, 90);
    piece.cut = 1;
    piece.edges.items[0].corner = CORNER_SQUARE;
    int neckline = piece_find_edge(&piece, "neckline");
    piece_add_notch(&pattern->arena, &piece, neckline, 66, 1, NULL);
    pattern_add_piece(pattern, &piece);
    piece = funnel(pattern, "Back funnel", 120, 90);
    piece.cut = 1;
    piece_add_notch(&pattern->arena, &piece, piece_find_edge(&piece, "neckline"), 60, 2, NULL);
    pattern_add_piece(pattern, &piece);

    Path lower = {.items = NULL}, end = {.items = NULL}, upper = {.items = NULL}, centre = {.items = NULL};
    path_box_curve(point(0, 0), 0, point(190, 22), 12, 0.5523, &lower);
    path_line(point(190, 22), point(183, 60), &end);
    path_box_curve(point(183, 60), 188, point(0, 42), 180, 0.5523, &upper);
    path_line(point(0, 42), point(0, 0), &centre);
    NamedPath edges[] = {{"lower", &lower}, {"end", &end}, {"upper", &upper}, {"centre back", &centre}};
    Piece stand = traced(pattern, "Stand", edges, 4);
    piece_place_on_fold(&pattern->arena, &stand, "centre back", &piece);
    piece.cut = 2;
    piece.cloth = "self and interfacing";
    piece.grain = GRAIN_ALONG;
    piece.grain_angle = 90;
    piece.one_way = true;
    piece.draft = -1;
    piece_add_notch(&pattern->arena, &piece, piece_find_edge(&piece, "lower"), 95, 1, NULL);
    pattern_add_piece(pattern, &piece);
    path_finish(&lower);
    path_finish(&end);
    path_finish(&upper);
    path_finish(&centre);

    Point corners[4] = {{0, 0}, {160, 0}, {160, 110}, {0, 110}};
    Path sides[4] = {{.items = NULL}};
    for (int i = 0; i < 4; i++)
        path_line(corners[i], corners[(i + 1) % 4], &sides[i]);
    NamedPath facing[] = {{"hem", &sides[0]}, {"right", &sides[1]}, {"top", &sides[2]}, {"left", &sides[3]}};
    piece = traced(pattern, "Facing", facing, 4);
    for (int i = 0; i < 4; i++)
        path_finish(&sides[i]);
    piece.cut = 4;
    piece.pair = true;
    piece.cloth = "lining";
    piece.note = "right side up";
    piece.grain = GRAIN_ANGLE;
    piece.grain_angle = 0;
    piece.draft = -1;
    piece.edges.items[1].allowance = 6;
    static Dot dots[2] = {{DOT_PIVOT, "K", {130, 80}}, {DOT_DRILL, NULL, {25, 25}}};
    piece.dots.items = dots;
    piece.dots.count = 2;
    static InnerLine lines[3];
    const struct {
        InnerKind kind;
        const char *name;
        Point from, to;
    } inner[3] = {{INNER_ROLL, "roll", {10, 95}, {150, 95}},
                  {INNER_CENTRE, "centre", {80, 0}, {80, 30}},
                  {INNER_MATCH, "shoulder", {140, 10}, {140, 60}}};
    for (int i = 0; i < 3; i++) {
        Path line = {.items = NULL};
        path_line(inner[i].from, inner[i].to, &line);
        lines[i] = (InnerLine){.kind = inner[i].kind, .name = inner[i].name, .root = inner[i].name};
        pattern_own_path(pattern, &line, &lines[i].path);
        path_finish(&line);
    }
    piece.lines.items = lines;
    piece.lines.count = 3;
    pattern_add_piece(pattern, &piece);

    ARRAY_ADD(&pattern->inputs,
              ((Input){.name = "head_girth", .chapter = 0, .measure = MEASURE_LENGTH, .value = 560}));
    ARRAY_ADD(
        &pattern->inputs,
        ((Input){.name = "height", .chapter = 1, .choice = true, .measure = MEASURE_LENGTH, .value = 90}));
    ARRAY_ADD(
        &pattern->inputs,
        ((Input){.name = "centre", .chapter = 1, .choice = true, .measure = MEASURE_TEXT, .text = "seam"}));
    ARRAY_ADD(&pattern->proofs, ((Proof){.kind = PROOF_TOLD,
                                         .what = "the funnel passes over the head",
                                         .measure = MEASURE_LENGTH,
                                         .found = 564.6,
                                         .wanted = 560,
                                         .relation = "at least",
                                         .holds = true,
                                         .piece = -1,
                                         .edge = -1}));
    ARRAY_ADD(
        &pattern->remarks,
        ((Remark){
            REMARK_CAUTION, 1,
            "Never put a cord or tie at the neck of a garment for a young child; rules differ by country: "
            "check those in force where the garment is sold or worn."}));
    ARRAY_ADD(&pattern->remarks,
              ((Remark){REMARK_WARNING, 2, "The funnel is higher than the neck is long."}));
}

void example_unproven(Pattern *pattern) {
    example_funnel(pattern);
    ARRAY_ADD(&pattern->proofs, ((Proof){.kind = PROOF_OWN,
                                         .what = "neck seam",
                                         .measure = MEASURE_LENGTH,
                                         .found = 366,
                                         .wanted = 363,
                                         .relation = "equal",
                                         .tolerance = 1,
                                         .holds = false,
                                         .way_out = "shorten the neckline of the front funnel by 3 mm",
                                         .piece = 0,
                                         .edge = 0}));
    ARRAY_ADD(&pattern->proofs, ((Proof){.kind = PROOF_TOLD,
                                         .what = "the collar lies flat",
                                         .measure = MEASURE_ANGLE,
                                         .found = 92,
                                         .wanted = 90,
                                         .relation = "equal",
                                         .tolerance = 0.5,
                                         .holds = false,
                                         .piece = -1,
                                         .edge = -1}));
}

void example_large(Pattern *pattern) {
    example_funnel(pattern);
    pattern->title = "Large funnel";
    for (int i = 0; i < 4; i++) {
        static const char *const names[] = {"Front bodice", "Back bodice", "Front facing", "Back facing"};
        Piece piece = funnel(pattern, names[i], 200 + 20 * i, 120);
        piece.cut = 1;
        piece_add_notch(&pattern->arena, &piece, piece_find_edge(&piece, "neckline"), 100, 2, NULL);
        pattern_add_piece(pattern, &piece);
    }
}

void example_band(Pattern *pattern, double length, double height, const char *name) {
    start(pattern, "Band");
    Point corners[4] = {{0, 0}, {length, 0}, {length, height}, {0, height}};
    Path sides[4] = {{.items = NULL}};
    for (int i = 0; i < 4; i++)
        path_line(corners[i], corners[(i + 1) % 4], &sides[i]);
    NamedPath edges[] = {{"hem", &sides[0]}, {"right", &sides[1]}, {"top", &sides[2]}, {"left", &sides[3]}};
    Piece piece = traced(pattern, name, edges, 4);
    for (int i = 0; i < 4; i++) {
        piece.edges.items[i].allowance = 0;
        path_finish(&sides[i]);
    }
    piece.cut = 1;
    piece.cloth = "self";
    piece.grain = GRAIN_ANGLE;
    piece.grain_angle = 0;
    pattern_add_piece(pattern, &piece);
}

void example_square(Pattern *pattern, double side, const char *name) {
    example_band(pattern, side, side, name);
    pattern->title = "Square";
    pattern->pieces.items[0].grain = GRAIN_NONE;
}

void example_crowded(Pattern *pattern) {
    static const char *const names[] = {"neck_point", "centre_neck", "new_point", "new_centre",
                                        "shoulder",   "nape",        "hollow",    "middle"};
    start(pattern, "Crowded");
    int d = pattern_add_draft(pattern, "small neck", 0);
    for (int i = 0; i < 8; i++) {
        Path path = {.items = NULL};
        path_line(point(i, 12 - i), point(20 - i, i), &path);
        add_path(pattern, d, 1, i < 4 ? "neckline" : "new_neckline", &path);
        path_finish(&path);
        add_point(pattern, d, 1, names[i], 2.0 * i, 10 - i);
    }
}

SheetOptions example_options(SheetFormat format) {
    return (SheetOptions){
        .format = format, .show = SHOW_BOTH, .width = 210, .height = 297, .scale = 1, .units = UNITS_CM};
}
