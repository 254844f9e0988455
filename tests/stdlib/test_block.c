// The blocks. The drafted block follows a published close-fitting method; the values are its formulas worked
// by hand (plane geometry) for the example column.
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"
#include "geometry/path.h"

#define BLOCK "blocks/close-fitting"

Test(block, the_neck_is_a_part_of_the_neck_base) { // T01, T02
    Pattern p;
    draft_of(BLOCK, NULL, EXAMPLE_88, &p);
    close_to(note_of(&p, "back_neck_width"), 72.0, 0.05, "back neck width, neck base 37");
    close_to(note_of(&p, "front_neck_width"), 67.0, 0.05, "front neck width");
    close_to(note_of(&p, "front_neck_depth"), 72.0, 0.05, "front neck depth");
    pattern_finish(&p);
    draft_of(BLOCK, "neck_base_girth=40cm", EXAMPLE_88, &p); // T03
    close_to(note_of(&p, "back_neck_width"), 78.0, 0.05, "back neck width, neck base 40");
    close_to(note_of(&p, "front_neck_width"), 73.0, 0.05, "front neck width, neck base 40");
    close_to(note_of(&p, "front_neck_depth"), 78.0, 0.05, "front neck depth, neck base 40");
    pattern_finish(&p);
}

Test(block, the_frame_follows_the_bust_and_the_scye_depth) { // T04, T05
    Pattern p;
    draft_of(BLOCK, NULL, EXAMPLE_88, &p);
    close_to(note_of(&p, "frame_width"), 490.0, 0.05, "half width");
    close_to(note_of(&p, "armhole_level"), 230.0, 0.05, "armhole level below the top");
    close_to(note_of(&p, "shoulder_level"), 50.0, 0.05, "shoulder level below the top, 3.5 cm below the nape");
    pattern_finish(&p);
}

Test(block, the_points_of_the_draft_fall_where_the_ruler_puts_them) { // T06, T07, T08, T09
    Pattern p;
    draft_of(BLOCK, NULL, EXAMPLE_88, &p);
    const char *draft = "Close-fitting block";
    const Point tip = mark_of(&p, draft, "back_tip")->point;
    close_to(tip.x, 194.7, 0.2, "back shoulder tip, across");
    close_to(tip.y, -50.0, 0.2, "back shoulder tip, down");
    const Point bust = mark_of(&p, draft, "bust_point")->point;
    close_to(bust.x, 391.5, 0.1, "bust point, across");
    close_to(bust.y, -255.0, 0.1, "bust point, down");
    close_to(note_of(&p, "dart_leg"), 256.9, 0.2, "dart leg");
    close_to(note_of(&p, "dart_turn"), 15.66, 0.02, "dart angle");
    const Point open = mark_of(&p, draft, "front_tip")->point;
    close_to(open.x, 248.6, 0.3, "front shoulder tip, dart open, across");
    close_to(open.y, -65.0, 0.3, "front shoulder tip, dart open, down");
    const Point closed = mark_of(&p, "Front", "shoulder_point")->point;
    close_to(490.0 - closed.x, 305.2, 0.3, "front shoulder tip, dart closed, across");
    close_to(closed.y, -33.5, 0.3, "front shoulder tip, dart closed, down");
    pattern_finish(&p);
}

Test(block, the_slopes_and_the_joined_turn_are_right) { // T10
    Pattern p;
    draft_of(BLOCK, NULL, EXAMPLE_88, &p);
    close_to(note_of(&p, "back_slope"), 22.17, 0.05, "back slope");
    close_to(note_of(&p, "front_slope"), 15.86, 0.05, "front slope");
    close_to(note_of(&p, "joined_turn"), 141.97, 0.05, "turn of the joined neckline");
    pattern_finish(&p);
}

