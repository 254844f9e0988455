// The faced necklines cut from the shoulders to the centres: jewel, scoop, V, square, boat, sweetheart.
// Values are worked from the example block by plane geometry; widths, room and stays are common practice, no
// source.
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"
#include "pattern/allowance.h"

#define ON_BODY "blocks/close-fitting necklines/"
#define ON_PAPER "blocks/measured necklines/"
#define WOMEN(size) TESTS_DIR "/../stdlib/bodies/women-" size ".txt"

static const char *const shapes[] = {"jewel", "scoop", "v", "square", "boat", "sweetheart"};
#define SHAPES 6

static void whole(const char *chain, const char *settings, double mm) {
    Pattern p;
    draft_of(chain, settings, EXAMPLE_88, &p);
    close_to(note_of(&p, "round_neck"), mm, 0.5, chain);
    pattern_finish(&p);
}

Test(necklines_round, a_jewel_is_the_neck_a_little_eased) { // T19
    Pattern p;
    draft_of(ON_BODY "jewel", "lower_back=2mm back_fullness=0.5523", EXAMPLE_88, &p);
    const Point front = mark_of(&p, "Front, new neckline", "neck_point")->point,
                back = mark_of(&p, "Back, new neckline", "neck_point")->point;
    close_to(front.x, 69.9, 0.5, "front neck point, across");
    close_to(front.y, -0.8, 0.5, "front neck point, down");
    close_to(back.x, 74.8, 0.5, "back neck point, across");
    close_to(back.y, -1.1, 0.5, "back neck point, down");
    close_to(note_of(&p, "round_neck"), 382.7, 0.5, "whole neckline");
    pattern_finish(&p);
}

Test(necklines_round, a_small_scoop_measures_what_plane_geometry_says) { // T20, T21
    Pattern p;
    draft_of(ON_BODY "scoop", "widen=1cm lower_front=2cm lower_back=1cm back_fullness=0.5523", EXAMPLE_88,
             &p);
    close_to(edge_length(&p, "Front", "neckline"), 126.8, 0.5, "front half");
    close_to(edge_length(&p, "Back", "neckline"), 86.5, 0.5, "back half");
    close_to(note_of(&p, "round_neck"), 426.6, 0.5, "whole neckline");
    pattern_finish(&p);
    whole(ON_BODY "scoop", "widen=2cm lower_front=9cm lower_back=1cm pinch=0mm back_fullness=0.5523", 566.9);
    whole(ON_BODY "scoop", "widen=5cm lower_front=6cm lower_back=3cm pinch=0mm back_fullness=0.5523", 604.9);
}

Test(necklines_round, a_scoop_does_not_pass_the_head_without_an_opening) { // T21
    Pattern p;
    draft_of(ON_BODY "scoop", "opening=none back_fullness=0.5523", EXAMPLE_88, &p);
    close_to(note_of(&p, "round_neck"), 499.4, 0.5, "whole neckline");
    cr_expect_not(proof_of(&p, "opening over the head")->holds,
                  "a head of 56 cm and 2 cm of room would pass");
    pattern_finish(&p);
    draft_of(ON_BODY "scoop", "back_fullness=0.5523", EXAMPLE_88, &p);
    close_to(note_of(&p, "slit_needed"), 46, 1e-6, "opening with 3 cm of room: 45.3, rounded up");
    close_to(note_of(&p, "cut_slit"), 80, 1e-6, "a zip shorter than 8 cm does not lie open");
    cr_expect(proof_of(&p, "opening over the head")->holds, "the zip is too short");
    pattern_finish(&p);
}

