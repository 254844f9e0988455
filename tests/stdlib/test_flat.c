// The flat and rolled collars: their worked values, and each of them at the ends of each of its choices.
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"
#include "pattern/prove.h"
#include "recipe/shelf.h"
#include "wearers.h"

#define ON_BODY "blocks/close-fitting "
#define ON_PAPER "blocks/measured "
// The whole neckline of the block: a slit would take 3 mm of it, since it is stitched beside the centre.
#define AS_IS "widen=0mm lower_front=0mm lower_back=0mm held=0mm slit=0mm"

static const char *const collars[] = {"peter-pan", "rolled-peter-pan", "eton", "puritan",
                                      "petal",     "sailor",           "cape", "bertha"};
#define COLLARS ((int)(sizeof collars / sizeof *collars))

static double noted(const char *chain, const char *settings, const char *note) {
    Pattern p;
    draft_of(chain, settings, EXAMPLE_88, &p);
    const double value = note_of(&p, note);
    pattern_finish(&p);
    return value;
}

// The outer edge lost is the width times the turn of the overlap, and the stand its part of the whole turn
// (plane geometry); agrees with a handbook's thumb rule of an eighth, a half and one inch, from memory.
Test(flat, the_stand_of_a_rolled_collar_is_told) { // T44, at width 7.5 cm
    const char *rolled = ON_BODY "flat/rolled-peter-pan";
    close_to(noted(rolled, AS_IS " width_back=75mm overlap=50mm", "stand"), 12.4, 0.3, "overlap 5 cm");
    close_to(noted(rolled, AS_IS " width_back=75mm overlap=100mm", "stand"), 25.5, 0.3, "overlap 10 cm");
    close_to(noted(ON_BODY "flat/peter-pan", AS_IS " width=75mm overlap=12.5mm", "stand"), 3.1, 0.3,
             "overlap 1.25 cm");
}

Test(flat, a_rolled_collar_shortens_and_rises_with_the_overlap) { // P4
    double edge = 1e9, stand = -1;
    const char *overlaps[] = {"25mm", "40mm", "50mm", "65mm", "80mm", "95mm"};
    for (int i = 0; i < 6; i++) {
        Pattern p;
        char settings[64];
        snprintf(settings, sizeof settings, "overlap=%s", overlaps[i]);
        draft_of(ON_BODY "flat/rolled-peter-pan", settings, EXAMPLE_88, &p);
        cr_expect(note_of(&p, "outer_edge") < edge, "the edge does not shorten at %s", overlaps[i]);
        cr_expect(note_of(&p, "stand") > stand, "the stand does not rise at %s", overlaps[i]);
        edge = note_of(&p, "outer_edge");
        stand = note_of(&p, "stand");
        pattern_finish(&p);
    }
}

Test(flat,
     an_eton_with_a_quarter_of_the_shoulder_overlapped_stands_seven_millimetres) { // 0.71 cm, plane geometry
    close_to(noted(ON_BODY "flat/eton", AS_IS " width=70mm overlap=30.625mm", "stand"), 7.1, 0.1, "stand");
}

Test(flat, the_eton_point_lies_where_it_was_measured) {
    Pattern p;
    draft_of(ON_BODY "flat/eton", "width=70mm longer=8mm lean=6mm", EXAMPLE_88, &p);
    const Point neck = path_end(&mark_of(&p, "Joined shoulders", "neck")->path, PATH_LAST);
    const Point tip = mark_of(&p, "Joined shoulders", "point")->point;
    close_to(neck.y - tip.y, 78, 0.001, "down from the neck");
    close_to(neck.x - tip.x, 6, 0.001, "past the centre front");
    pattern_finish(&p);
}

// 11 cm wide on 18.14 cm with 1 cm of overlap: 18.14 + 11 (2.4778 - 0.0817), plane geometry.
Test(flat, the_parallel_of_a_puritan_follows_the_law) {
    close_to(noted(ON_BODY "flat/puritan", AS_IS " width=110mm overlap=10mm", "outer_edge"), 445.0, 0.5,
             "outer edge");
}

