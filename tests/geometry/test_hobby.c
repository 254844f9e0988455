#include "near.h"

#include "geometry/hobby.h"
#include "geometry/solve.h"

#define MAX 5

// What MetaPost 2.02 (Debian texlive-metapost, -numbersystem=double) shows for a path: Hobby 1986. One row a
// piece: the first point, its handle, the last point's handle.
typedef struct Shown {
    double x0, y0, x1, y1, x2, y2;
} Shown;

static void check(const Knot *knots, int count, bool closed, const Shown *want, double tolerance) {
    Path path = {0};
    cr_assert_eq(path_through(knots, count, closed, &path), GEOM_OK);
    cr_assert_eq(path.count, closed ? count : count - 1);
    for (int i = 0; i < path.count; i++) {
        NEAR_POINT(path.items[i].p0, want[i].x0, want[i].y0, 0);
        NEAR_POINT(path.items[i].p1, want[i].x1, want[i].y1, tolerance);
        NEAR_POINT(path.items[i].p2, want[i].x2, want[i].y2, tolerance);
    }
    cr_assert_eq(path_is_closed(&path), closed);
    path_finish(&path);
}

static const Knot FIVE[MAX] = {
    {.at = {0, 0}}, {.at = {60, 40}}, {.at = {40, 90}}, {.at = {10, 70}}, {.at = {30, 50}}};

// (0,0)..(60,40)..(40,90)..(10,70)..(30,50)..cycle
Test(hobby, the_closed_curve_through_five_points_is_that_of_metapost) {
    const Shown want[5] = {
        {0, 0, 5.1875607580824488, -26.835293712642486, 60.360737358050955, -18.400365485423805},
        {60, 40, 59.877146133933543, 59.889014873155624, 57.338958536882046, 81.642026025504691},
        {40, 90, 22.399864282226112, 98.483870352641816, 4.7240324589561551, 84.463693782659831},
        {10, 70, 13.386367055545398, 60.71651299101709, 26.35591266483469, 59.135106432380304},
        {30, 50, 39.194088390286012, 26.951985979182162, -4.1055474362057964, 21.238030056826542}};
    check(FIVE, 5, true, want, 1e-9);
}

// (0,0)..(60,40)..(40,90)..(10,70)..(30,50)
Test(hobby, the_open_curve_through_five_points_is_that_of_metapost) {
    const Shown want[4] = {
        {0, 0, 26.764622195626387, -1.8454354835590572, 51.409393448044369, 14.584412018052923},
        {60, 40, 67.098751578544949, 61.001886678819304, 59.762534355091036, 84.575180016879983},
        {40, 90, 25.357136354913536, 94.019469258562054, 10.480636330111270, 84.502202304358491},
        {10, 70, 9.628945783123438, 58.804210206533, 18.804210206532996, 49.628945783123442}};
    check(FIVE, 5, false, want, 1e-9);
}

// (0,0){dir 0}..(60,40)..tension 1.5 and 2..(40,90){dir 120}..(10,70)..{dir -90}(30,50)
Test(hobby, directions_and_tensions_are_those_of_metapost) {
    Knot knots[MAX];
    for (int i = 0; i < MAX; i++)
        knots[i] = FIVE[i];
    knots[0].has_leave = true;
    knots[1].tension_out = 1.5;
    knots[2].tension_in = 2;
    knots[2].has_arrive = true; // one alone serves both sides
    knots[2].arrive = 120;
    knots[4].has_arrive = true;
    knots[4].arrive = -90;
    const Shown want[4] = {
        {0, 0, 32.004284048796649, 0, 63.545694907516271, 13.606207883973084},
        {60, 40, 58.389114728897397, 51.99126605002651, 44.530110434572713, 82.153618563422128},
        {40, 90, 27.988582794774189, 110.80438487035806, -4.2056616894557326, 91.328196846171636},
        {10, 70, 15.385133665456056, 61.914829919887175, 30, 60.757437879986624}};
    check(knots, 5, false, want, 1e-4);
}

// (0,0)..(60,40)..(40,90){dir 150}..(10,70)..tension 0.8..(30,50)..cycle
Test(hobby, a_closed_curve_with_one_direction_is_that_of_metapost) {
    Knot knots[MAX];
    for (int i = 0; i < MAX; i++)
        knots[i] = FIVE[i];
    knots[2].has_leave = true;
    knots[2].leave = 150;
    knots[3].tension_out = knots[4].tension_in = 0.8;
    const Shown want[5] = {
        {0, 0, 6.5189221367031012, -26.591026692066922, 60.967317514258518, -17.202929841924941},
        {60, 40, 59.670319156481824, 59.495884116657066, 56.537375253148213, 80.452141945905026},
        {40, 90, 24.212025745013346, 99.115191186075421, 5.8563571746211798, 85.925576452979584},
        {10, 70, 13.184587265346906, 57.760434452785951, 27.539658211408511, 62.657131333491783},
        {30, 50, 34.23186667172876, 28.229328746815348, -5.4389444955292622, 22.185741019471784}};
    check(knots, 5, true, want, 1e-4);
}