Test(necklines_round, the_opening_is_half_of_what_is_missing_rounded_up) { // T22: rule of common practice
    Pattern p;
    draft_of(ON_BODY "jewel", "widen=0mm lower_front=0mm lower_back=0mm back_fullness=0.5523", EXAMPLE_88,
             &p);
    close_to(note_of(&p, "slit_needed"), 114, 1e-6,
             "for a head of 56 cm and 3 cm of room: 113.6, rounded up");
    close_to(note_of(&p, "cut_slit"), 115, 1e-6, "rounded up to the half centimetre");
    pattern_finish(&p);
    draft_of(ON_BODY "jewel", "slit=8cm lower_back=2mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "cut_slit"), 80, 1e-6, "the slit that was chosen");
    cr_expect_not(proof_of(&p, "opening over the head")->holds,
                  "38.3 cm and 16 cm pass over a head of 56 cm");
    pattern_finish(&p);
}

static void ruled(const char *settings, double edge, double angle) {
    Pattern p;
    char all[128];
    snprintf(all, sizeof all, "hollow=0mm pinch=0mm %s", settings);
    draft_of(ON_BODY "v", all, EXAMPLE_88, &p);
    close_to(edge_length(&p, "Front", "neckline"), edge, 0.1, settings);
    close_to(note_of(&p, "point_angle"), angle, 0.1, settings);
    pattern_finish(&p);
}

Test(necklines_round, a_v_is_a_straight_line_to_the_centre) { // T61
    ruled("widen=0mm depth=20cm", 210.9, 37.0);
    ruled("widen=2cm depth=20cm", 212.8, 47.8);
    ruled("widen=1cm depth=16cm", 174.9, 52.0);
}

Test(necklines_round, the_back_takes_up_the_direction_of_the_v) {
    Pattern p;
    draft_of(ON_BODY "v", "widen=0mm hollow=0mm pinch=0mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "front_angle"), 92.7, 0.1, "V to shoulder");
    close_to(note_of(&p, "back_angle"), 87.3, 0.1, "back to shoulder");
    cr_expect(proof_of(&p, "smooth: shoulder, first end")->holds, "front and back meet in a corner");
    pattern_finish(&p);
}

Test(necklines_round, a_square_is_a_side_and_a_bottom) { // T62
    Pattern p;
    draft_of(ON_BODY "square", "widen=4cm depth=14cm lean=0mm", EXAMPLE_88, &p);
    close_to(edge_length(&p, "Front", "neckline"), 234.5, 0.2, "half edge");
    close_to(note_of(&p, "corner_angle"), 90, 0.01, "corner without lean");
    pattern_finish(&p);
}

Test(necklines_round,
     the_free_edge_of_a_facing_follows_the_law_of_parallels) { // T63: neckline + width x turn
    Pattern p;
    draft_of(ON_BODY "jewel", "widen=0mm lower_front=0mm lower_back=0mm back_fullness=0.5523", EXAMPLE_88,
             &p);
    // The facing is 1 mm shorter at the shoulder, so that it rolls in.
    close_to(edge_length(&p, "Front neck facing", "inner"), 183.8 - 1, 0.3, "front");
    close_to(edge_length(&p, "Back neck facing", "inner"), 146.2 - 1, 0.3, "back");
    close_to(edge_length(&p, "Front", "neckline") - edge_length(&p, "Front neck facing", "neckline"), 1, 0.01,
             "held of the facing");
    pattern_finish(&p);
}

Test(necklines_round, a_facing_stays_inside_the_armhole) {
    Pattern p;
    draft_of(ON_BODY "square", NULL, WOMEN("80"), &p);
    const Path *armhole = piece_find_path(piece_of(&p, "Front"), "armhole"),
               *inner = piece_find_path(piece_of(&p, "Front neck facing"), "inner");
    double nearest = 1e9;
    for (double d = 0; d < path_length(armhole); d += 1) {
        Point at;
        cr_assert(path_at(armhole, d, &at) == GEOM_OK);
        nearest = fmin(nearest, path_distance(inner, at));
    }
    cr_expect(nearest > 6, "the facing comes to %.1f mm from the armhole", nearest);
    pattern_finish(&p);
}

// The angle at the middle of a dart drawn foot, point, foot.
static double dart_angle(const Pattern *pattern, const char *draft) {
    const Path *dart = &mark_of(pattern, draft, "dart")->path;
    const Point bust = mark_of(pattern, draft, "bust_point")->point;
    const double leg = point_distance(bust, path_first(dart));
    return DEGREES(2 * asin(point_distance(path_first(dart), path_last(dart)) / (2 * leg)));
}

static double path_of(const Pattern *pattern, const char *draft, const char *mark) {
    return path_length(&mark_of(pattern, draft, mark)->path);
}

Test(necklines_round, a_centimetre_pinched_18_cm_from_the_bust_point_swings_3_18_degrees) { // T67
    Pattern p;
    draft_of(ON_BODY "v", "depth=163mm pinch=10mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "fold_length"), 180, 0.1, "middle of the edge to the bust point");
    close_to(note_of(&p, "turn"), 3.18, 0.01, "swing");
    pattern_finish(&p);
}

Test(necklines_round, the_pinch_goes_into_the_dart_and_nothing_else_changes) {
    Pattern p;
    draft_of(ON_BODY "scoop", "lower_front=9cm pinch=8mm", EXAMPLE_88, &p);
    const double turn = note_of(&p, "turn");
    close_to(turn, DEGREES(2 * asin(8 / (2 * note_of(&p, "fold_length")))), 1e-6, "swing");
    const char *before = "Front, new neckline", *after = "Scooped front";
    close_to(dart_angle(&p, after) - dart_angle(&p, before), turn, 0.01, "growth of the dart");
    static const char *const kept[] = {"centre", "shoulder", "armhole", "side"};
    for (int i = 0; i < 4; i++)
        close_to(path_of(&p, after, kept[i]), path_of(&p, before, kept[i]), 0.01, kept[i]);
    const double shorter = path_of(&p, before, "neckline") - path_of(&p, "Front, gape taken out", "neckline");
    cr_expect(shorter > 4 && shorter < 12, "a pinch of 8 mm took %.1f mm out of the edge", shorter);
    pattern_finish(&p);
}

Test(necklines_round, where_the_block_shows_no_bust_point_the_paper_is_pinched) {
    Pattern p;
    draft_of(ON_PAPER "v", NULL, PAPER_88, &p);
    cr_expect(remarked(&p, "On your paper block"), "no word on what to do on paper");
    pattern_finish(&p);
    draft_of(ON_PAPER "v", "bust_point_across=9.85cm bust_point_down=25.5cm", PAPER_88, &p);
    cr_expect(remarked(&p, "no waist dart"), "no word on the dart");
    pattern_finish(&p);
}

Test(necklines_round,
     every_proof_holds_on_every_block_and_size) { // P9, P10 and the rest, as the program has them
    static const char *const bodies[] = {WOMEN("80"), WOMEN("100"), WOMEN("116"), EXAMPLE_88};
    for (int i = 0; i < SHAPES; i++) {
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "%s", shapes[i]);
        for (int b = 0; b < 4; b++)
            proven_whole(chain, NULL, bodies[b]);
        proven_whole(chain, "back_shoulder=closed opening=back", EXAMPLE_88);
        snprintf(chain, sizeof chain, ON_PAPER "%s", shapes[i]);
        proven_whole(chain, NULL, PAPER_88);
        snprintf(chain, sizeof chain, "blocks/three-measures necklines/%s", shapes[i]);
        proven_whole(chain, NULL, EXAMPLE_88);
    }
    proven_whole(ON_BODY "square", "back_style=square", EXAMPLE_88);
    proven_whole(ON_BODY "boat", "ends=round lower_back=30mm", EXAMPLE_88);
    proven_whole(ON_BODY "jewel", "opening=front", EXAMPLE_88);
}

Test(necklines_round, they_are_square_at_the_centre_but_for_the_pointed_ones) { // P3, P7
    for (int i = 0; i < SHAPES; i++) {
        Pattern p;
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "%s", shapes[i]);
        draft_of(chain, "opening=none", EXAMPLE_88, &p);
        const bool pointed = i == 2 || i == 5;
        static const char *const names[] = {"Front", "Back", "Front neck facing", "Back neck facing"};
        for (int k = 0; k < 4; k++) {
            const Piece *piece = piece_of(&p, names[k]);
            double first, last;
            piece_fold_angles(piece, piece_find_edge(piece, "centre"), &first, &last);
            if (pointed && k % 2 == 0)
                cr_expect(fabs(first - 90) > 20, "%s: the %s has no point", chain, names[k]);
            else
                close_to(first, 90, 1, chain);
            close_to(last, 90, 1, chain);
        }
        pattern_finish(&p);
    }
}

// P9; where they lose in proportion the ease left is that part of the 10 mm (plane geometry).
Test(necklines_round, shoulders_lose_alike_or_in_proportion) {
    for (int i = 0; i < SHAPES; i++) {
        Pattern p;
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "%s", shapes[i]);
        draft_of(chain, NULL, EXAMPLE_88, &p);
        const double front = edge_length(&p, "Front", "shoulder"), back = edge_length(&p, "Back", "shoulder");
        const bool in_proportion = i == 3 || i == 4; // square and boat: little of the shoulder is left
        close_to(back - front, in_proportion ? 10 * front / 122.5 : 10, 0.02, chain);
        cr_expect(back - front < 0.12 * front, "%s: %.1f mm to ease into %.1f", chain, back - front, front);
        pattern_finish(&p);
    }
}

