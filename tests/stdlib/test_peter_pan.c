// The flat collar on joined shoulders. With the turn of its neck edge in radians, a parallel at width w is
// longer by w times the turn, as long as the curve never reverses (plane geometry).
#include <criterion/criterion.h>
#include <stdio.h>

#include "drafted.h"

#define CHAIN "blocks/close-fitting flat/peter-pan"
#define AS_IS "widen=0mm lower_front=0mm lower_back=0mm held=0mm"

Test(peter_pan, the_overlap_turns_the_back) { // T40
    Pattern p;
    draft_of(CHAIN, AS_IS " overlap=25mm", EXAMPLE_88, &p);
    close_to(RADIANS(note_of(&p, "overlap_turn")), 0.2044, 0.001, "turn of the overlap, radians");
    pattern_finish(&p);
}

static void nape(const char *overlap, double u, double v) {
    Pattern p;
    char settings[96];
    snprintf(settings, sizeof settings, AS_IS " overlap=%s", overlap);
    draft_of(CHAIN, settings, EXAMPLE_88, &p);
    const Point at = mark_of(&p, "Joined shoulders", "nape")->point;
    close_to(at.x, 10 * u, 0.3, "nape, across");
    close_to(-at.y, 10 * v, 0.3, "nape, down");
    pattern_finish(&p);
}

Test(peter_pan, the_nape_falls_where_the_overlap_puts_it) { // T41
    nape("0mm", 1.95, -5.62);
    nape("25mm", 3.19, -6.46);
    nape("50mm", 4.59, -7.05);
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

static void stands(const char *overlap, double mm) {
    Pattern p;
    char settings[96];
    snprintf(settings, sizeof settings, AS_IS " width=75mm overlap=%s", overlap);
    draft_of(CHAIN, settings, EXAMPLE_88, &p);
    close_to(note_of(&p, "stand"), mm, 0.3, "stand at the centre back");
    pattern_finish(&p);
}

Test(peter_pan, the_stand_is_told) { // T44, at width 7.5 cm; agrees with a handbook's thumb rule, from memory
    stands("12.5mm", 3.1);
    stands("50mm", 12.4);
    stands("100mm", 25.5);
}

Test(peter_pan, more_overlap_means_a_shorter_edge_and_more_stand) { // P4
    double edge = 1e9, stand = -1;
    const char *overlaps[] = {"0mm", "5mm", "12.5mm", "25mm", "50mm", "100mm"};
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
    proven_whole("blocks/measured flat/peter-pan", NULL, PAPER_88);
}