// (0,0){dir 90}..(10,0); (0,0)..tension 3 and 1..(30,40)..(60,0); (0,0)..(30,40){dir 0}..{dir -20}(60,0)
Test(hobby, curled_ends_are_those_of_metapost) {
    const Knot half[2] = {{.at = {0, 0}, .has_leave = true, .leave = 90}, {.at = {10, 0}}};
    const Shown want_half[1] = {{0, 0, 0, 6.6666666666666661, 10, 6.6666666666666661}};
    check(half, 2, false, want_half, 1e-9);
    const Knot tense[3] = {{.at = {0, 0}, .tension_out = 3}, {.at = {30, 40}}, {.at = {60, 0}}};
    const Shown want_tense[2] = {
        {0, 0, 1.7440753880085045, 5.6010793119921729, 13.841107480591972, 33.349493320757716},
        {30, 40, 54.6525068242412, 50.146218937824102, 76.643072091098674, 20.825465248680803}};
    check(tense, 3, false, want_tense, 1e-4);
    const Knot led[3] = {{.at = {0, 0}},
                         {.at = {30, 40}, .has_leave = true, .leave = 0},
                         {.at = {60, 0}, .has_arrive = true, .arrive = -20}};
    const Shown want_led[2] = {{0, 0, -5.833333333333333, 20, 9.1666666666666679, 40},
                               {30, 40, 51.362937097619081, 40, 43.56582660569542, 5.9815499402964267}};
    check(led, 3, false, want_led, 1e-4);
}

// (0,0)..tension 1 and 5..(30,40)..(60,0), by MetaPost's 16-bit scaled arithmetic, which is good to a few
// thousandths here; its double arithmetic curls an end with the smaller tension wrongly.
Test(hobby, an_end_with_the_smaller_tension_curls_as_in_scaled_metapost) {
    const Knot knots[3] = {{.at = {0, 0}}, {.at = {30, 40}, .tension_in = 5}, {.at = {60, 0}}};
    const Shown want[2] = {{0, 0, 1.25548, 17.4616, 27.10622, 37.97458},
                           {30, 40, 56.4409, 58.50656, 85.16975, 20.20143}};
    check(knots, 3, false, want, 5e-3);
}

Test(hobby, two_free_points_give_a_straight_line) {
    const Knot knots[2] = {{.at = {0, 0}}, {.at = {30, 40}}};
    Path path = {0};
    cr_assert_eq(path_through(knots, 2, false, &path), GEOM_OK);
    cr_assert_eq(path.items[0].kind, SEGMENT_LINE);
    NEAR(path_length(&path), 50, 1e-12);
    path_finish(&path);
}

Test(hobby, the_curve_is_smooth_at_its_knots_and_turns_with_them) {
    Path path = {0}, turned = {0};
    Knot knots[MAX];
    const Affine m = affine_swing(point(10, 20), 77);
    for (int i = 0; i < MAX; i++) {
        knots[i] = FIVE[i];
        knots[i].at = affine_point(m, FIVE[i].at);
    }
    path_through(FIVE, 5, true, &path);
    path_through(knots, 5, true, &turned);
    for (int i = 0; i < 5; i++) {
        const Segment *s = &path.items[i], *next = &path.items[(i + 1) % 5];
        NEAR(point_turn(segment_direction(s, 1), segment_direction(next, 0)), 0, 1e-9);
        const Point want = affine_point(m, s->p1);
        NEAR_POINT(turned.items[i].p1, want.x, want.y, 1e-9);
    }
    path_finish(&path);
    path_finish(&turned);
}

Test(hobby, two_directions_at_a_knot_make_a_corner) {
    const Knot knots[3] = {{.at = {0, 0}},
                           {.at = {50, 0}, .has_leave = true, .leave = 90, .has_arrive = true, .arrive = 10},
                           {.at = {50, 50}}};
    Path path = {0};
    cr_assert_eq(path_through(knots, 3, false, &path), GEOM_OK);
    NEAR(point_angle(segment_direction(&path.items[0], 1)), 10, 1e-9);
    NEAR(point_angle(segment_direction(&path.items[1], 0)), 90, 1e-9);
    path_finish(&path);
}