// The measures of PAPER_88 twice as long.
#define TWICE                                                                                     \
    "back_neck_width=14.4cm back_neck_depth=3cm front_neck_width=13.4cm front_neck_depth=14.4cm " \
    "front_shoulder_length=24.5cm front_shoulder_drop=6.7cm back_shoulder_length=26.5cm "         \
    "back_shoulder_drop=10cm"

static void doubles(const char *shape, const char *once, const char *twice) {
    char chain[80], all[512];
    snprintf(chain, sizeof chain, ON_PAPER "%s", shape);
    snprintf(all, sizeof all, TWICE " %s", twice);
    Pattern one, two;
    draft_of(chain, once, PAPER_88, &one);
    draft_of(chain, all, PAPER_88, &two);
    static const char *const names[] = {"Front", "Back"};
    for (int i = 0; i < 2; i++) {
        close_to(edge_length(&two, names[i], "neckline"), 2 * edge_length(&one, names[i], "neckline"), 0.02,
                 shape);
        close_to(edge_length(&two, names[i], "shoulder"), 2 * edge_length(&one, names[i], "shoulder"), 0.02,
                 shape);
    }
    pattern_finish(&one);
    pattern_finish(&two);
}

Test(necklines_round, twice_the_block_and_the_style_is_twice_the_neckline) { // P1
    doubles("jewel", NULL, "widen=6mm lower_front=14mm lower_back=8mm");
    doubles("scoop", NULL, "widen=40mm lower_front=10cm lower_back=20mm pinch=0mm");
    doubles("v", "depth=15cm pinch=0mm", "depth=30cm widen=20mm hollow=6mm lower_back=24mm pinch=0mm");
    doubles("square", "widen=30mm depth=10cm lower_back=10mm",
            "widen=60mm depth=20cm lean=14mm lower_back=20mm");
    doubles("boat", "widen=70mm lower_back=16mm", "widen=140mm lower_front=-30mm lower_back=32mm");
}

