// 2,000 random legal blocks and bodies for each collar: every proof holds, or what refused it says why.
#include <criterion/criterion.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"
#include "pattern/prove.h"
#include "recipe/shelf.h"

#define DRAFTS 2000

typedef struct Dice {
    uint64_t state;
} Dice;

// xorshift64*, seeded by the test: the same drafts on every run (Marsaglia 2003, Vigna 2016).
static double roll(Dice *dice, double least, double most) {
    dice->state ^= dice->state >> 12;
    dice->state ^= dice->state << 25;
    dice->state ^= dice->state >> 27;
    const double part = (double)((dice->state * 2685821657736338717ULL) >> 11) / 9007199254740992.0;
    return least + part * (most - least);
}

typedef struct Body {
    BodyMeasure items[20];
    int count;
} Body;

static void body_add(Body *body, const char *name, double mm) {
    body->items[body->count++] = (BodyMeasure){.name = (char *)name, .mm = mm};
}

// A body whose measures scatter round their regressions on the bust in the open ANSUR II survey (2012,
// women), by two standard deviations; across front and scye depth round a handbook chart, from memory.
static Body random_body(Dice *dice) {
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
static Body random_paper(Dice *dice) {
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

// Proofs that a legal choice may fail: each tells the number and a way out.
static bool may_fail(const Proof *proof) {
    static const char *const names[] = {"opening over the head", "the funnel passes over the head",
                                        "the top edge stands clear of the neck", "the collar lies flat",
                                        "the point of the front neckline stays 3 cm above the bust"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strcmp(proof->what, names[i]) == 0)
            return proof->way_out && *proof->way_out;
    return false;
}

typedef struct Choice {
    const char *name;
    double least, most;
} Choice;

typedef struct Tally {
    int held, told, refused;
} Tally;

static void draft_one(Shelf *shelf, Dice *dice, const char *collar, const Choice *choices, int choice_count,
                      int n, Tally *tally) {
    const bool drafted_block = n % 2 == 0;
    Body body = drafted_block ? random_body(dice) : random_paper(dice);
    const Measures measures = {.items = body.items, .count = body.count};
    char values[12][32];
    Setting settings[12];
    for (int i = 0; i < choice_count; i++) {
        snprintf(values[i], sizeof values[i], "%.3f mm", roll(dice, choices[i].least, choices[i].most));
        settings[i] = (Setting){choices[i].name, values[i]};
    }
    const char *const chain[] = {drafted_block ? "blocks/close-fitting" : "blocks/measured", collar};
    const ScriptJob job = {.shelf = shelf,
                           .chain = chain,
                           .chain_count = 2,
                           .settings = settings,
                           .setting_count = choice_count,
                           .body = &measures};
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    if (!script_run(&job, &pattern, &fault)) {
        tally->refused++;
        cr_expect(fault.message && *fault.message && fault.hint && *fault.hint,
                  "%s draft %d: a refusal without its reason or way out: %s", collar, n,
                  fault.message ? fault.message : "");
    } else {
        pattern_prove(&pattern, NULL, 0, NULL);
        bool held = true;
        for (int i = 0; i < pattern.proofs.count; i++) {
            const Proof *proof = &pattern.proofs.items[i];
            if (proof->holds)
                continue;
            held = false;
            if (may_fail(proof))
                continue;
            Buffer why;
            buffer_init(&why);
            proof_sentence(&pattern, proof, &why);
            cr_expect(false, "%s draft %d: %s", collar, n, why.data);
            buffer_finish(&why);
        }
        tally->held += held;
        tally->told += !held;
    }
    pattern_finish(&pattern);
    fault_finish(&fault);
}

static void draft_many(const char *collar, uint64_t seed, const Choice *choices, int choice_count) {
    Shelf shelf;
    shelf_init(&shelf);
    Fault fault;
    fault_init(&fault);
    const Recipe *recipe;
    cr_assert(shelf_find(&shelf, "blocks/close-fitting", &recipe, &fault) &&
                  shelf_find(&shelf, "blocks/measured", &recipe, &fault) &&
                  shelf_find(&shelf, collar, &recipe, &fault),
              "%s", fault.message);
    Dice dice = {seed};
    Tally tally = {0};
    for (int n = 0; n < DRAFTS; n++)
        draft_one(&shelf, &dice, collar, choices, choice_count, n, &tally);
    fprintf(stderr,
            "%s: %d drafts, %d proven whole, %d with a proof that says no, %d refused with a reason\n",
            collar, DRAFTS, tally.held, tally.told, tally.refused);
    cr_expect(tally.held > DRAFTS / 2, "only %d of %d drafts were proven whole", tally.held, DRAFTS);
    fault_finish(&fault);
    shelf_finish(&shelf);
}

Test(random, two_thousand_funnels_hold_or_say_why, .timeout = 300) {
    const Choice choices[] = {{"height", 40, 250}, {"ease", 0, 40}};
    draft_many("collars/square-funnel", 88, choices, 2);
}

Test(random, two_thousand_mandarins_hold_or_say_why, .timeout = 300) {
    const Choice choices[] = {{"height", 20, 50}, {"rise", 5, 30},         {"corner", 0, 18},
                              {"widen", 0, 20},   {"lower_front", 0, 30},  {"lower_back", 0, 15},
                              {"slit", 120, 300}, {"front_height", 20, 45}};
    draft_many("collars/mandarin", 99, choices, 8);
}

Test(random, two_thousand_peter_pans_hold_or_say_why, .timeout = 300) {
    const Choice choices[] = {{"width", 30, 100},   {"overlap", 0, 25},     {"held", 0, 5},
                              {"raise_back", 0, 5}, {"turn", 0.5, 6},       {"round_end", 5, 18},
                              {"widen", 0, 30},     {"lower_front", 5, 50}, {"lower_back", 0, 25},
                              {"slit", 100, 300}};
    draft_many("collars/peter-pan", 77, choices, 10);
}
