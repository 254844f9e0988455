// The square-set bias funnel on the example block. Values by plane geometry: the 45 degree line makes a right
// triangle with a quarter of the head as its legs.
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"
#include "pattern/allowance.h"
#include "script/script.h"

#define CHAIN "blocks/close-fitting bands/square-funnel"
#define QUARTER "match=quarter"

static void heads(const char *girth, double quarter, double each, double whole) {
    Pattern p;
    char settings[64];
    snprintf(settings, sizeof settings, "match=quarter head_girth=%s", girth);
    draft_of(CHAIN, settings, EXAMPLE_88, &p);
    close_to(note_of(&p, "quarter"), quarter, 0.1, "quarter of the head");
    close_to(edge_length(&p, "Front funnel", "neckline"), each, 0.1, "half front neckline");
    close_to(edge_length(&p, "Back funnel", "neckline"), each, 0.1, "half back neckline");
    close_to(note_of(&p, "whole_neckline"), whole, 0.1, "whole neckline");
    pattern_finish(&p);
}

Test(funnel, the_neckline_follows_the_head) { // T23, T24, T25
    heads("54cm", 135.0, 190.9, 763.7);
    heads("56cm", 140.0, 197.99, 792.0);
    heads("60cm", 150.0, 212.1, 848.5);
}

Test(funnel, front_and_back_meet_the_shoulder_where_the_square_does) { // T26, T27
    Pattern p;
    draft_of(CHAIN, QUARTER, EXAMPLE_88, &p);
    close_to(note_of(&p, "front_arm_drop"), 20.7, 0.3, "front arm below the neck point");
    close_to(note_of(&p, "front_to_S"), 75.9, 0.3, "front, along the shoulder");
    close_to(note_of(&p, "front_shoulder_left"), 46.6, 0.3, "front shoulder left");
    close_to(note_of(&p, "front_point_drop"), 160.7, 0.3, "front point below the neck point");
    close_to(note_of(&p, "back_arm_drop"), 27.7, 0.3, "back arm below the neck point");
    close_to(note_of(&p, "back_to_S"), 73.4, 0.3, "back, along the shoulder");
    close_to(note_of(&p, "back_shoulder_left"), 59.1, 0.3, "back shoulder left, of 13.25 cm");
    close_to(note_of(&p, "back_point_drop"), 167.7, 0.3, "back point below the neck point");
    pattern_finish(&p);
}

Test(funnel, the_piece_has_its_area_and_fits_a_square) { // T28, T29
    Pattern p;
    draft_of(CHAIN, "match=quarter centre=seam", EXAMPLE_88, &p);
    close_to(piece_area(piece_of(&p, "Front funnel")), 47600.0, 10.0, "half piece with its facing");
    const double upper = edge_length(&p, "Front funnel", "centre");
    const double lower = edge_length(&p, "Front funnel", "centre over top");
    close_to(upper + lower, 480.0, 1.0, "straight centre edge");
    pattern_finish(&p);
    draft_of(CHAIN, "match=quarter centre=fold", EXAMPLE_88, &p);
    const Piece *whole = piece_of(&p, "Front funnel");
    close_to(piece_area(whole), 95200.0, 10.0, "full piece");
    const Box box = piece_box_along(whole, whole->grain_angle);
    close_to(box.most.x - box.least.x, 339.4, 0.1, "along the grain");
    close_to(box.most.y - box.least.y, 339.4, 0.1, "across the grain");
    pattern_finish(&p);
}

Test(funnel, the_corners_of_the_bodice_have_their_angles) { // T30
    Pattern p;
    draft_of(CHAIN, QUARTER, EXAMPLE_88, &p);
    close_to(note_of(&p, "front_angle"), 119.1, 0.1, "front, at the shoulder point");
    close_to(note_of(&p, "back_angle"), 112.8, 0.1, "back, at the shoulder point");
    const Piece *front = piece_of(&p, "Front");
    const Path *neck = piece_find_path(front, "neckline");
    const Path *centre = piece_find_path(front, "centre");
    const double half =
        fabs(point_turn(path_direction(centre, PATH_FIRST), path_direction(neck, PATH_FIRST)));
    close_to(2 * (180.0 - half), 90.0, 0.1, "at the centre, opened out");
    pattern_finish(&p);
}