// 18 cm wide on a neckline of 24.97 cm, the back turned by 0.0408: 24.97 + 18 (2.4778 - 0.0408), plane
// geometry. That turn is an overlap of 0.5 cm on the whole shoulder, or 0.418 cm on the 10.25 cm left by this
// neckline.
Test(flat, the_outer_edge_of_a_bertha_follows_the_law) { // T45
    close_to(
        noted(ON_BODY "flat/bertha",
              "widen=20mm lower_front=50mm lower_back=10mm held=0mm width=180mm roundness=0mm overlap=4.18mm",
              "outer_edge"),
        688.4, 0.6, "outer edge");
}

Test(flat, the_flap_of_a_sailor_falls_where_it_was_squared) { // T74
    Pattern p;
    draft_of(ON_BODY "flat/sailor",
             "widen=0mm lower_back=0mm overlap=12.5mm back_depth=200mm half_flap=170mm", EXAMPLE_88, &p);
    const Point foot = mark_of(&p, "Joined shoulders", "back_foot")->point;
    const Point corner = mark_of(&p, "Joined shoulders", "back_corner")->point;
    close_to(foot.x, 164.1, 0.5, "foot of the centre back, across");
    close_to(foot.y, 204.9, 0.5, "foot of the centre back, up");
    close_to(corner.x, 286.7, 0.5, "corner, across");
    close_to(corner.y, 87.1, 0.5, "corner, up");
    pattern_finish(&p);
}

// A neckline of 40 cm cut as one quarter circle; a quarter circle for each half of 18.14 cm (plane geometry).
Test(flat, the_radius_of_a_circular_cape_comes_from_its_neckline) { // T46
    Pattern p;
    draft_of("flat/cape",
             "method=circular front_neckline=120mm back_neckline=80mm held=0mm sweep=45 slit=0mm", NULL, &p);
    close_to(note_of(&p, "radius"), 254.6, 0.1, "40 cm as one quarter circle");
    pattern_finish(&p);
    draft_of("flat/cape",
             "method=circular front_neckline=106.2mm back_neckline=75.2mm held=0mm sweep=90 slit=0mm", NULL,
             &p);
    close_to(note_of(&p, "radius"), 115.5, 0.1, "a quarter circle for each half");
    close_to(note_of(&p, "outer_edge"), 181.4 + 250 * RADIANS(90), 0.01, "its outer edge");
    pattern_finish(&p);
}

// The shoulders of the example turn the neck through 142 degrees; a quarter circle for each half is 52 short.
Test(flat, a_cape_that_turns_too_little_is_told_by_how_much) {
    Pattern p;
    draft_of(ON_BODY "flat/cape", "method=circular width=250mm sweep=90", EXAMPLE_88, &p);
    close_to(note_of(&p, "missing"), 250 * RADIANS(52), 1.0, "missing at the outer edge");
    bool told = false;
    for (int i = 0; i < p.proofs.count; i++)
        told |=
            strcmp(p.proofs.items[i].what, "the cape lies on the shoulders") == 0 && !p.proofs.items[i].holds;
    cr_expect(told);
    pattern_finish(&p);
}

Test(flat, a_joined_cape_needs_a_block_and_says_so) {
    Pattern p;
    Fault fault;
    cr_assert(
        !drafted("flat/cape", "method=joined front_neckline=120mm back_neckline=80mm", NULL, &p, &fault));
    cr_expect(strstr(fault.message, "there is no block"));
    cr_expect(strstr(fault.hint, "method=circular"));
    pattern_finish(&p);
    fault_finish(&fault);
    proven_whole("flat/cape", "front_neckline=120mm back_neckline=80mm", NULL); // a ring needs none
}

