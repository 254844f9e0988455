#include "wearers.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "pattern/prove.h"

// xorshift64*, seeded by the test: the same drafts on every run (Marsaglia 2003, Vigna 2016).
double roll(Dice *dice, double least, double most) {
    dice->state ^= dice->state >> 12;
    dice->state ^= dice->state << 25;
    dice->state ^= dice->state >> 27;
    const double part = (double)((dice->state * 2685821657736338717ULL) >> 11) / 9007199254740992.0;
    return least + part * (most - least);
}

static void body_add(Body *body, const char *name, double mm) {
    body->items[body->count++] = (BodyMeasure){.name = (char *)name, .value = mm};
}

Body chart_body(int size) {
    // bust, nape to waist, scye depth, neck base, shoulder, across back, across front, waist; cm
    static const double rows[CHART_SIZES][8] = {
        {80, 40.2, 20.2, 35, 11.75, 32.4, 30.0, 64},  {84, 40.6, 20.6, 36, 12.0, 33.4, 31.2, 68},
        {88, 41.0, 21.0, 37, 12.25, 34.4, 32.4, 72},  {92, 41.4, 21.4, 38, 12.5, 35.4, 33.6, 76},
        {96, 41.8, 21.8, 39, 12.75, 36.4, 34.8, 80},  {100, 42.2, 22.2, 40, 13.0, 37.4, 36.0, 84},
        {104, 42.6, 22.6, 41, 13.25, 38.4, 37.2, 88}, {110, 43.0, 23.2, 42, 13.6, 39.8, 39.0, 94},
        {116, 43.4, 23.8, 43, 13.9, 41.2, 40.8, 100}, {122, 43.8, 24.4, 44, 14.2, 42.6, 42.6, 106},
    };
    static const char *const names[] = {
        "bust_girth",      "back_neck_point_to_waist", "scye_depth",         "neck_base_girth",
        "shoulder_length", "across_back_width",        "across_front_width", "waist_girth"};
    Body body = {0};
    for (int i = 0; i < 8; i++)
        body_add(&body, names[i], 10 * rows[size][i]);
    body_add(&body, "head_girth", 515.1 + 0.486 * rows[size][0]);
    return body;
}

// A body whose measures scatter round their regressions on the bust in the open ANSUR II survey (2012,
// women), by two standard deviations; across front and scye depth round a handbook chart, from memory.
Body random_body(Dice *dice) {
    Body body = {0};
    const double bust = roll(dice, 760, 1240), spare = bust - 880;
    body_add(&body, "bust_girth", bust);
    body_add(&body, "back_neck_point_to_waist", 410 + 0.1 * spare + roll(dice, -30, 30));
    body_add(&body, "scye_depth", 210 + 0.1 * spare + roll(dice, -15, 15));
    body_add(&body, "neck_base_girth", 223.3 + 0.156 * bust + roll(dice, -30, 30));
    body_add(&body, "shoulder_length", 110.5 + 0.016 * bust + roll(dice, -20, 20));
    body_add(&body, "across_back_width", 344 + 0.25 * spare + roll(dice, -12, 12));
    body_add(&body, "across_front_width", 324 + 0.30 * spare + roll(dice, -12, 12));
    body_add(&body, "waist_girth", 680 + spare + roll(dice, -60, 60));
    body_add(&body, "head_girth", 515.1 + 0.0486 * bust + roll(dice, -38, 38));
    return body;
}

// A block measured with a ruler, anywhere in the usual ranges (common practice, no source).
Body random_paper(Dice *dice) {
    Body body = {0};
    const double back_width = roll(dice, 62, 95), shoulder = roll(dice, 95, 160);
    const double front_slope = roll(dice, 10, 24), back_slope = roll(dice, 18, 26);
    const double back_shoulder = shoulder + roll(dice, 0, 12);
    body_add(&body, "back_neck_width", back_width);
    body_add(&body, "back_neck_depth", roll(dice, 12, 32));
    body_add(&body, "front_neck_width", back_width - roll(dice, 0, 10));
    body_add(&body, "front_neck_depth", roll(dice, 58, 105));
    body_add(&body, "front_shoulder_length", shoulder);
    body_add(&body, "front_shoulder_drop", shoulder * sin(RADIANS(front_slope)));
    body_add(&body, "back_shoulder_length", back_shoulder);
    body_add(&body, "back_shoulder_drop", back_shoulder * sin(RADIANS(back_slope)));
    body_add(&body, "head_girth", roll(dice, 500, 630));
    return body;
}

// Whether a legal choice may fail the proof.
static bool may_fail(const Proof *proof) {
    static const char *const names[] = {"opening over the head",
                                        "the funnel passes over the head",
                                        "the top edge stands clear of the neck",
                                        "the collar lies flat",
                                        "the under collar is smaller by the turn of cloth",
                                        "the fall covers the neck seam",
                                        "the point can be turned",
                                        "the point looks pointed",
                                        "the arms can be lifted",
                                        "the cape lies on the shoulders",
                                        "the valleys can be turned",
                                        "the flap is no wider than the back",
                                        "the front line stays off the armhole",
                                        "the point of the front neckline stays 3 cm above the bust"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strcmp(proof->what, names[i]) == 0)
            return proof->way_out && *proof->way_out;
    return false;
}

bool all_holds(const Pattern *pattern, const char *who) {
    bool held = true;
    for (int i = 0; i < pattern->proofs.count; i++) {
        const Proof *proof = &pattern->proofs.items[i];
        if (proof->holds)
            continue;
        held = false;
        if (may_fail(proof))
            continue;
        Buffer why;
        buffer_init(&why);
        proof_sentence(pattern, proof, &why);
        cr_expect(false, "%s: %s", who, why.data);
        buffer_finish(&why);
    }
    return held;
}
