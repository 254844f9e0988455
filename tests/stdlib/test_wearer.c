// The cautions for the wearer. Limits: EN 14682:2014 (young children are those under 7 years or up to 134 cm;
// it covers clothing to 14 years, to 176 and 182 cm) and ASTM F1816-18, as public summaries of both give
// them.
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "drafted.h"

#define WEARER "pieces/wearer"
#define RULES "Rules differ by country and change: check those in force where it is sold or worn"

// The standard's name and the words on local rules stand in the refusal, and a way out in its hint.
static void forbids(const char *settings, const char *standard) {
    Pattern p;
    Fault fault;
    cr_assert_not(drafted(WEARER, settings, NULL, &p, &fault), "not refused: %s", settings);
    cr_expect(strstr(fault.message, standard) && strstr(fault.message, RULES), "%s: %s", settings,
              fault.message);
    cr_expect(fault.hint && *fault.hint, "%s: no way out", settings);
    fault_finish(&fault);
    pattern_finish(&p);
}

// Every remark is a caution that defers to local rules; one of them says the words, or none does for NULL.
static void cautions(const char *settings, const char *says) {
    Pattern p;
    draft_of(WEARER, settings, NULL, &p);
    bool told = false;
    for (int i = 0; i < p.remarks.count; i++) {
        const Remark *remark = &p.remarks.items[i];
        cr_expect_eq(remark->kind, REMARK_CAUTION);
        cr_expect(strstr(remark->text, RULES), "%s: %s", settings, remark->text);
        told |= says && strstr(remark->text, says);
    }
    cr_expect(says ? told : p.remarks.count == 0, "%s: %s", settings, says ? says : p.remarks.items[0].text);
    pattern_finish(&p);
}

static void is_a(const char *settings, const char *wearer, double room) {
    Pattern p;
    draft_of(WEARER, settings, NULL, &p);
    const char *found = NULL;
    for (int i = 0; i < p.notes.count; i++)
        if (strcmp(p.notes.items[i].name, "wearer") == 0)
            found = p.notes.items[i].text;
    cr_expect_str_eq(found, wearer, "%s", settings ? settings : "nothing known");
    close_to(note_of(&p, "room_over_head"), room, 1e-9, settings ? settings : "nothing known");
    pattern_finish(&p);
}

Test(wearer, age_or_height_says_who_it_is_and_how_much_room_the_head_needs) {
    is_a(NULL, "not known", 20);
    is_a("age=0months", "infant", 40);
    is_a("age=35months", "infant", 40);
    is_a("age=3years", "young", 20);
    is_a("age=83months", "young", 20); // 6 years and 11 months
    is_a("age=7years", "older", 20);
    is_a("age=13years", "older", 20);
    is_a("age=14years", "grown", 20);
    is_a("height=98cm", "infant", 40);
    is_a("height=134cm", "young", 20);
    is_a("height=135cm", "not known", 20); // a small woman is as tall
    is_a("height=183cm", "grown", 20);
    is_a("age=8years height=134cm", "young", 20);
    is_a("age=8years height=135cm", "older", 20);
    is_a("age=30years height=130cm", "grown", 20);
    is_a("age=5years height=97cm", "young", 20); // small for her age, and no infant
}

Test(wearer, a_young_child_has_no_tie_and_no_loop_at_the_neck) {
    forbids("feature=tie age=6years", "EN 14682:2014");
    forbids("feature=loop age=83months", "ASTM F1816-18");
    forbids("feature=tie age=9months", "EN 14682:2014");
    forbids("feature=tie height=134cm", "EN 14682:2014");
    forbids("feature=loop age=8years height=130cm", "EN 14682:2014");
    cautions("feature=tie age=7years height=135cm", "EN 14682:2014 allows no free ends");
    cautions("feature=loop age=13years", "EN 14682:2014 allows no free ends");
    cautions("feature=tie age=14years", NULL);
    cautions("feature=tie age=40years height=130cm", NULL);
}

Test(wearer, a_tie_is_cautioned_where_nothing_is_known_of_the_wearer) {
    cautions("feature=tie", "a tie at the neck is not for a child");
    cautions("feature=loop height=160cm", "a loop at the neck is not for a child");
    cautions("feature=tie height=183cm", NULL);
}

