// Bands and stands. Two arcs h apart about one centre that turn by t radians differ in length by h t; a
// rectangle lies flat round a ring of length L as long as it is no longer than L - 2 pi w (plane geometry).
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"

#define CLOSE "blocks/close-fitting "
#define PAPER "blocks/measured "
#define AS_IS "widen=0mm lower_front=0mm lower_back=0mm"
#define HALF_18 " front_neckline=10.6cm back_neckline=7.5cm" // half a measured neckline, 18.1 cm

static void refused(const char *chain, const char *settings, const char *body, const char *words,
                    const char *number) {
    Pattern p;
    Fault fault;
    cr_expect(!drafted(chain, settings, body, &p, &fault), "%s (%s) was drafted", chain, settings);
    cr_expect(fault.message && strstr(fault.message, words), "%s (%s): %s", chain, settings,
              fault.message ? fault.message : "");
    cr_expect(fault.hint && strstr(fault.hint, number), "%s (%s): the way out is %s", chain, settings,
              fault.hint ? fault.hint : "none");
    fault_finish(&fault);
    pattern_finish(&p);
}

// Chimney and ring.

Test(bands, a_chimney_flares_by_its_turn) { // T35: half neckline 20, height 7, flare 0.5
    Pattern p;
    draft_of(PAPER "bands/chimney",
             AS_IS
             " height=70mm flare=5mm front_neck_depth=9.2cm front_neck_curve=12.48cm back_neck_curve=7.52cm",
             PAPER_88, &p);
    close_to(note_of(&p, "base_length"), 200.0, 0.1, "base");
    close_to(RADIANS(note_of(&p, "turn")), 0.0714, 0.0005, "turn, radians");
    close_to(note_of(&p, "radius"), 2800.0, 1.0, "radius");
    close_to(edge_length(&p, "Outer stand", "top"), 205.0, 0.1, "half top edge");
    pattern_finish(&p);
}

Test(bands,
     the_base_of_a_chimney_is_the_inner_arc) { // a flaring stand dips to the front, one that leans in rises
    Pattern p;
    draft_of(CLOSE "bands/chimney", "flare=20mm", EXAMPLE_88, &p);
    cr_expect(path_last(&mark_of(&p, "Stand", "base")->path).y < -10.0);
    pattern_finish(&p);
    draft_of(CLOSE "bands/chimney", "flare=-10mm", EXAMPLE_88, &p);
    cr_expect(path_last(&mark_of(&p, "Stand", "base")->path).y > 10.0);
    pattern_finish(&p);
}

Test(bands, a_flare_of_more_than_a_quarter_turn_is_a_flounce) { // 20 mm high: a quarter turn is 31.4 mm
    refused(CLOSE "bands/chimney", "height=20mm flare=40mm", EXAMPLE_88, "flounce", "3.1 cm");
}