// Chord 6 cm, sagitta 1.5 cm, radius 3.75 cm (plane geometry): at any size the radius is 0.625 of the chord.
Test(flat, the_radius_of_a_petal_comes_from_chord_and_depth) { // T47
    Pattern p;
    draft_of(ON_BODY "flat/petal", "depth=0.25", EXAMPLE_88, &p);
    close_to(6 * note_of(&p, "petal_radius") / note_of(&p, "petal_chord"), 3.75, 0.005,
             "radius for a chord of 6");
    pattern_finish(&p);
}

Test(flat, a_petal_lies_astride_the_centre_back) { // P3
    Pattern p;
    draft_of(ON_BODY "flat/petal", NULL, EXAMPLE_88, &p);
    const Piece *upper = piece_of(&p, "Upper collar");
    double first, last;
    piece_fold_angles(upper, piece_find_edge(upper, "centre_back"), &first, &last);
    close_to(first, 90.0, 1.0, "at one end of the fold");
    close_to(last, 90.0, 1.0, "at the other end of the fold");
    close_to(edge_length(&p, "Upper collar", "centre_back"), 70.0, 0.5,
             "the tip of the petal reaches the width");
    pattern_finish(&p);
}

Test(flat, a_neckline_that_does_not_fit_is_refused_with_its_reason) {
    refuses(ON_BODY "necklines/scoop flat/sailor", NULL, EXAMPLE_88, "the point of a V", "necklines/v");
    refuses(ON_BODY "necklines/v flat/eton", NULL, EXAMPLE_88, "comes to a point", "necklines/scoop");
    refuses(ON_BODY "necklines/v flat/peter-pan", "opening=back front=whole", EXAMPLE_88, "comes to a point",
            "necklines/scoop");
    refuses(ON_BODY "necklines/square flat/puritan", NULL, EXAMPLE_88, "corner", "necklines/scoop");
    refuses(ON_BODY "necklines/halter flat/bertha", NULL, EXAMPLE_88, "no collar sits on this neckline",
            "necklines/");
    refuses(ON_BODY "necklines/boat flat/bertha", "ends=pointed", EXAMPLE_88, "on the shoulder",
            "necklines/scoop");
    refuses(ON_BODY "flat/eton", "overlap=40mm", EXAMPLE_88, "a third of the", "at the most");
    refuses(ON_BODY "flat/petal",
            "petals=3 depth=0.35 width=50mm opening=back widen=40mm lower_front=60mm lower_back=30mm",
            EXAMPLE_88, "deep leave less than", "more petals");
}

// The dickey stands 3 cm away from the V, square to it (plane geometry).
Test(flat, the_dickey_fills_the_v_and_three_centimetres_more) {
    Pattern p;
    draft_of(ON_BODY "flat/sailor", "dickey=full", EXAMPLE_88, &p);
    const Path *v = &mark_of(&p, "Joined shoulders", "front_neck")->path;
    const Path *rim = piece_find_path(piece_of(&p, "Dickey"), "rim");
    for (int i = 1; i < 10; i++) {
        Point at;
        cr_assert_eq(path_at(rim, path_length(rim) * i / 10, &at), GEOM_OK);
        if (at.y > path_first(v).y) {
            const Point near = path_spot_point(v, path_nearest(v, at));
            close_to(hypot(at.x - near.x, at.y - near.y), 30.0, 0.1, "from the V to the rim");
        }
    }
    pattern_finish(&p);
    proven_whole(ON_BODY "flat/sailor", "dickey=full", EXAMPLE_88);
    proven_whole(ON_PAPER "flat/sailor", "dickey=full", PAPER_88);
}

