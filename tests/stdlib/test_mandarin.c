// The curved stand. An arc of length L that turns by t has its chord end raised by L (1 - cos t) / t; a
// parallel at height h is shorter by h t (plane geometry).
#include <criterion/criterion.h>
#include <stdio.h>

#include "drafted.h"

#define CHAIN "blocks/close-fitting bands/mandarin"
#define AS_IS "widen=0mm lower_front=0mm lower_back=0mm gap=0mm"

Test(mandarin, the_top_edge_is_shorter_by_the_turn) { // T33
    Pattern p;
    draft_of(CHAIN, AS_IS " rise=15mm height=35mm front_height=35mm corner=0mm", EXAMPLE_88, &p);
    close_to(note_of(&p, "base_length"), 181.4, 0.5, "base");
    close_to(RADIANS(note_of(&p, "turn")), 0.1658, 0.0005, "turn, radians");
    close_to(note_of(&p, "radius"), 1094.0, 2.0, "radius");
    close_to(note_of(&p, "top_length"), 175.6, 0.1, "top edge");
    close_to(note_of(&p, "base_length") - note_of(&p, "top_length"), 35.0 * 0.1658, 0.1,
             "shorter by height times turn");
    pattern_finish(&p);
}

Test(mandarin, a_longer_neck_and_a_steeper_rise) { // T34: base 18.5, rise 2, height 3
    Pattern p;
    draft_of(
        "blocks/measured bands/mandarin",
        AS_IS
        " rise=20mm height=30mm front_height=30mm corner=0mm front_neck_curve=10.98cm back_neck_curve=7.52cm",
        PAPER_88, &p);
    close_to(note_of(&p, "base_length"), 185.0, 0.1, "base");
    close_to(note_of(&p, "top_length"), 178.5, 0.1, "top edge");
    close_to(note_of(&p, "base_length") - note_of(&p, "top_length"), 6.5, 0.1, "shorter by");
    pattern_finish(&p);
}

Test(mandarin, more_rise_gives_a_shorter_top_edge) { // P5
    double last = 1e9;
    const char *rises[] = {"5mm", "10mm", "15mm", "20mm", "25mm"};
    for (int i = 0; i < 5; i++) {
        Pattern p;
        char settings[64];
        snprintf(settings, sizeof settings, "rise=%s", rises[i]);
        draft_of(CHAIN, settings, EXAMPLE_88, &p);
        cr_expect(note_of(&p, "top_length") < last, "rise %s does not shorten the top", rises[i]);
        last = note_of(&p, "top_length");
        pattern_finish(&p);
    }
}

Test(mandarin, the_ends_stand_square_to_the_base) { // P3
    Pattern p;
    draft_of(CHAIN, NULL, EXAMPLE_88, &p);
    const Path *base = &mark_of(&p, "Stand", "base")->path, *back = &mark_of(&p, "Stand", "back_end")->path;
    const Path *front = &mark_of(&p, "Stand", "front_end")->path, *top = &mark_of(&p, "Stand", "top")->path;
    close_to(point_turn(path_direction(base, PATH_FIRST), path_direction(back, PATH_FIRST)), 90.0, 0.01,
             "base at the centre back");
    close_to(point_turn(path_direction(base, PATH_LAST), path_direction(front, PATH_FIRST)), 90.0, 0.01,
             "base at the front");
    close_to(fabs(point_turn(path_direction(back, PATH_LAST), path_direction(top, PATH_FIRST))), 90.0, 1.0,
             "top at the centre back");
    pattern_finish(&p);
}

// A slit in the fold is stitched 3 mm beside the centre, and the neck edge begins there.
Test(mandarin, the_front_end_stops_at_the_stitching_of_the_slit) {
    Pattern to_centre, p;
    draft_of(CHAIN, "gap=0mm", EXAMPLE_88, &to_centre);
    draft_of(CHAIN, NULL, EXAMPLE_88, &p);
    close_to(edge_length(&to_centre, "Outer stand", "neck") - edge_length(&p, "Outer stand", "neck"), 3.0,
             0.001, "half neck edge");
    const Path *stitching = &mark_of(&p, "Front, new neckline", "slit_stitching")->path;
    close_to(path_first(stitching).x, 3.0, 0.001, "the stitching begins beside the centre");
    const Path *sewn =
        &piece_of(&p, "Front")->edges.items[piece_find_edge(piece_of(&p, "Front"), "neckline")].path;
    close_to(point_distance(path_first(sewn), path_first(stitching)), 0.0, 0.01, "and the neck seam there");
    pattern_finish(&to_centre);
    pattern_finish(&p);
}

Test(mandarin, every_proof_holds_however_it_opens) {
    proven_whole(CHAIN, NULL, EXAMPLE_88);
    proven_whole(CHAIN, "opening=back", EXAMPLE_88);
    proven_whole(CHAIN, "gap=0mm", EXAMPLE_88);
    proven_whole(CHAIN, "gap=10mm held=3mm", EXAMPLE_88);
    proven_whole("blocks/measured bands/mandarin", NULL, PAPER_88);
}