Test(block, the_neck_curves_have_their_length_and_stand_square) { // T11, T12
    Pattern p;
    draft_of(BLOCK, NULL, EXAMPLE_88, &p);
    close_to(note_of(&p, "back_neckline"), 75.2, 0.5, "back neckline");
    close_to(note_of(&p, "front_neckline"), 106.2, 0.5, "front neckline");
    close_to(note_of(&p, "whole_neckline"), 362.8, 0.5, "whole neckline");
    for (int i = 0; i < 2; i++) {
        const char *draft = i ? "Front" : "Back";
        const Path *neck = &mark_of(&p, draft, "neckline")->path;
        const Path *centre = &mark_of(&p, draft, "centre")->path;
        const Path *shoulder = &mark_of(&p, draft, "shoulder")->path;
        const double at_centre =
            point_turn(path_direction(centre, PATH_FIRST), path_direction(neck, PATH_FIRST));
        const double at_point =
            point_turn(path_direction(shoulder, PATH_FIRST), path_direction(neck, PATH_LAST));
        close_to(fabs(at_centre), 90.0, 0.5, "neckline and centre (common practice, no source)");
        close_to(fabs(at_point), 90.0, 0.5, "neckline and shoulder (common practice, no source)");
    }
    pattern_finish(&p);
}

Test(block, a_larger_size_comes_out_right) { // T13
    Pattern p;
    draft_of(BLOCK,
             "bust_girth=100cm neck_base_girth=40cm shoulder_length=13cm scye_depth=22.2cm "
             "across_back_width=37.4cm "
             "across_front_width=36cm dart=8.8cm",
             EXAMPLE_88, &p);
    close_to(note_of(&p, "whole_neckline"), 394.4, 0.5, "whole neckline at bust 100");
    close_to(note_of(&p, "front_slope"), 11.6, 0.1, "front slope at bust 100");
    pattern_finish(&p);
}

Test(block,
     four_cm_of_bust_widen_the_neck_by_one) { // T71; the measurements step as a published chart has them
    Pattern small, large;
    draft_of(BLOCK, NULL, EXAMPLE_88, &small);
    draft_of(BLOCK,
             "bust_girth=92cm neck_base_girth=38cm shoulder_length=12.5cm scye_depth=21.4cm "
             "across_back_width=35.4cm across_front_width=33.6cm",
             EXAMPLE_88, &large);
    close_to(note_of(&large, "whole_neckline") - note_of(&small, "whole_neckline"), 10.5, 0.3,
             "whole neckline");
    close_to(note_of(&large, "back_neckline") + note_of(&large, "front_neckline") -
                 note_of(&small, "back_neckline") - note_of(&small, "front_neckline"),
             5.2, 0.3, "half neckline");
    pattern_finish(&small);
    pattern_finish(&large);
}

static bool warns_of(const Pattern *p, const char *words) {
    for (int i = 0; i < p->remarks.count; i++)
        if (p->remarks.items[i].kind == REMARK_WARNING && strstr(p->remarks.items[i].text, words))
            return true;
    return false;
}