Test(flat, a_sailor_keeps_a_v_chosen_before) {
    Pattern p;
    draft_of(ON_BODY "necklines/v flat/sailor", "depth=180mm", EXAMPLE_88, &p);
    close_to(path_end(&mark_of(&p, "Joined shoulders", "front_neck")->path, PATH_FIRST).y, -180, 0.01,
             "point of the V");
    pattern_finish(&p);
    proven_whole(ON_BODY "necklines/v flat/sailor", NULL, EXAMPLE_88);
    proven_whole(ON_BODY "necklines/scoop flat/bertha", NULL, EXAMPLE_88);
}

Test(flat, a_flat_collar_in_two_halves_meets_at_the_point_of_a_v) {
    static const char *const flat[] = {"peter-pan", "cape", "bertha", "petal"};
    static const char *const bodies[] = {EXAMPLE_88, "women-80", "women-116"};
    for (int i = 0; i < 4; i++)
        for (int b = 0; b < 3; b++) {
            char chain[80];
            snprintf(chain, sizeof chain, ON_BODY "necklines/v flat/%s", flat[i]);
            proven_whole(chain, i == 2 ? "front=meets" : NULL, bodies[b]);
        }
}

Test(flat, a_collar_that_opens_at_the_back_can_be_whole_in_front) {
    static const char *const flat[] = {"peter-pan", "puritan", "bertha", "cape"};
    for (int i = 0; i < 4; i++) {
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "flat/%s", flat[i]);
        proven_whole(chain, "opening=back front=whole", EXAMPLE_88);
        proven_whole(chain, "opening=back front=meets", EXAMPLE_88);
    }
}

// A slit in the fold is stitched 3 mm beside the centre: so much of the neck edge is lost on each half, and
// more where the edge runs down into a point, 3 mm over the sine of half its angle (plane geometry).
static double lost_to_the_slit(const char *collar, const char *before) {
    double length[2];
    for (int open = 0; open < 2; open++) {
        char chain[80], settings[60];
        snprintf(chain, sizeof chain, ON_BODY "%sflat/%s", before, collar);
        snprintf(settings, sizeof settings, "opening=front slit=%s", open ? "15cm" : "0mm");
        Pattern p;
        draft_of(chain, settings, EXAMPLE_88, &p);
        length[open] = edge_length(&p, "Upper collar", "neck");
        close_to(edge_length(&p, "Upper collar", "neck"),
                 edge_length(&p, "Front", "neckline") + edge_length(&p, "Back", "neckline") - 3, 0.02,
                 "the collar is held by 3 mm on what is left; it measures");
        pattern_finish(&p);
    }
    return length[0] - length[1];
}

Test(flat, a_collar_ends_where_the_slit_is_stitched) {
    close_to(lost_to_the_slit("peter-pan", ""), 3, 0.01, "lost to the slit, round");
    close_to(lost_to_the_slit("puritan", ""), 3, 0.01, "lost to the slit, round");
    Pattern p;
    draft_of(ON_BODY "necklines/v flat/peter-pan", "hollow=0mm pinch=0mm", EXAMPLE_88, &p);
    const double half_angle = note_of(&p, "point_angle") / 2;
    pattern_finish(&p);
    Pattern whole;
    draft_of(ON_BODY "necklines/v flat/peter-pan", "hollow=0mm pinch=0mm slit=0mm", EXAMPLE_88, &whole);
    const double round = note_of(&whole, "half_neckline");
    draft_of(ON_BODY "necklines/v flat/peter-pan", "hollow=0mm pinch=0mm", EXAMPLE_88, &p);
    close_to(edge_length(&p, "Front", "neckline") + edge_length(&p, "Back", "neckline"),
             round - 3 / sin(RADIANS(half_angle)), 0.02, "what is left above the slit of a V");
    pattern_finish(&p);
    pattern_finish(&whole);
}

static bool says(const Pattern *p, const char *text) {
    for (int i = 0; i < p->remarks.count; i++)
        if (strstr(p->remarks.items[i].text, text))
            return true;
    return false;
}