Test(necklines_round, collars_sit_on_the_round_ones) {
    static const char *const collars[] = {"bands/mandarin", "flat/peter-pan"};
    for (int i = 0; i < 2; i++) {
        char chain[120];
        snprintf(chain, sizeof chain, ON_BODY "jewel %s", collars[i]);
        proven_whole(chain, NULL, EXAMPLE_88);
        snprintf(chain, sizeof chain, ON_PAPER "jewel %s", collars[i]);
        proven_whole(chain, NULL, PAPER_88);
        snprintf(chain, sizeof chain, ON_BODY "scoop %s", collars[i]);
        proven_whole(chain, NULL, EXAMPLE_88);
        static const char *const refused[][2] = {{"square", "round the corner off"},
                                                 {"boat", "this collar would peak there"}};
        for (int k = 0; k < 2; k++) {
            snprintf(chain, sizeof chain, ON_BODY "%s %s", refused[k][0], collars[i]);
            refuses(chain, NULL, EXAMPLE_88, refused[k][1], "necklines/scoop");
        }
    }
    refuses(ON_BODY "sweetheart bands/mandarin", NULL, EXAMPLE_88, "comes to a point", "necklines/scoop");
    refuses(ON_BODY "v bands/mandarin", NULL, EXAMPLE_88, "comes to a point", "necklines/scoop");
    proven_whole(ON_BODY "v flat/peter-pan", NULL, EXAMPLE_88); // its halves meet at the point
}

Test(necklines_round, under_a_collar_they_make_no_facing) {
    Pattern p;
    draft_of(ON_BODY "jewel bands/mandarin", "gap=0mm", EXAMPLE_88, &p);
    cr_expect(pattern_find_piece(&p, "Front neck facing") < 0, "there are a facing and a collar");
    close_to(edge_length(&p, "Front", "neckline"), 113.1, 0.5, "the neckline is the jewel's");
    pattern_finish(&p);
}

Test(necklines_round, they_warn_as_a_cutter_would) {
    static const char *const cases[][3] = {
        {"v", "depth=23cm", "above it"},                      // bust point 25.5 cm down
        {"scoop", "lower_front=12cm lower_back=6cm", "slip"}, // low in front and behind
        {"square", NULL, "bra strap"},
        {"v", "hollow=-3mm", "bulges"},
        {"square", "lean=20mm depth=9cm", "no longer looks square"},
        {"jewel", "lower_front=0mm", "chokes"},
        {"scoop", "lower_back=5cm pinch=0mm", "shoulder blades"},
        {"sweetheart", "depth=20cm scye_depth=20cm", "deep enough"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Pattern p;
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "%s", cases[i][0]);
        draft_of(chain, cases[i][1], EXAMPLE_88, &p);
        cr_expect(remarked(&p, cases[i][2]), "%s (%s): no warning with '%s'", chain, cases[i][1],
                  cases[i][2]);
        pattern_finish(&p);
    }
}