// Published neck formulas at bust 88, neck base 37 and scye depth 21 cm. They are from memory, but for the
// first, which was re-read, and the twelfth, from a teaching page; where a method leaves some room the middle
// is coded, and the tolerance is the room.
Test(block, each_neck_formula_gives_its_worked_values) {
    static const struct {
        const char *neck;
        double back_width, back_depth, front_width, front_depth, room; // mm
        bool gapes;
    } rows[] = {
        {"fifth", 72.0, 15.0, 67.0, 72.0, 0.05, false},
        {"twenty-fourth", 72.7, 24.2, 70.7, 75.7, 0.05, false},
        {"twentieth", 73.0, 24.3, 71.0, 83.0, 0.05, false},
        {"tenth", 64.0, 20.0, 64.0, 76.5, 2.5,
         true}, // 10 to 15 mm deeper than wide, up to 5 mm wider in front
        {"sixth", 69.5, 23.0, 69.5, 79.5, 2.5, true},    // 5 to 10 and 15 to 20 mm on top of the sixth
        {"twelfth", 80.0, 31.5, 80.0, 110.0, 6.5, true}, // 25 to 38 mm deep behind
        {"coat", 74.0, 21.0, 67.0, 72.0, 0.05, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        Pattern p;
        char settings[64];
        snprintf(settings, sizeof settings, "neck=%s", rows[i].neck);
        draft_of(BLOCK, settings, EXAMPLE_88, &p);
        close_to(note_of(&p, "back_neck_width"), rows[i].back_width, rows[i].room, rows[i].neck);
        close_to(note_of(&p, "back_neck_depth"), rows[i].back_depth, rows[i].room, rows[i].neck);
        close_to(note_of(&p, "front_neck_width"), rows[i].front_width, rows[i].room, rows[i].neck);
        close_to(note_of(&p, "front_neck_depth"), rows[i].front_depth, rows[i].room, rows[i].neck);
        // The neck is on the paper as the notes say, and the body below it keeps its measures.
        const Point nape = mark_of(&p, "Back", "centre_neck")->point,
                    pit = mark_of(&p, "Front", "centre_neck")->point;
        close_to(-nape.y, note_of(&p, "back_neck_depth"), 1e-6, rows[i].neck);
        close_to(-pit.y, note_of(&p, "front_neck_depth"), 1e-6, rows[i].neck);
        close_to(mark_of(&p, "Back", "neck_point")->point.x, note_of(&p, "back_neck_width"), 1e-6,
                 rows[i].neck);
        close_to(mark_of(&p, "Front", "neck_point")->point.x, note_of(&p, "front_neck_width"), 1e-6,
                 rows[i].neck);
        close_to(path_length(&mark_of(&p, "Back", "centre")->path), 410.0, 0.01, "nape to waist");
        close_to(note_of(&p, "armhole_level") + nape.y, 215.0, 0.01,
                 "nape to armhole line, scye depth and 5 mm");
        close_to(note_of(&p, "back_slope"), 22.17, 0.05, "the shoulder keeps its slope");
        cr_expect_eq(warns_of(&p, "the front neck will gape"), rows[i].gapes, "%s", rows[i].neck);
        pattern_finish(&p);
    }
}

Test(block, every_collar_runs_on_every_neck) {
    static const char *const necks[] = {"fifth",     "sixth",         "tenth", "twelfth",
                                        "twentieth", "twenty-fourth", "coat"};
    for (size_t i = 0; i < sizeof necks / sizeof *necks; i++) {
        char settings[64];
        snprintf(settings, sizeof settings, "neck=%s", necks[i]);
        proven_whole(BLOCK " bands/mandarin", settings, EXAMPLE_88);
        proven_whole(BLOCK " flat/peter-pan", settings, EXAMPLE_88);
        if (strcmp(necks[i], "twelfth") != 0)
            proven_whole(BLOCK " pieces/bodice", settings, "bodies/women-80");
        proven_whole(BLOCK " pieces/bodice", settings, "bodies/women-116");
    }
}

static void cannot_be(const char *chain, const char *settings, const char *body, const char *number) {
    Pattern p;
    Fault fault;
    cr_assert_not(drafted(chain, settings, body, &p, &fault), "drafted: %s", settings);
    cr_expect(strstr(fault.message, number), "%s: %s", settings, fault.message);
    cr_expect(fault.hint && *fault.hint, "%s: no way out", settings);
    fault_finish(&fault);
    pattern_finish(&p);
}

// The limits of the method: a neck of some width, shoulders longer than their drop, 6 cm for the armhole and
// 5 cm from the back width to the front tip.
Test(block, what_cannot_be_is_refused_with_numbers_and_a_way_out) {
    cannot_be(BLOCK, "neck_base_girth=13cm", EXAMPLE_88, "1.9 cm wide");
    cannot_be(BLOCK, "neck=twelfth scye_depth=11.5cm", EXAMPLE_88, "11.0 cm deep");
    cannot_be(BLOCK, "neck=twelfth", "bodies/women-80",
              "at least 5.0 cm is needed"); // loose, on a short shoulder
    cannot_be(BLOCK, "shoulder_length=4cm", EXAMPLE_88, "4.0 cm cannot reach the shoulder level 5.0 cm");
    cannot_be(BLOCK, "shoulder_length=6cm", EXAMPLE_88, "6.0 cm cannot reach its level, 6.4 cm down");
    cannot_be(BLOCK, "across_front_width=39cm across_back_width=40cm", EXAMPLE_88, "5.5 cm for the armhole");
    cannot_be(BLOCK, "shoulder_length=16cm", EXAMPLE_88, "at least 5.0 cm is needed");
    cannot_be("blocks/measured", "front_shoulder_drop=13cm", PAPER_88, "13.0 cm over 12.3 cm");
    cannot_be("blocks/three-measures", "back_neck_point_to_waist=22cm", EXAMPLE_88, "22.0 cm long");
}

Test(block, the_back_dart_turns_the_shoulder_when_it_is_closed) {
    Pattern eased, closed;
    draft_of(BLOCK, NULL, EXAMPLE_88, &eased);
    draft_of(BLOCK, "back_shoulder=closed", EXAMPLE_88, &closed);
    // T72: 2 asin(0.5 / 5.1) = 11.25 for equal legs of 5.1 cm. The dart leans, so its legs are 5.12 and 4.93
    // cm until they are trued, and the angle between them is 11.23 (plane geometry).
    close_to(note_of(&eased, "back_dart_turn"), 11.23, 0.02, "turn of the back shoulder dart");
    const Path *legs = &mark_of(&eased, "Close-fitting block", "back_dart_legs")->path;
    close_to(path_length(legs), 51.2 + 49.3, 0.2, "legs of the back shoulder dart");
    const double before = path_length(&mark_of(&eased, "Back", "shoulder")->path);
    const double after = path_length(&mark_of(&closed, "Back", "shoulder")->path);
    close_to(before - after, 10.0, 1.0, "the shoulder is shorter by the dart");
    pattern_finish(&eased);
    pattern_finish(&closed);
}

Test(block, a_ruler_gives_the_same_slopes) { // T18
    Pattern p;
    draft_of("blocks/measured", NULL, PAPER_88, &p);
    close_to(note_of(&p, "front_slope"), 15.87, 0.02, "front slope");
    close_to(note_of(&p, "back_slope"), 22.17, 0.02, "back slope");
    close_to(note_of(&p, "whole_neckline"), 362.8, 0.5, "whole neckline");
    pattern_finish(&p);
}

Test(block, a_measured_curve_decides_the_fullness) { // T79
    Pattern p;
    draft_of("blocks/measured", "front_neck_curve=11cm", PAPER_88, &p);
    close_to(note_of(&p, "front_neckline"), 110.0, 0.05, "front neckline as measured");
    close_to(note_of(&p, "front_fullness"), 0.71, 0.02, "fullness for 11.0 cm");
    pattern_finish(&p);
    draft_of("blocks/measured", "front_neck_curve=10.62cm", PAPER_88, &p);
    close_to(note_of(&p, "front_fullness"), 0.5523, 0.02, "fullness for 10.62 cm");
    pattern_finish(&p);
}

// T80, and the limits of what is usual on a paper block (common practice, no source).
Test(block, an_odd_reading_of_the_ruler_is_warned_of) {
    static const struct {
        const char *settings, *words;
    } rows[] = {
        {"front_neck_width=8cm back_neck_width=7cm", "the front neck will gape: it is 8.0 cm wide"},
        {"front_neck_width=7.2cm", "the front neck will gape"},
        {"front_neck_width=5.9cm", "wider than the front neck by 1.3 cm; 0.0 cm to 1.2 cm"},
        {"back_shoulder_length=14.4cm", "longer than the front by 2.2 cm; -0.2 cm to 2.0 cm is usual"},
        {"back_shoulder_length=12cm", "longer than the front by -0.3 cm"},
        {"front_shoulder_drop=0.9cm", "the front shoulder drops 0.9 cm; 1.0 cm to 8.0 cm"},
        {"back_shoulder_drop=8.1cm", "the back shoulder drops 8.1 cm"},
        {"back_shoulder_drop=1.5cm", "slope 22.4"},
        {"back_neck_width=9.6cm front_neck_width=9cm", "the back neck has a width of 9.6 cm"},
        {"back_neck_depth=3.6cm", "the back neck has a depth of 3.6 cm"},
        {"front_neck_width=5.4cm back_neck_width=6cm", "the front neck has a width of 5.4 cm"},
        {"front_neck_depth=11.1cm", "the front neck has a depth of 11.1 cm"},
        {"front_shoulder_length=8.9cm", "the shoulder has a length of 8.9 cm"},
        {"neck_base_girth=39cm", "the neckline is longer than the neck base by -2.7 cm"},
        {"front_neck_curve=14cm", "the front neck edge measures 14.0 cm"},
    };
    Pattern p;
    draft_of("blocks/measured", NULL, PAPER_88, &p);
    cr_expect_eq(p.remarks.count, 0);
    pattern_finish(&p);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        draft_of("blocks/measured", rows[i].settings, PAPER_88, &p);
        cr_expect(warns_of(&p, rows[i].words), "%s", rows[i].settings);
        pattern_finish(&p);
    }
}