Test(flat, wide_collars_caution_for_a_child) {
    for (int i = 0; i < COLLARS; i++) {
        const bool wide = strcmp(collars[i], "cape") == 0 || strcmp(collars[i], "bertha") == 0;
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "flat/%s", collars[i]);
        Pattern p;
        draft_of(chain, "age=10years", EXAMPLE_88, &p);
        cr_expect(says(&p, "wide collars burn first") == wide, "%s", collars[i]);
        pattern_finish(&p);
    }
}

Test(flat, every_collar_is_proven_whole_on_every_block, .timeout = 120) { // P2, P3, P7 to P10
    for (int i = 0; i < COLLARS; i++) {
        char chain[80];
        snprintf(chain, sizeof chain, ON_BODY "flat/%s", collars[i]);
        proven_whole(chain, NULL, EXAMPLE_88);
        proven_whole(chain, NULL, "women-80");
        proven_whole(chain, NULL, "women-116");
        snprintf(chain, sizeof chain, ON_PAPER "flat/%s", collars[i]);
        proven_whole(chain, NULL, PAPER_88);
        snprintf(chain, sizeof chain, "blocks/three-measures flat/%s", collars[i]);
        proven_whole(chain, NULL, EXAMPLE_88);
    }
}

static void at_this_end(const char *collar, const char *settings) {
    for (int paper = 0; paper < 2; paper++) {
        char chain[80];
        snprintf(chain, sizeof chain, "%sflat/%s", paper ? ON_PAPER : ON_BODY, collar);
        Pattern p;
        Fault fault;
        if (!drafted(chain, settings, paper ? PAPER_88 : EXAMPLE_88, &p, &fault)) {
            cr_expect(fault.hint && *fault.hint, "%s %s: a refusal without a way out: %s", chain, settings,
                      fault.message);
            fault_finish(&fault);
            continue;
        }
        char who[200];
        snprintf(who, sizeof who, "%s %s", chain, settings);
        all_holds(&p, who);
        pattern_finish(&p);
        fault_finish(&fault);
    }
}

static void at_both_ends(const char *collar, const Input *input) {
    char settings[120];
    if (input->measure == MEASURE_TEXT) {
        char options[400];
        snprintf(options, sizeof options, "%s", input->options);
        char *rest = NULL;
        for (char *word = strtok_r(options, ",", &rest); word; word = strtok_r(NULL, ",", &rest)) {
            word += strspn(word, " ");
            snprintf(settings, sizeof settings, "%s=%s", input->name, word);
            at_this_end(collar, settings);
        }
        return;
    }
    const char *unit = input->measure == MEASURE_LENGTH ? "mm" : "";
    for (int end = 0; end < 2; end++) {
        snprintf(settings, sizeof settings, "%s=%.4f%s", input->name, end ? input->most : input->least, unit);
        at_this_end(collar, settings);
    }
}

Test(flat, every_choice_holds_or_refuses_at_both_ends, .timeout = 300) {
    Shelf shelf;
    shelf_init(&shelf);
    for (int i = 0; i < COLLARS; i++) {
        char name[40];
        snprintf(name, sizeof name, "flat/%s", collars[i]);
        const char *chain = name;
        const Recipe *recipe;
        Pattern survey;
        Fault fault;
        fault_init(&fault);
        cr_assert(shelf_find(&shelf, name, &recipe, &fault), "%s", fault.message);
        const ScriptJob asked = {.shelf = &shelf, .chain = &chain, .chain_count = 1};
        cr_assert(script_survey(&asked, &survey, &fault), "%s", fault.message);
        int choices = 0;
        for (int n = 0; n < survey.inputs.count; n++) {
            if (!survey.inputs.items[n].choice)
                continue;
            choices++;
            at_both_ends(collars[i], &survey.inputs.items[n]);
        }
        cr_expect(choices >= 10, "%s: only %d choices", name, choices);
        pattern_finish(&survey);
        fault_finish(&fault);
    }
    shelf_finish(&shelf);
}