Test(necklines_round, what_cannot_be_is_refused_with_a_way_out) {
    refuses(ON_BODY "boat", "widen=10cm", EXAMPLE_88, "2.5 cm", NULL);
    refuses(ON_BODY "boat", "ends=round lower_back=15mm", EXAMPLE_88, "at least 1 cm lower", NULL);
    refuses(ON_BODY "square", "widen=7cm shoulder_length=10.5cm", EXAMPLE_88, "roll out", NULL);
    refuses(ON_BODY "v", "widen=4cm depth=9cm hollow=10mm", EXAMPLE_88, "blunt", NULL);
    refuses(ON_PAPER "v", "depth=9cm front_neck_depth=10cm", PAPER_88, "above the block's own neckline",
            NULL);
    refuses(ON_PAPER "square", "back_style=square back_depth=3cm back_neck_depth=3.2cm", PAPER_88,
            "own neckline", NULL);
    refuses(ON_BODY "sweetheart", "low_across=70mm side_across=80mm", EXAMPLE_88, "too sharp", NULL);
}

Test(necklines_round, the_tape_is_cut_shorter_than_the_edge) { // 1 to 1.5 %: common practice, no source
    Pattern p;
    draft_of(ON_BODY "v", NULL, EXAMPLE_88, &p);
    close_to(note_of(&p, "front_stay"), 0.985 * edge_length(&p, "Front", "neckline"), 0.01, "tape of a V");
    pattern_finish(&p);
}

Test(necklines_round, corners_have_their_dots) {
    static const char *const cases[][3] = {{"v", NULL, "1 1"},
                                           {"sweetheart", NULL, "1 1"},
                                           {"square", NULL, "1 1"},
                                           {"square", "back_style=square", "2 2"},
                                           {"boat", NULL, "1 1"}}; // front, front facing
    for (int i = 0; i < 5; i++) {
        Pattern p;
        char chain[80], found[32];
        snprintf(chain, sizeof chain, ON_BODY "%s", cases[i][0]);
        draft_of(chain, cases[i][1], EXAMPLE_88, &p);
        static const char *const names[] = {"Front", "Front neck facing"};
        int dots[2] = {0};
        for (int k = 0; k < 2; k++) {
            const Piece *piece = piece_of(&p, names[k]);
            for (int d = 0; d < piece->dots.count; d++)
                dots[k] += piece->dots.items[d].kind == DOT_PIVOT;
        }
        snprintf(found, sizeof found, "%d %d", dots[0], dots[1]);
        cr_expect_str_eq(found, cases[i][2], "%s (%s)", chain, cases[i][1]);
        pattern_finish(&p);
    }
}

// Where the author's notch of that count lies on an edge, mm from its first end; -1 where there is none.
static double notch_at(const Pattern *pattern, const char *piece_name, const char *edge, int count) {
    const Piece *piece = piece_of(pattern, piece_name);
    for (int i = 0; i < piece->notches.count; i++) {
        const Notch *notch = &piece->notches.items[i];
        if (!notch->seam && notch->edge == piece_find_edge(piece, edge) && notch->count == count &&
            notch->at > 1)
            return notch->at;
    }
    return -1;
}

Test(necklines_round,
     bodice_and_facing_have_the_same_notches) { // one in front, two behind: common practice, no source
    for (int i = 0; i < SHAPES; i++) {
        Pattern p;
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "%s", shapes[i]);
        draft_of(chain, NULL, EXAMPLE_88, &p);
        const double front = notch_at(&p, "Front", "neckline", 1), back = notch_at(&p, "Back", "neckline", 2);
        cr_expect(front > 0 && back > 0, "%s: notches at %.1f and %.1f", chain, front, back);
        close_to(notch_at(&p, "Front neck facing", "neckline", 1), front, 0.01, chain);
        close_to(notch_at(&p, "Back neck facing", "neckline", 2), back, 0.01, chain);
        pattern_finish(&p);
    }
}