Test(block, the_optional_readings_of_the_ruler_are_on_the_paper) {
    Pattern p;
    draft_of("blocks/measured",
             "centre_front_to_waist=35.3cm half_front_width=16.2cm bust_point_across=9.85cm "
             "bust_point_down=25.5cm",
             PAPER_88, &p);
    close_to(path_length(&mark_of(&p, "Front", "centre")->path), 353.0, 0.01, "pit of neck to waist");
    close_to(path_length(&mark_of(&p, "Front", "front_width")->path), 162.0, 0.01, "half the front width");
    const Point bust = mark_of(&p, "Front", "bust_point")->point;
    close_to(bust.x, 98.5, 0.01, "bust point, across");
    close_to(bust.y, -255.0, 0.01, "bust point, down");
    pattern_finish(&p);
}

// P1: plane geometry. The drafted blocks do not double, since their formulas hold fixed amounts.
Test(block, a_ruler_block_of_twice_the_size_is_twice_as_long_and_as_steep) {
    Pattern one, two;
    draft_of("blocks/measured necklines/lowered", "widen=4mm lower_front=9mm lower_back=3mm", PAPER_88, &one);
    draft_of("blocks/measured necklines/lowered",
             "back_neck_width=14.4cm back_neck_depth=3cm front_neck_width=13.4cm front_neck_depth=14.4cm "
             "front_shoulder_length=24.5cm front_shoulder_drop=6.7cm back_shoulder_length=26.5cm "
             "back_shoulder_drop=10cm neck_base_girth=74cm widen=8mm lower_front=18mm lower_back=6mm",
             PAPER_88, &two);
    static const char *const angles[] = {"front_slope", "back_slope", "joined_turn"};
    for (int i = 0; i < 3; i++)
        close_to(note_of(&two, angles[i]), note_of(&one, angles[i]), 1e-9, angles[i]);
    static const char *const fullness[] = {"front_fullness", "back_fullness"};
    for (int i = 0; i < 2; i++)
        close_to(note_of(&two, fullness[i]), note_of(&one, fullness[i]), 1e-9, fullness[i]);
    static const char *const edges[] = {"neckline", "shoulder"};
    for (int i = 0; i < 4; i++) {
        const char *half = i < 2 ? "Front" : "Back";
        close_to(path_length(&mark_of(&two, half, edges[i % 2])->path),
                 2 * path_length(&mark_of(&one, half, edges[i % 2])->path), 0.01, edges[i % 2]);
    }
    pattern_finish(&one);
    pattern_finish(&two);
}