Test(hobby, knots_that_cannot_be_joined_are_refused) {
    const Knot same[3] = {{.at = {0, 0}}, {.at = {50, 0}}, {.at = {50, 0}}};
    const Knot round[3] = {{.at = {0, 0}}, {.at = {50, 0}}, {.at = {0, 0}}};
    const Knot odd[2] = {{.at = {0, 0}}, {.at = {50, 0}, .has_leave = true, .leave = NAN}};
    Path path = {0};
    cr_assert_eq(path_through(same, 3, false, &path), GEOM_NO_DIRECTION);
    cr_assert_eq(path_through(round, 3, true, &path), GEOM_NO_DIRECTION);
    cr_assert_eq(path_through(odd, 2, false, &path), GEOM_NOT_FINITE);
    cr_assert_eq(path_through(odd, 1, false, &path), GEOM_NO_DIRECTION);
    cr_assert_eq(path_through(odd, PATH_SEGMENTS_MAX + 1, false, &path), GEOM_TOO_MANY);
    const double far = COORDINATE_LIMIT_MM; // the curve bulges past the limit
    const Knot wide[2] = {{.at = {0, far}, .has_leave = true, .leave = 90}, {.at = {far, far}}};
    cr_assert_eq(path_through(wide, 2, false, &path), GEOM_NOT_FINITE);
    cr_assert_eq(path.count, 0);
    cr_assert_eq(path_through(round, 3, false, &path), GEOM_OK);
    path_finish(&path);
}

// The neck curves of a block of bust 88 cm (drafting method of a published block, formula re-read; lengths by
// numerical integration). In cm, y up, so slopes run down to the right.
static const double BACK_SLOPE = 22.17, FRONT_SLOPE = 15.86;

Test(hobby, the_box_curve_draws_the_necks_of_a_known_block) {
    Path neck = {0};
    cr_assert_eq(path_box_curve(point(0, -1.5), 0, point(7.2, 0), 90 - BACK_SLOPE, 0.5523, &neck), GEOM_OK);
    NEAR(path_length(&neck), 7.52, 0.05);
    NEAR_POINT(neck.items[0].p1, 0.5523 * 7.2, -1.5, 1e-12);
    NEAR(point_distance(neck.items[0].p2, neck.items[0].p3), 0.5523 * 1.5, 1e-12);
    NEAR(point_angle(path_direction(&neck, PATH_LAST)), 90 - BACK_SLOPE, 1e-9);
    cr_assert_eq(path_box_curve(point(0, -7.2), 0, point(6.7, 0), 90 - FRONT_SLOPE, 0.5523, &neck), GEOM_OK);
    NEAR(path_length(&neck), 10.62, 0.05);
    path_finish(&neck);
}

static int neck_less_11(void *context, double k, double *out) {
    Path *neck = context;
    if (path_box_curve(point(0, -7.2), 0, point(6.7, 0), 90 - FRONT_SLOPE, k, neck) != GEOM_OK)
        return 0;
    *out = path_length(neck) - 11;
    return 1;
}

Test(hobby, the_fullness_for_a_wanted_neck_length_is_found) {
    Path neck = {0};
    double k;
    cr_assert_eq(solve_between(neck_less_11, &neck, 0.3, 1, 1e-9, &k, NULL), GEOM_OK);
    NEAR(k, 0.71, 0.01);
    path_finish(&neck);
}

// A quarter ellipse of half-axes a and b is within 3 parts in 10000 of the box curve with k = 0.5523, and its
// length is the complete elliptic integral: for a = 2, b = 1 the whole ellipse is 9.688448220547675 (from
// memory).
Test(hobby, the_box_curve_is_the_quarter_ellipse) {
    Path curve = {0};
    cr_assert_eq(path_box_curve(point(0, -1), 0, point(2, 0), 90, 0.5523, &curve), GEOM_OK);
    NEAR(path_length(&curve), 9.688448220547675 / 4, 1e-3);
    for (int i = 0; i <= 20; i++) {
        const Point p = segment_point(&curve.items[0], i / 20.0);
        NEAR(hypot(p.x / 2, p.y), 1, 3e-4);
    }
    path_finish(&curve);
}

Test(hobby, box_curves_that_cannot_be_are_refused) {
    Path curve = {0};
    cr_assert_eq(path_box_curve(point(1, 1), 0, point(1, 1), 90, 0.5, &curve), GEOM_NO_DIRECTION);
    cr_assert_eq(path_box_curve(point(1, 1), 0, point(2, 2), 90, -0.5, &curve), GEOM_NO_DIRECTION);
    cr_assert_eq(path_box_curve(point(1, 1), 0, point(2, 2), 90, NAN, &curve), GEOM_NOT_FINITE);
    cr_assert_eq(path_box_curve(point(1, 1), 0, point(2, 2), 90, 1e9, &curve), GEOM_NOT_FINITE);
    cr_assert_eq(curve.count, 0);
    cr_assert_eq(path_box_curve(point(0, 0), 0, point(5, 0), 0, 0.5, &curve), GEOM_OK); // no span across
    NEAR(path_length(&curve), 5, 1e-7);
    path_finish(&curve);
}