Test(necklines_round, the_ease_of_the_shoulder_lies_between_two_notches) { // 3 cm: common practice, no source
    Pattern p;
    draft_of(ON_BODY "jewel", NULL, EXAMPLE_88, &p);
    close_to(notch_at(&p, "Front", "shoulder", 1), 30, 0.2, "front");
    close_to(notch_at(&p, "Back", "shoulder", 1), 30, 0.2, "back");
    pattern_finish(&p);
    draft_of(ON_BODY "jewel", "back_shoulder=closed", EXAMPLE_88, &p);
    close_to(notch_at(&p, "Back", "shoulder", 1), -1, 0.01, "nothing to ease");
    pattern_finish(&p);
}

Test(necklines_round, a_slit_in_the_fold_leaves_room_to_stitch) { // 3 mm: common practice, no source
    Pattern p;
    draft_of("blocks/close-fitting bands/mandarin", "slit=15cm", EXAMPLE_88, &p);
    static const char *const names[] = {"Front", "Slit facing"};
    for (int i = 0; i < 2; i++) {
        const Piece *piece = piece_of(&p, names[i]);
        bool found = false;
        for (int k = 0; k < piece->lines.count; k++) {
            const Path *path = &piece->lines.items[k].path;
            if (strcmp(piece->lines.items[k].name, "opening") != 0)
                continue;
            found = true;
            close_to(path_first(path).x, 3, 0.01, "beside the centre at the neck");
            close_to(path_last(path).x, 0, 0.01, "on the centre at its end");
        }
        cr_expect(found, "%s shows no opening", names[i]);
    }
    pattern_finish(&p);
    draft_of("blocks/close-fitting bands/mandarin", "gap=8mm", EXAMPLE_88, &p);
    close_to(edge_length(&p, "Slit facing", "free_neck"), 8, 0.01, "free of the collar");
    cr_expect(proof_of(&p, "seam: slit facing neck seam")->holds, "the free edge is finished by nothing");
    pattern_finish(&p);
}

Test(necklines_round, a_v_passes_the_head_of_its_size_and_needs_no_zip) { // head girths of the size table
    static const char *const bodies[] = {WOMEN("80"), WOMEN("88"), WOMEN("100"), WOMEN("116")};
    for (int i = 0; i < 4; i++) {
        Pattern p;
        draft_of(ON_BODY "v", NULL, bodies[i], &p);
        const Proof *passes = proof_of(&p, "opening over the head");
        close_to(passes->found, note_of(&p, "round_neck"), 1e-6, bodies[i]); // nothing is opened
        cr_expect(passes->holds, "it does not pass");
        pattern_finish(&p);
    }
}

// The smallest radius of a path, over chords of 1 mm.
static double tightest(const Path *path) {
    double least = 1e9;
    for (double d = 1; d + 1 < path_length(path); d += 0.25) {
        Point before, at, after;
        cr_assert(path_at(path, d - 1, &before) == GEOM_OK && path_at(path, d, &at) == GEOM_OK &&
                  path_at(path, d + 1, &after) == GEOM_OK);
        const double turn = fabs(point_turn(point_sub(at, before), point_sub(after, at)));
        if (turn > 1e-6)
            least = fmin(least, 1 / RADIANS(turn));
    }
    return least;
}

Test(necklines_round,
     no_back_neck_has_a_hook_at_the_shoulder) { // a radius of 1 cm: common practice, no source
    static const char *const bodies[] = {WOMEN("80"), WOMEN("88"), WOMEN("116"), EXAMPLE_88};
    for (int i = 0; i < SHAPES * 4; i++) {
        Pattern p;
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "%s", shapes[i % SHAPES]);
        draft_of(chain, NULL, bodies[i / SHAPES], &p);
        const double radius = tightest(piece_find_path(piece_of(&p, "Back"), "neckline"));
        cr_expect(radius > 10, "%s: a radius of %.1f mm", chain, radius);
        pattern_finish(&p);
    }
}

Test(necklines_round, the_cut_line_of_a_facing_does_not_double_back) {
    for (int i = 0; i < SHAPES; i++) {
        Pattern p;
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "%s", shapes[i]);
        draft_of(chain, "opening=none", EXAMPLE_88, &p);
        Path cut = {0};
        cr_assert(piece_cut_outline(piece_of(&p, "Back neck facing"), &cut) == GEOM_OK);
        for (int k = 0; k < cut.count; k++) {
            const Segment *next = &cut.items[(k + 1) % cut.count];
            const double turn = point_turn(segment_direction(&cut.items[k], 1), segment_direction(next, 0));
            cr_expect(fabs(turn) < 130, "%s: a turn of %.0f degrees", chain, turn);
        }
        path_finish(&cut);
        pattern_finish(&p);
    }
}
