// Random legal blocks, bodies and choices for each collar: every proof holds, or what refused it says why.
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"
#include "pattern/prove.h"
#include "recipe/shelf.h"
#include "wearers.h"

// The sanitized build is slow: it takes the first of the same drafts.
#ifdef __SANITIZE_ADDRESS__
#define MANY 300
#define SOME 60
#else
#define MANY 2000
#define SOME 200
#endif

typedef struct Tally {
    int held, told, refused;
} Tally;

#define SETTINGS_MOST 24

typedef struct Picked {
    Setting items[SETTINGS_MOST];
    char values[SETTINGS_MOST][32];
    int count;
} Picked;

// One of the words of "a, b, c".
static void pick_word(Dice *dice, const char *options, char *out, size_t size) {
    int count = 1;
    for (const char *c = options; *c; c++)
        count += *c == ',';
    int n = (int)roll(dice, 0, count);
    const char *word = options;
    for (; n > 0; n--)
        word = strchr(word, ',') + 2;
    snprintf(out, size, "%.*s", (int)strcspn(word, ","), word);
}

// Limits that hang on other choices are those of the defaults here, and may be others in the draft.
static bool hangs_on_others(const char *name) {
    static const char *const names[] = {"front_height", "corner", "round_end",   "stand",
                                        "lap",          "ratio",  "facing_width"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strcmp(name, names[i]) == 0)
            return true;
    return false;
}

// Sets about half of the choices of a recipe, anywhere in the limits it gives them itself.
static void pick(Dice *dice, const Pattern *survey, Picked *picked) {
    for (int i = 0; i < survey->inputs.count && picked->count < SETTINGS_MOST; i++) {
        const Input *input = &survey->inputs.items[i];
        if (!input->choice || roll(dice, 0, 1) < (hangs_on_others(input->name) ? 0.9 : 0.5))
            continue;
        char *value = picked->values[picked->count];
        if (input->measure == MEASURE_TEXT)
            pick_word(dice, input->options, value, sizeof picked->values[0]);
        else
            snprintf(value, sizeof picked->values[0], input->measure == MEASURE_LENGTH ? "%.3f mm" : "%.4f",
                     roll(dice, input->least, input->most));
        picked->items[picked->count++] = (Setting){input->name, value};
    }
}

// A sailor collar ends in the point of a V; the others sit on a round neckline.
static const char *neckline_for(const char *collar) {
    return strcmp(collar, "flat/sailor") == 0 ? "necklines/v" : "necklines/lowered";
}

static void draft_one(Shelf *shelf, Dice *dice, const char *collar, const Pattern *survey, int n,
                      Tally *tally) {
    const bool on_body = n % 2 == 0;
    Body body = on_body ? random_body(dice) : random_paper(dice);
    const Measures measures = {.items = body.items, .count = body.count};
    Picked picked = {0};
    pick(dice, survey, &picked);
    if (on_body && roll(dice, 0, 1) < 0.5)
        picked.items[picked.count++] = (Setting){"back_shoulder", "closed"};
    const char *chain[3] = {on_body ? "blocks/close-fitting" : "blocks/measured"};
    int count = 1;
    if (roll(dice, 0, 1) < 0.2)
        chain[count++] = neckline_for(collar);
    chain[count++] = collar;
    const ScriptJob job = {.shelf = shelf,
                           .chain = chain,
                           .chain_count = count,
                           .settings = picked.items,
                           .setting_count = picked.count,
                           .body = &measures};
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    if (script_run(&job, &pattern, &fault)) {
        char who[100];
        snprintf(who, sizeof who, "%s draft %d", collar, n);
        pattern_prove(&pattern, NULL, 0, NULL);
        const bool held = all_holds(&pattern, who);
        tally->held += held;
        tally->told += !held;
    } else {
        tally->refused++;
        cr_expect(fault.message && *fault.message &&
                      ((fault.hint && *fault.hint) || strstr(fault.message, "should be from")),
                  "%s draft %d: a refusal without its reason or way out: %s", collar, n,
                  fault.message ? fault.message : "");
    }
    pattern_finish(&pattern);
    fault_finish(&fault);
}

static void draft_many(const char *collar, int drafts, uint64_t seed) {
    Shelf shelf;
    shelf_init(&shelf);
    Fault fault;
    fault_init(&fault);
    const Recipe *recipe;
    const char *const names[] = {"blocks/close-fitting", "blocks/measured", neckline_for(collar), collar};
    for (int i = 0; i < 4; i++)
        cr_assert(shelf_find(&shelf, names[i], &recipe, &fault), "%s", fault.message);
    Pattern survey;
    const ScriptJob asked = {.shelf = &shelf, .chain = &collar, .chain_count = 1};
    cr_assert(script_survey(&asked, &survey, &fault), "%s", fault.message);
    Dice dice = {seed};
    Tally tally = {0};
    for (int n = 0; n < drafts; n++)
        draft_one(&shelf, &dice, collar, &survey, n, &tally);
    fprintf(stderr,
            "%s: %d drafts, %d proven whole, %d with a proof that says no, %d refused with a reason\n",
            collar, drafts, tally.held, tally.told, tally.refused);
    cr_expect(tally.held > drafts / 2, "only %d of %d drafts were proven whole", tally.held, drafts);
    cr_expect(tally.refused < drafts / 5, "%d of %d drafts were refused", tally.refused, drafts);
    pattern_finish(&survey);
    fault_finish(&fault);
    shelf_finish(&shelf);
}

Test(random, two_thousand_funnels_hold_or_say_why, .timeout = 300) {
    draft_many("bands/square-funnel", MANY, 88);
}

Test(random, two_thousand_mandarins_hold_or_say_why, .timeout = 300) {
    draft_many("bands/mandarin", MANY, 99);
}

Test(random, two_thousand_peter_pans_hold_or_say_why, .timeout = 300) {
    draft_many("flat/peter-pan", MANY, 77);
}

Test(random, the_other_bands_hold_or_say_why, .timeout = 300) {
    static const char *const bands[] = {"bands/straight", "bands/chimney", "bands/funnel",   "bands/ring",
                                        "bands/wing",     "bands/rib",     "bands/bias-roll"};
    for (int i = 0; i < (int)(sizeof bands / sizeof *bands); i++)
        draft_many(bands[i], SOME, 5);
}

Test(random, the_other_flat_collars_hold_or_say_why, .timeout = 300) {
    static const char *const flats[] = {"flat/rolled-peter-pan", "flat/eton", "flat/puritan", "flat/petal",
                                        "flat/sailor",           "flat/cape", "flat/bertha"};
    for (int i = 0; i < (int)(sizeof flats / sizeof *flats); i++)
        draft_many(flats[i], SOME, 6);
}