// T14, T15, T16, T17: bust 83, waist 64, back 38 cm. The formulas are a published block's, from memory; the
// test guards them as coded.
Test(block, three_measures_give_frame_neck_and_shoulders) {
    Pattern p;
    draft_of("blocks/three-measures", "bust_girth=83cm waist_girth=64cm back_neck_point_to_waist=38cm",
             EXAMPLE_88, &p);
    close_to(note_of(&p, "frame_width"), 475.0, 0.1, "frame width");
    close_to(note_of(&p, "bust_line"), 206.2, 0.1, "bust line below the nape");
    close_to(note_of(&p, "back_width"), 177.8, 0.1, "back width");
    close_to(note_of(&p, "chest_width"), 165.8, 0.1, "chest width");
    close_to(note_of(&p, "front_neck_width"), 68.6, 0.1, "front neck width");
    close_to(note_of(&p, "front_neck_depth"), 73.6, 0.1, "front neck depth");
    close_to(note_of(&p, "back_neck_width"), 70.6, 0.1, "back neck width");
    close_to(note_of(&p, "back_neck_depth"), 23.5, 0.1, "back neck height");
    close_to(note_of(&p, "front_shoulder"), 122.8, 0.1, "front shoulder");
    close_to(note_of(&p, "back_shoulder_length"), 140.7, 0.1, "back shoulder");
    close_to(note_of(&p, "bust_dart_turn"), 18.25, 0.01, "bust dart angle");
    close_to(note_of(&p, "waist_shaping"), 125.0, 0.1, "waist darts in all");
    close_to(note_of(&p, "back_neckline"), 77.6, 0.5, "back neckline");
    close_to(note_of(&p, "front_neckline"), 107.6, 0.5, "front neckline");
    pattern_finish(&p);
}

Test(block, every_collar_runs_on_three_measures) {
    proven_whole("blocks/three-measures bands/square-funnel", NULL, EXAMPLE_88);
    proven_whole("blocks/three-measures bands/mandarin", NULL, EXAMPLE_88);
    proven_whole("blocks/three-measures flat/peter-pan", NULL, EXAMPLE_88);
}