static void refused(const char *girth, const char *words, const char *number) {
    Pattern p;
    Fault fault;
    char settings[64];
    snprintf(settings, sizeof settings, "match=quarter head_girth=%s", girth);
    cr_expect(!drafted(CHAIN, settings, EXAMPLE_88, &p, &fault), "a head of %s was drafted", girth);
    cr_expect(fault.message && strstr(fault.message, words) && strstr(fault.message, number), "%s: %s", girth,
              fault.message);
    cr_expect(fault.hint != NULL, "no way out for %s", girth);
    fault_finish(&fault);
    pattern_finish(&p);
}

Test(funnel, a_head_too_small_or_too_large_is_refused) { // T31
    refused("26cm", "inside the neck", "6.5 cm");
    refused("80cm", "past the shoulder tip", "18.5 cm");
}

Test(funnel, by_the_quarter_front_and_back_are_the_same_piece) { // T32
    Pattern p;
    draft_of(CHAIN, QUARTER, EXAMPLE_88, &p);
    Path front = {0}, back = {0};
    piece_outline(piece_of(&p, "Front funnel"), &front);
    piece_outline(piece_of(&p, "Back funnel"), &back);
    const Point shift = point_sub(path_first(&back), path_first(&front));
    cr_assert_eq(front.count, back.count);
    for (int i = 0; i < front.count; i++)
        cr_expect(point_distance(point_add(front.items[i].p0, shift), back.items[i].p0) < 0.1,
                  "corner %d differs", i);
    path_finish(&front);
    path_finish(&back);
    pattern_finish(&p);
}

Test(funnel, by_the_shoulder_the_opening_is_proven) {
    Pattern p;
    draft_of(CHAIN, NULL, EXAMPLE_88, &p);
    close_to(note_of(&p, "opening"), 564.6, 0.3, "opening");
    pattern_finish(&p);
    proven_whole(CHAIN, NULL, EXAMPLE_88);
}

Test(funnel, a_centimetre_more_height_leaves_the_neckline_alone_and_a_larger_head_widens_it) { // P6
    Pattern a, b;
    draft_of(CHAIN, "match=quarter head_girth=56cm", EXAMPLE_88, &a);
    draft_of(CHAIN, "match=quarter head_girth=60cm", EXAMPLE_88, &b);
    const double grown =
        edge_length(&b, "Front funnel", "neckline") - edge_length(&a, "Front funnel", "neckline");
    close_to(grown, 10.0 * sqrt(2.0), 0.01, "square root of two for each unit of width");
    pattern_finish(&a);
    pattern_finish(&b);
}

Test(funnel, twice_the_block_and_the_choices_is_twice_the_pattern) { // P1
    Pattern a, b;
    const char *chain = "blocks/measured bands/square-funnel";
    draft_of(chain, "height=10cm", PAPER_88, &a);
    draft_of(chain,
             "height=20cm back_neck_width=14.4cm back_neck_depth=3cm front_neck_width=13.4cm "
             "front_neck_depth=14.4cm "
             "front_shoulder_length=24.5cm front_shoulder_drop=6.7cm back_shoulder_length=26.5cm "
             "back_shoulder_drop=10cm "
             "head_girth=112cm centre_front_to_waist=70cm",
             PAPER_88, &b);
    const char *edges[] = {"neckline", "side", "centre", "top"};
    for (int i = 0; i < 4; i++) {
        close_to(edge_length(&b, "Front funnel", edges[i]), 2 * edge_length(&a, "Front funnel", edges[i]),
                 0.01, edges[i]);
        close_to(edge_length(&b, "Back funnel", edges[i]), 2 * edge_length(&a, "Back funnel", edges[i]), 0.01,
                 edges[i]);
    }
    close_to(note_of(&b, "front_angle"), note_of(&a, "front_angle"), 0.001, "angles stay");
    pattern_finish(&a);
    pattern_finish(&b);
}

Test(funnel, the_cut_line_contains_the_seam_line) { // P8
    Pattern p;
    draft_of(CHAIN, NULL, EXAMPLE_88, &p);
    for (int i = 0; i < p.pieces.count; i++) {
        Path cut = {0}, seam = {0};
        cr_assert_eq(piece_cut_outline(&p.pieces.items[i], &cut), GEOM_OK);
        piece_outline(&p.pieces.items[i], &seam);
        for (int j = 0; j < seam.count; j++) {
            const Point at = segment_point(&seam.items[j], 0.5);
            cr_expect(path_contains(&cut, at) || path_distance(&cut, at) < 0.02,
                      "%s: the seam leaves the cut line", p.pieces.items[i].name);
        }
        path_finish(&cut);
        path_finish(&seam);
    }
    pattern_finish(&p);
}
