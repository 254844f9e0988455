// The flat collar on joined shoulders. With the turn of its neck edge in radians, a parallel at width w is
// longer by w times the turn, as long as the curve never reverses (plane geometry).
#include <criterion/criterion.h>
#include <stdio.h>

#include "drafted.h"

#define CHAIN "blocks/close-fitting flat/peter-pan"
// The whole neckline of the block: a slit would take 3 mm of it, since it is stitched beside the centre.
#define AS_IS "widen=0mm lower_front=0mm lower_back=0mm held=0mm slit=0mm"

Test(peter_pan, the_overlap_turns_the_back) { // T40
    Pattern p;
    draft_of(CHAIN, AS_IS " overlap=25mm", EXAMPLE_88, &p);
    close_to(RADIANS(note_of(&p, "overlap_turn")), 0.2044, 0.001, "turn of the overlap, radians");
    pattern_finish(&p);
}

static void nape(const char *chain, const char *overlap, double u, double v) {
    Pattern p;
    char settings[96];
    snprintf(settings, sizeof settings, AS_IS " overlap=%s", overlap);
    draft_of(chain, settings, EXAMPLE_88, &p);
    const Point at = mark_of(&p, "Joined shoulders", "nape")->point;
    close_to(at.x, 10 * u, 0.3, "nape, across");
    close_to(-at.y, 10 * v, 0.3, "nape, down");
    pattern_finish(&p);
}

Test(peter_pan, the_nape_falls_where_the_overlap_puts_it) { // T41
    nape(CHAIN, "0mm", 1.95, -5.62);
    nape(CHAIN, "25mm", 3.19, -6.46);
    nape("blocks/close-fitting flat/rolled-peter-pan", "50mm", 4.59, -7.05);
}

Test(peter_pan, the_centres_stand_apart_by_both_slopes_and_the_overlap) { // T75
    Pattern p;
    draft_of(CHAIN, AS_IS " overlap=25mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "centres_angle"), 49.7, 0.1, "between the centre lines, degrees");
    pattern_finish(&p);
}

Test(peter_pan, the_outer_edge_follows_the_law) { // T42, T43
    Pattern p;
    draft_of(CHAIN, AS_IS " width=60mm overlap=0mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "outer_edge"), 330.1, 0.5, "outer edge, no overlap");
    pattern_finish(&p);
    draft_of(CHAIN, AS_IS " width=60mm overlap=12.5mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "outer_edge"), 323.9, 0.5, "outer edge, overlap 1.25 cm");
    pattern_finish(&p);
}

Test(peter_pan, more_overlap_means_a_shorter_edge_and_more_stand) { // P4
    double edge = 1e9, stand = -1;
    const char *overlaps[] = {"0mm", "5mm", "10mm", "12.5mm", "20mm", "25mm"};
    for (int i = 0; i < 6; i++) {
        Pattern p;
        char settings[64];
        snprintf(settings, sizeof settings, "overlap=%s", overlaps[i]);
        draft_of(CHAIN, settings, EXAMPLE_88, &p);
        cr_expect(note_of(&p, "outer_edge") < edge, "the edge does not shorten at %s", overlaps[i]);
        cr_expect(note_of(&p, "stand") > stand, "the stand does not rise at %s", overlaps[i]);
        edge = note_of(&p, "outer_edge");
        stand = note_of(&p, "stand");
        pattern_finish(&p);
    }
}

// A flat fold takes pi times the thickness of a layer (plane geometry; a published sewing article takes 3 mm
// off the edges of the under collar, from memory).
Test(peter_pan, the_under_collar_is_smaller_by_the_turn_of_the_cloth) { // T66
    Pattern p;
    draft_of(CHAIN, "cloth=1mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "turn"), 3.14, 0.05, "turn of cloth");
    close_to(edge_length(&p, "Upper collar", "centre_back") - edge_length(&p, "Under collar", "centre_back"),
             3.14, 0.05, "the upper collar is wider at the centre back by");
    close_to(edge_length(&p, "Upper collar", "neck") - edge_length(&p, "Under collar", "neck"), 0, 1e-6,
             "the neck edge is the same; longer by");
    pattern_finish(&p);
}

#define BLOCK_88                                                                             \
    "back_neck_width=72mm back_neck_depth=15mm front_neck_width=67mm front_neck_depth=72mm " \
    "front_shoulder_length=122mm front_shoulder_drop=33mm back_shoulder_length=122mm "       \
    "back_shoulder_drop=46mm "
#define BLOCK_110                                                                                  \
    "back_neck_width=90mm back_neck_depth=18.75mm front_neck_width=83.75mm front_neck_depth=90mm " \
    "front_shoulder_length=152.5mm front_shoulder_drop=41.25mm back_shoulder_length=152.5mm "      \
    "back_shoulder_drop=57.5mm "

Test(peter_pan, a_quarter_more_of_everything_is_a_quarter_more_collar) { // P1
    static const char *const edges[] = {"neck", "centre_back", "outer"};
    Pattern small, large;
    draft_of("blocks/measured flat/peter-pan",
             BLOCK_88 "width=60mm overlap=12mm held=2mm raise_back=2mm "
                      "widen=8mm lower_front=16mm lower_back=8mm gap=0mm",
             NULL, &small);
    draft_of("blocks/measured flat/peter-pan",
             BLOCK_110 "width=75mm overlap=15mm held=2.5mm raise_back=2.5mm "
                       "widen=10mm lower_front=20mm lower_back=10mm gap=0mm",
             NULL, &large);
    for (int i = 0; i < 3; i++)
        close_to(edge_length(&large, "Upper collar", edges[i]),
                 1.25 * edge_length(&small, "Upper collar", edges[i]), 0.02, edges[i]);
    close_to(note_of(&large, "overlap_turn"), note_of(&small, "overlap_turn"), 1e-6, "turn of the overlap");
    close_to(note_of(&large, "stand"), 1.25 * note_of(&small, "stand"), 1e-6, "stand");
    pattern_finish(&small);
    pattern_finish(&large);
}

Test(peter_pan, both_edges_are_square_at_the_centre_back) { // P3
    Pattern p;
    draft_of(CHAIN, NULL, EXAMPLE_88, &p);
    const Piece *upper = piece_of(&p, "Upper collar");
    double first, last;
    piece_fold_angles(upper, piece_find_edge(upper, "centre_back"), &first, &last);
    close_to(first, 90.0, 1.0, "at one end of the fold");
    close_to(last, 90.0, 1.0, "at the other end of the fold");
    pattern_finish(&p);
}

Test(peter_pan, every_proof_holds_however_it_opens) {
    proven_whole(CHAIN, NULL, EXAMPLE_88);
    proven_whole(CHAIN, "opening=back", EXAMPLE_88);
    proven_whole(CHAIN, "facing=bias", EXAMPLE_88);
    proven_whole(CHAIN, "gap=1cm", EXAMPLE_88);
    proven_whole(CHAIN, "gap=1cm opening=back facing=bias", EXAMPLE_88);
    proven_whole("blocks/measured flat/peter-pan", NULL, PAPER_88);
}