// The neckline 4 cm wider, 4 and 2 cm lower, of the example block: half lengths by plane geometry, 27.09 cm.
Test(bands, a_ring_is_a_low_chimney_on_a_wide_neckline) {
    Pattern p;
    draft_of(CLOSE "bands/ring", "held=0mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "base_length"), 270.9, 1.0, "half neck edge");
    close_to(edge_length(&p, "Outer stand", "top"), note_of(&p, "base_length") - 3.0, 0.1, "half top edge");
    pattern_finish(&p);
}

Test(bands, a_wide_ring_goes_over_the_head) {
    proven_whole(CLOSE "bands/ring", "opening=none widen=55mm lower_front=70mm lower_back=40mm", EXAMPLE_88);
}

// Grown-on funnel.

// Widened 1 cm, the front lowered 1 cm, 4 cm high, leaning 5 and 10 degrees; points below and beside the neck
// point of the block.
Test(bands, the_funnel_grows_up_the_neck) {
    Pattern p;
    draft_of(CLOSE "bands/funnel", "height=40mm lower_back=0mm", EXAMPLE_88, &p);
    const Point front = mark_of(&p, "Front funnel", "T")->point,
                back = mark_of(&p, "Back funnel", "T")->point;
    close_to(front.x, 73.1, 0.3, "front top point, across");
    close_to(front.y, 37.1, 0.3, "front top point, up");
    close_to(back.x, 74.3, 0.3, "back top point, across");
    close_to(back.y, 35.6, 0.3, "back top point, up");
    close_to(mark_of(&p, "Front funnel", "top_centre")->point.y, -42.0, 0.3, "top of the centre front");
    close_to(mark_of(&p, "Back funnel", "top_centre")->point.y, 25.0, 0.3, "top of the centre back");
    close_to(edge_length(&p, "Front", "neckline"), 114.9, 0.5, "front top edge");
    close_to(edge_length(&p, "Back", "neckline"), 75.3, 0.5, "back top edge");
    close_to(note_of(&p, "top_edge"), 380.4, 1.0, "top edge");
    pattern_finish(&p);
}

// P9: growing the neck takes nothing from the ease of the shoulder, however front and back lean.
Test(bands, the_funnel_leaves_the_shoulder_its_ease) {
    const char *leans[] = {"front_lean=0 back_lean=0", "front_lean=15 back_lean=0",
                           "front_lean=0 back_lean=20", "front_lean=15 back_lean=20"};
    for (int i = 0; i < 4; i++) {
        Pattern p;
        draft_of(CLOSE "bands/funnel", leans[i], EXAMPLE_88, &p);
        close_to(edge_length(&p, "Back", "shoulder") - edge_length(&p, "Front", "shoulder"), 10.0, 0.02,
                 leans[i]);
        pattern_finish(&p);
    }
}

// What the dart takes from the back it takes from the facing that lies in it (plane geometry).
Test(bands, the_facing_of_a_funnel_has_the_dart_of_the_back) {
    Pattern p;
    draft_of(CLOSE "bands/funnel", "height=80mm neck_dart=0mm", EXAMPLE_88, &p);
    cr_expect(piece_of(&p, "Back facing")->lines.count == 0);
    pattern_finish(&p);
    const char *darts[] = {"height=80mm neck_dart=12mm", "height=20mm neck_dart=12mm",
                           "height=40mm neck_dart=8mm facing_width=100mm opening=front",
                           "height=50mm neck_dart=1mm opening=front"};
    for (int i = 0; i < 4; i++) {
        proven_whole(CLOSE "bands/funnel", darts[i], EXAMPLE_88);
        draft_of(CLOSE "bands/funnel", darts[i], EXAMPLE_88, &p);
        cr_expect(piece_of(&p, "Back facing")->lines.count == 1, "%s: no dart", darts[i]);
        pattern_finish(&p);
    }
}

// Straight band.

Test(bands, a_straight_band_is_as_long_at_the_top_as_at_the_neck) {
    Pattern p;
    draft_of(CLOSE "bands/straight", NULL, EXAMPLE_88, &p);
    const double neck = edge_length(&p, "Outer stand", "neck");
    close_to(neck, 192.4 - 3.0, 0.5,
             "half neckline, 5 mm wider, 5 and 2 mm lower, to the stitching of the slit");
    close_to(note_of(&p, "top_edge"), 2 * neck, 0.01, "top edge");
    pattern_finish(&p);
}

Test(bands, a_lap_runs_on_beyond_the_centre_front) {
    Pattern p;
    draft_of(CLOSE "bands/straight", "lap=20mm", EXAMPLE_88, &p);
    close_to(edge_length(&p, "Outer stand", "lap"), 23.0, 0.01,
             "lap, from the stitching of the slit, 3 mm beside the centre");
    close_to(edge_length(&p, "Stand facing", "lap"), 23.0, 0.01, "lap of the facing");
    pattern_finish(&p);
    refused(CLOSE "bands/straight", "lap=20mm opening=back", EXAMPLE_88,
            "needs an opening at the centre front", "opening=front");
}

// The inner of two rings a thickness c apart is 2 pi c shorter all round (plane geometry).
Test(bands, the_facing_of_a_stand_is_smaller_by_the_turn_of_cloth) {
    Pattern p;
    draft_of(CLOSE "bands/straight", "cloth=0.5mm opening=back", EXAMPLE_88, &p);
    close_to(edge_length(&p, "Outer stand", "neck") - edge_length(&p, "Stand facing", "neck"), 1.571, 0.001,
             "half neck edge");
    pattern_finish(&p);
}

// The example's neck base is 37 cm; the neckline of its block, 36.3 cm, is no neckline for a stand.
Test(bands, a_stand_that_chokes_is_told) {
    Pattern p;
    draft_of(CLOSE "bands/straight", AS_IS, EXAMPLE_88, &p);
    cr_expect(remarked(&p, "closed it wants 1 cm more"));
    pattern_finish(&p);
    draft_of(CLOSE "bands/straight", NULL, EXAMPLE_88, &p);
    cr_expect(!remarked(&p, "closed it wants 1 cm more"));
    pattern_finish(&p);
}

// Wing.

// The tip that is cut and the tip that is seen are as far from both ends of the fold (a mirror image).
Test(bands, the_wing_is_cut_as_it_is_seen_turned_over_its_fold) {
    Pattern p;
    draft_of(CLOSE "bands/wing", NULL, EXAMPLE_88, &p);
    const Path *fold = &mark_of(&p, "Front of the stand", "fold")->path;
    const Point seen = mark_of(&p, "Front of the stand", "W")->point,
                cut = mark_of(&p, "Front of the stand", "cut")->point;
    close_to(point_distance(seen, path_first(fold)), 28.0, 0.001, "front edge of the wing");
    close_to(point_distance(cut, path_first(fold)), 28.0, 0.001, "front edge as cut");
    close_to(point_distance(cut, path_last(fold)), point_distance(seen, path_last(fold)), 0.001, "back edge");
    cr_expect(cut.y > seen.y + 20.0, "the cut tip stands above the fold");
    cr_expect(seen.x < path_first(fold).x, "the wing lies back from the centre front");
    pattern_finish(&p);
}

// The facing shows on the wing: it is fused, and its patch ends at the fold (common practice, no source).
Test(bands, the_facing_of_a_wing_is_fused_and_its_patch_marked) {
    Pattern p;
    draft_of(CLOSE "bands/wing", NULL, EXAMPLE_88, &p);
    const Piece *fused = piece_of(&p, "Stand facing interfacing");
    cr_expect(fused->cut == 1);
    cr_expect(fused->lines.count == 1, "the line of the patch");
    close_to(edge_length(&p, "Stand facing", "lap") - edge_length(&p, "Stand facing interfacing", "lap"), 2.0,
             0.1, "the interfacing is 2 mm short at the lap");
    pattern_finish(&p);
}

// Bias roll.

Test(bands,
     a_bias_strip_takes_the_diagonal) { // T36: cloth 140 cm; the step is sqrt 2 of the strip, 5.66 for 4
    Pattern p;
    draft_of("bands/bias-roll", "cloth_width=140cm" HALF_18, NULL, &p);
    close_to(note_of(&p, "longest"), 1979.9, 0.1, "longest strip");
    close_to(note_of(&p, "along_selvedge") / note_of(&p, "strip_width") * 40.0, 56.6, 0.1,
             "step along the selvedge, for 4 cm");
    pattern_finish(&p);
}

Test(bands, the_bias_roll_is_shorter_by_its_stretch) { // half neckline 20 cm, 4 in a hundred: 38.4 cm whole
    Pattern p;
    draft_of("bands/bias-roll", "cloth=0mm front_neckline=12cm back_neckline=8cm", NULL, &p);
    close_to(2 * note_of(&p, "half_length"), 384.0, 0.01, "strip");
    close_to(note_of(&p, "strip_width"), 180.0, 0.01, "four times 4 cm and both allowances");
    pattern_finish(&p);
}

// Rib.

static void flat_limit(const char *width, double part) {
    Pattern p;
    char settings[96];
    snprintf(settings, sizeof settings, "width=%s front_neckline=16cm back_neckline=12cm", width);
    draft_of("bands/rib", settings, NULL, &p);
    close_to(note_of(&p, "flat_limit"), part, 0.002, width);
    cr_expect(note_of(&p, "part") <= note_of(&p, "flat_limit") + 1e-9,
              "width %s: the band would not lie flat", width);
    pattern_finish(&p);
}

Test(bands, a_wide_band_has_to_be_shorter_to_lie_flat) { // T37: neckline 56 cm
    flat_limit("20mm", 0.776);
    flat_limit("15mm", 0.832);
}

Test(bands, a_binding_of_jersey_is_a_tenth_shorter) { // T38: neckline 66, a tenth shorter, from a sewing page
    Pattern p;
    draft_of("bands/rib", "width=10mm ratio=0.9 rib_stretch=0.25 front_neckline=19cm back_neckline=14cm",
             NULL, &p);
    close_to(2 * note_of(&p, "half_length"), 594.0, 0.5, "band");
    cr_expect(!remarked(&p, "stand up or flute"));
    pattern_finish(&p);
}

Test(bands, rib_is_two_thirds_to_three_quarters_of_the_neck) { // T39: 16 in, from a sewing page
    const char *ratios[] = {"0.6667", "0.75"};
    const double inches[] = {10.7, 12.0};
    for (int i = 0; i < 2; i++) {
        Pattern p;
        char settings[96];
        snprintf(settings, sizeof settings, "width=15mm ratio=%s front_neckline=11.6cm back_neckline=8.72cm",
                 ratios[i]);
        draft_of("bands/rib", settings, NULL, &p);
        close_to(2 * note_of(&p, "half_length") / 25.4, inches[i], 0.1, "band, inches");
        cr_expect(!remarked(&p, "stand up or flute"));
        pattern_finish(&p);
    }
}

Test(bands, a_band_too_long_or_too_short_is_told) {
    Pattern p;
    draft_of(CLOSE "bands/rib", "ratio=0.95", EXAMPLE_88, &p);
    cr_expect(remarked(&p, "stand up or flute"));
    pattern_finish(&p);
    // Of a stretch of 0.3 six tenths are of use: 1 / 1.18 is 0.848.
    refused(CLOSE "bands/rib", "ratio=0.7 rib_stretch=0.3", EXAMPLE_88, "has to stretch", "0.848");
}

Test(bands, a_rib_is_quartered) { // P10: the quarter at half of each half, on the neckline and on the band
    Pattern p;
    draft_of("bands/rib", "ratio=0.75 width=15mm front_neckline=16cm back_neckline=12cm", NULL, &p);
    const Piece *band = piece_of(&p, "Neckband"), *strip = piece_of(&p, "Neckline strip");
    const int neck = piece_find_edge(band, "neck"), front = piece_find_edge(strip, "front_neckline");
    bool on_band = false, on_strip = false;
    for (int i = 0; i < band->notches.count; i++)
        on_band |= band->notches.items[i].edge == neck && fabs(band->notches.items[i].at - 105.0) < 0.1;
    for (int i = 0; i < strip->notches.count; i++)
        on_strip |= strip->notches.items[i].edge == front && fabs(strip->notches.items[i].at - 140.0) < 0.1;
    cr_expect(on_band, "no notch at half of the half band");
    cr_expect(on_strip, "no notch 14 cm from the centre front");
    pattern_finish(&p);
}

// All of them.

static const char *const BANDS[] = {"bands/straight",  "bands/mandarin", "bands/funnel", "bands/chimney",
                                    "bands/bias-roll", "bands/wing",     "bands/rib",    "bands/ring"};
#define BAND_COUNT (int)(sizeof BANDS / sizeof *BANDS)
static const char *const WITHOUT_BLOCK[] = {"bands/straight", "bands/mandarin", "bands/bias-roll",
                                            "bands/rib"};

Test(bands, every_proof_holds_on_every_block) {
    static const struct {
        const char *block, *body, *settings;
    } on[] = {{"blocks/close-fitting", EXAMPLE_88, NULL}, {"blocks/close-fitting", "women-80", NULL},
              {"blocks/close-fitting", "women-88", NULL}, {"blocks/close-fitting", "women-116", NULL},
              {"blocks/measured", PAPER_88, NULL},        {"blocks/three-measures", EXAMPLE_88, NULL}};
    for (int b = 0; b < (int)(sizeof on / sizeof *on); b++)
        for (int i = 0; i < BAND_COUNT; i++) {
            char chain[100];
            snprintf(chain, sizeof chain, "%s %s", on[b].block, BANDS[i]);
            proven_whole(chain, on[b].settings, on[b].body);
        }
}

Test(bands, some_need_no_block) {
    for (int i = 0; i < 4; i++)
        proven_whole(WITHOUT_BLOCK[i],
                     strcmp(WITHOUT_BLOCK[i], "bands/rib") ? HALF_18 + 1
                                                           : "front_neckline=16cm back_neckline=12cm",
                     NULL);
    for (int i = 0; i < 4; i++)
        refused(WITHOUT_BLOCK[i], NULL, NULL, "neither a block nor a measured neckline", "front_neckline");
}

Test(bands, a_pointed_neckline_is_refused) {
    for (int i = 0; i < BAND_COUNT; i++) {
        char chain[100];
        snprintf(chain, sizeof chain, CLOSE "necklines/v %s", BANDS[i]);
        refused(chain, NULL, EXAMPLE_88, "comes to a point", "round neckline");
    }
}

Test(bands, every_way_to_open_holds) {
    proven_whole(CLOSE "bands/straight", "opening=back", EXAMPLE_88);
    proven_whole(CLOSE "bands/straight", "grain=bias corner=10mm lap=15mm", EXAMPLE_88);
    proven_whole(CLOSE "bands/chimney", "opening=front flare=0mm", EXAMPLE_88);
    proven_whole(CLOSE "bands/chimney",
                 "opening=none widen=50mm lower_front=100mm lower_back=40mm grain=bias", EXAMPLE_88);
    proven_whole(CLOSE "bands/funnel", "opening=front neck_dart=10mm height=70mm", EXAMPLE_88);
    proven_whole(CLOSE "bands/bias-roll", "opening=none widen=50mm lower_front=110mm lower_back=40mm",
                 EXAMPLE_88);
}

static void infant_refused(const char *band) {
    char chain[100];
    snprintf(chain, sizeof chain, "blocks/measured %s", band);
    refused(chain, "height=70mm age=6months", PAPER_88, "cover the face", "lies flat");
}

Test(bands,
     a_tall_collar_is_not_for_an_infant) { // common practice; CEN/TR 16792 is the guidance, from memory
    infant_refused("bands/chimney");
    infant_refused("bands/funnel");
    infant_refused("bands/bias-roll");
    infant_refused("bands/square-funnel");
}

// P3: where a stand is laid on the fold, both its edges are square to it.
Test(bands, stands_are_square_at_the_fold) {
    static const struct {
        const char *band, *fold;
    } folds[] = {{"bands/straight", "centre_back"},
                 {"bands/mandarin", "centre_back"},
                 {"bands/wing", "centre_back"},
                 {"bands/chimney", "centre_front"}};
    for (int i = 0; i < 4; i++) {
        Pattern p;
        char chain[100];
        snprintf(chain, sizeof chain, CLOSE "%s", folds[i].band);
        draft_of(chain, NULL, EXAMPLE_88, &p);
        const Piece *stand = piece_of(&p, "Outer stand");
        double first, last;
        piece_fold_angles(stand, piece_find_edge(stand, folds[i].fold), &first, &last);
        close_to(first, 90.0, 1.0, folds[i].band);
        close_to(last, 90.0, 1.0, folds[i].band);
        pattern_finish(&p);
    }
}

Test(bands, twice_the_neckline_and_the_choices_is_twice_the_stand) { // P1
    Pattern a, b;
    draft_of("bands/mandarin",
             "height=30mm rise=15mm gap=0mm cloth=0.3mm front_neckline=10cm back_neckline=7cm", NULL, &a);
    draft_of("bands/mandarin",
             "height=50mm rise=30mm gap=0mm cloth=0.6mm front_neckline=20cm back_neckline=14cm", NULL, &b);
    close_to(note_of(&b, "base_length"), 2 * note_of(&a, "base_length"), 0.001, "base");
    close_to(note_of(&b, "turn"), note_of(&a, "turn"), 0.001, "turn");
    close_to(note_of(&b, "radius"), 2 * note_of(&a, "radius"), 0.01, "radius");
    close_to(edge_length(&b, "Stand facing", "neck"), 2 * edge_length(&a, "Stand facing", "neck"), 0.001,
             "facing");
    pattern_finish(&a);
    pattern_finish(&b);
}