Test(wearer, a_collar_that_covers_the_face_is_not_for_infants) {
    forbids("feature=tall age=11months", "CEN/TR 16792");
    forbids("feature=tall height=80cm", "CEN/TR 16792");
    cautions("feature=tall age=1year", "below the chin");
    cautions("feature=tall age=35months", "below the chin");
    cautions("feature=tall age=30years", NULL);
    cautions("feature=tall", NULL);
}

Test(wearer, infants_keep_small_parts_away_and_the_opening_wide) {
    cautions("age=2years", "16 CFR 1501");
    cautions("feature=opening age=2years", "4 to 6 cm");
    cautions("feature=opening age=30years", NULL);
}

Test(wearer, frills_and_nightwear_are_cautioned_as_not_assessed) {
    cautions("feature=frill age=10years", "16 CFR 1615 and 1616, EN 14878. Not assessed for flammability");
    cautions("feature=frill", "Not assessed for flammability");
    cautions("age=10years", "not assessed for flammability");
    cautions("feature=frill age=14years", NULL);
}

// Of the ANSUR II women (2012) one in a hundred has a head of 521 mm or less.
Test(wearer, a_small_head_may_be_a_childs_where_the_age_is_not_known) {
    cautions("head_girth=51.9cm", "a head of 51.9 cm may be a child's");
    cautions("head_girth=52cm", NULL);
    cautions("head_girth=50cm age=20years", NULL);
}

// A collar calls it for its tie, and the bodice under the collar for the general words.
Test(wearer, asked_twice_it_says_each_caution_once) {
    char name[64];
    snprintf(name, sizeof name, "/tmp/rebato-wearer-%ld.md", (long)getpid());
    FILE *file = fopen(name, "w");
    cr_assert(file);
    fputs("# Twice\n\nTwice.\n\n```lua\nroom = use(\"pieces/wearer\", { feature = \"tie\" "
          "}).ease\nuse(\"pieces/wearer\")\n"
          "use(\"pieces/wearer\", { feature = \"tie\" })\n```\n",
          file);
    fclose(file);
    Pattern p;
    draft_of(name, "age=10years", NULL, &p);
    unlink(name);
    cr_expect_eq(p.remarks.count, 2); // no free ends; not assessed for flammability
    close_to(note_of(&p, "room"), 20, 1e-9, "room");
    pattern_finish(&p);
}

// An infant's neck is short: common practice, no source.
Test(wearer, no_stand_reaches_an_infants_face) {
    static const char *const chains[] = {
        "blocks/close-fitting bands/mandarin", "blocks/close-fitting bands/straight",
        "blocks/close-fitting bands/wing",     "blocks/close-fitting bands/chimney",
        "blocks/close-fitting bands/funnel",   "blocks/close-fitting bands/bias-roll",
        "blocks/close-fitting bands/ring",     "blocks/close-fitting bands/square-funnel"};
    for (size_t i = 0; i < sizeof chains / sizeof *chains; i++)
        refuses(chains[i], "age=6months", EXAMPLE_88, "can cover the face", "lies flat");
}

// The square funnel, too, leaves an infant's head 4 cm.
Test(wearer, a_funnel_for_a_small_child_leaves_room_over_the_head) {
    Pattern p;
    draft_of("blocks/close-fitting bands/square-funnel", "age=2years match=quarter", EXAMPLE_88, &p);
    cr_expect_not(proof_of(&p, "opening over the head")->holds);
    pattern_finish(&p);
    draft_of("blocks/close-fitting bands/square-funnel", "age=2years match=quarter ease=40mm", EXAMPLE_88,
             &p);
    cr_expect(proof_of(&p, "opening over the head")->holds);
    pattern_finish(&p);
}

Test(wearer, a_measured_neckline_is_one_of_a_neck) {
    refuses("bands/straight", "front_neckline=200cm back_neckline=200cm", NULL, "fits no neck", "40 cm");
    refuses("bands/straight", "front_neckline=1mm back_neckline=1mm", NULL, "fits no neck", "2.5 cm");
    refuses("bands/straight", "front_neckline=11cm", NULL, "back_neckline is missing", "back_neckline");
}
