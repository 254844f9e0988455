// Every collar of the shelf on every neckline of the shelf, on drafted blocks of sizes 6 to 24 and on random
// measured ones, in centimetres and inches: every proof holds, or what refuses says why and what would work.
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"
#include "pattern/prove.h"
#include "recipe/shelf.h"
#include "wearers.h"

#define PAPERS 10 // random measured blocks for each pair

// The sanitized build is slow: it takes every few of the blocks, another part of them for each pair.
#ifdef __SANITIZE_ADDRESS__
#define EVERY 9
#else
#define EVERY 1
#endif

#define NAMES_MOST 100

typedef struct Names {
    const char *items[NAMES_MOST];
    int count;
} Names;

static Names family(const char *name) {
    int count;
    const BuiltIn *all = shelf_built_in(&count);
    Names names = {0};
    for (int i = 0; i < count; i++)
        if (strcmp(all[i].family, name) == 0 && names.count < NAMES_MOST)
            names.items[names.count++] = all[i].name;
    return names;
}

typedef struct Tally {
    int drafts, held, told, refused;
} Tally;

typedef struct Pair {
    const char *collar;
    const char *neckline; // NULL for the collar on the block itself
} Pair;

// inches: the same geometry, other words.
// True where the pair is refused because no collar sits on that neckline, in any size.
static bool draft_pair(Shelf *shelf, Pair pair, const char *block, const Body *body, bool inches,
                       const char *where, Tally *tally) {
    const Measures measures = {.items = (BodyMeasure *)body->items, .count = body->count};
    const char *chain[3] = {block};
    int count = 1;
    if (pair.neckline)
        chain[count++] = pair.neckline;
    chain[count++] = pair.collar;
    const ScriptJob job = {.shelf = shelf,
                           .chain = chain,
                           .chain_count = count,
                           .units = inches ? UNITS_INCH : UNITS_CM,
                           .body = &measures};
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    bool never = false;
    tally->drafts++;
    if (script_run(&job, &pattern, &fault)) {
        char who[200];
        snprintf(who, sizeof who, "%s on %s, %s", pair.collar, pair.neckline ? pair.neckline : "the block",
                 where);
        pattern_prove(&pattern, NULL, 0, NULL);
        const bool held = all_holds(&pattern, who);
        tally->held += held;
        tally->told += !held;
    } else {
        tally->refused++;
        never = fault.message && strstr(fault.message, "no collar sits on this neckline");
        cr_expect(fault.message && *fault.message && fault.hint && *fault.hint,
                  "%s on %s, %s: a refusal without its reason or way out: %s", pair.collar,
                  pair.neckline ? pair.neckline : "the block", where, fault.message ? fault.message : "");
    }
    pattern_finish(&pattern);
    fault_finish(&fault);
    return never;
}

static Tally draft_all(Shelf *shelf, Pair pair, Dice *dice, int *turn) {
    Tally tally = {0};
    for (int n = 0; n < CHART_SIZES + PAPERS; n++) {
        const bool on_body = n < CHART_SIZES;
        const Body body = on_body ? chart_body(n) : random_paper(dice);
        char where[60];
        snprintf(where, sizeof where, "%s %d", on_body ? "chart size" : "measured block",
                 on_body ? 6 + 2 * n : n - CHART_SIZES);
        bool never = false;
        for (int inches = 0; inches < 2; inches++)
            if ((*turn)++ % EVERY == 0)
                never = draft_pair(shelf, pair, on_body ? "blocks/close-fitting" : "blocks/measured", &body,
                                   inches, where, &tally);
        if (never)
            n = on_body ? CHART_SIZES - 1 : CHART_SIZES + PAPERS; // once for each kind of block
    }
    return tally;
}

static void draft_family(const char *name) {
    Shelf shelf;
    shelf_init(&shelf);
    Fault fault;
    fault_init(&fault);
    const Recipe *recipe;
    const Names collars = family(name), necklines = family("necklines");
    cr_assert(collars.count >= 8 && necklines.count >= 12);
    static const char *const blocks[] = {"blocks/close-fitting", "blocks/measured"};
    for (int i = 0; i < 2; i++)
        cr_assert(shelf_find(&shelf, blocks[i], &recipe, &fault), "%s", fault.message);
    for (int i = 0; i < collars.count; i++)
        cr_assert(shelf_find(&shelf, collars.items[i], &recipe, &fault), "%s", fault.message);
    for (int i = 0; i < necklines.count; i++)
        cr_assert(shelf_find(&shelf, necklines.items[i], &recipe, &fault), "%s", fault.message);
    Tally all = {0};
    Dice dice = {2024};
    int turn = 0;
    for (int c = 0; c < collars.count; c++) {
        Tally collar = {0};
        int accepting = 0;
        for (int n = -1; n < necklines.count; n++) {
            const Pair pair = {collars.items[c], n < 0 ? NULL : necklines.items[n]};
            const Tally one = draft_all(&shelf, pair, &dice, &turn);
            cr_expect(n >= 0 || one.refused == 0, "%s: %d of %d refused on the block itself", pair.collar,
                      one.refused, one.drafts);
            accepting += one.held > 0;
            collar.drafts += one.drafts, collar.held += one.held;
            collar.told += one.told, collar.refused += one.refused;
        }
        // A V is the sailor's own; all others take the block, the eased, the jewel and the scoop neckline.
        const bool own = strcmp(collars.items[c], "flat/sailor") == 0;
        cr_expect(EVERY > 1 || accepting >= (own ? 2 : 4), "%s is proven on %d necklines only",
                  collars.items[c], accepting);
        // A rib does not pass the head on a close neckline, nor a funnel on a short shoulder: they say so.
        const bool tells = strcmp(collars.items[c], "bands/rib") == 0 ||
                           strcmp(collars.items[c], "bands/square-funnel") == 0;
        cr_expect(tells || collar.told * 20 <= collar.drafts, "%s: %d of %d drafts with a proof that says no",
                  collars.items[c], collar.told, collar.drafts);
        fprintf(stderr,
                "%s on %d necklines: %d drafts, %d proven whole, %d with a proof that says no, %d refused\n",
                collars.items[c], necklines.count, collar.drafts, collar.held, collar.told, collar.refused);
        all.drafts += collar.drafts, all.held += collar.held;
        all.told += collar.told, all.refused += collar.refused;
    }
    fprintf(stderr, "matrix of %s: %d drafts, %d proven whole, %d with a proof that says no, %d refused\n",
            name, all.drafts, all.held, all.told, all.refused);
    fault_finish(&fault);
    shelf_finish(&shelf);
}

Test(matrix, every_band_on_every_neckline, .timeout = 600) {
    draft_family("bands");
}

Test(matrix, every_flat_collar_on_every_neckline, .timeout = 600) {
    draft_family("flat");
}
