#include <criterion/criterion.h>

#include <string.h>

#include "said.h"

Test(list, recipes_stand_by_family_in_a_line_each) {
    Said s = said("rebato list");
    said_code(&s, 0);
    said_out(&s, "blocks: bodices to draft on\n  blocks/close-fitting ");
    said_out(&s, "\nbands: bands and stands\n");
    said_out(&s, "  A soft funnel that slips over the head.\n"); // its first sentence alone
    said_out(&s, "bodies: sets of measurements\n  bodies/women-80, bodies/women-84, ");
    cr_expect_null(strstr(s.out.data, "finished height above"), "%s", s.out.data);
    said_finish(&s);
}

Test(list, families_stand_in_the_order_of_the_work) {
    static const char *const order[] = {
        "blocks: ", "necklines: ", "bands: ", "flat: ", "pieces: ", "bodies: "};
    Said s = said("rebato list");
    const char *at = s.out.data;
    for (size_t i = 0; at && i < sizeof order / sizeof *order; i++) {
        at = strstr(at, order[i]);
        cr_expect_not_null(at, "%s is missing or too early\n%s", order[i], s.out.data);
    }
    said_finish(&s);
}

Test(list, a_line_that_is_too_long_goes_on_below_where_it_began) {
    Said s = said("rebato list blocks");
    const char *name = strstr(s.out.data, "  blocks/close-fitting ");
    const char *said_of_it = name ? strstr(name, "A bodice block") : NULL;
    const char *next = said_of_it ? strchr(said_of_it, '\n') : NULL;
    cr_assert_not_null(next, "%s", s.out.data);
    cr_expect_eq(strspn(next + 1, " "), (size_t)(said_of_it - name), "%s", s.out.data);
    said_finish(&s);
}

Test(list, the_thickness_of_cloth_is_told_finely) {
    Said s = said("rebato list bands/chimney");
    said_code(&s, 0);
    said_out(&s, "0.7 mm (0.0 mm to 2.0 mm)");
    said_finish(&s);
    s = said("rebato list flat/petal --units in");
    said_out(&s, "0.008 in (0.004 in");
    said_finish(&s);
}

Test(list, a_family_is_listed_alone) {
    Said s = said("rebato list blocks; rebato list bodies");
    cr_expect(strncmp(s.out.data, "blocks: ", 8) == 0, "%s", s.out.data);
    cr_expect_null(strstr(s.out.data, "bands/"));
    said_out(&s, "  bodies/women-80   11 measurements\n");
    said_finish(&s);
}

Test(list, a_name_is_told_in_full) {
    Said s = said("rebato list bands/square-funnel");
    said_code(&s, 0);
    said_out(&s, "bands/square-funnel\n  Square-set bias funnel\n");
    said_out(&s, "\n  needs\n      bodice: ");
    said_out(&s,
             "\n  choices\n      height: finished height above the shoulder; 10.0 cm (4.0 cm to 25.0 cm)\n");
    said_out(&s, "(of seam, fold)");
    cr_expect_null(strstr(s.out.data, "without a block"));
    said_finish(&s);
}

// Others have the word in their summaries.
Test(list, the_last_part_of_a_name_means_that_one) {
    Said s = said("rebato list --names close-fitting; rebato list lowered");
    said_out(&s, "necklines/lowered\n  Round neckline, eased\n");
    cr_expect_null(strstr(s.out.data, "rebato list NAME"));
    said_finish(&s);
}

Test(list, a_word_of_several_gives_a_line_each) {
    Said s = said("rebato list collar");
    said_out(&s, "\n  flat/peter-pan ");
    said_out(&s, "rebato list NAME tells what one needs");
    cr_expect_null(strstr(s.out.data, "\n  choices\n"));
    said_finish(&s);
}

Test(list, a_body_is_told_with_its_measurements) {
    Said s = said("rebato list women-88");
    said_out(&s, "bodies/women-88\n  bust_girth: 88.0 cm\n");
    said_finish(&s);
}

// 10 cm is 3.937 in, 3 15/16 to the nearest sixteenth.
Test(list, lengths_are_told_in_the_readers_units) {
    Said s = said(
        "rebato list square-funnel --units in; rebato list women-88 --units in; rebato list --units ells");
    said_code(&s, 2);
    said_out(&s, "finished height above the shoulder; 3 15/16 in (");
    said_out(&s, "  bust_girth: 34 5/8 in\n");
    said_err(&s, "there are no units ells");
    said_finish(&s);
}

#define BLOCKLESS                                                                                      \
    "printf '# Strip\\n\\nA strip.\\n\\n```lua\\nneeds { bodice = { \"a bodice\", optional = true }, " \
    "front_neckline = { \"f\", optional = true } }\\n```\\n' "

Test(list, what_runs_without_a_block_says_so) {
    Said s = said(BLOCKLESS
                  ">own.md; rebato list own.md; rebato list own.md --json | jq .recipes[].without_block; "
                  "rebato list square-funnel --json | jq .recipes[].without_block");
    said_out(
        &s,
        "runs without a block too, on a measured neckline:\n      --block none --set front_neckline=... ");
    said_out(&s, "\ntrue\nfalse\n");
    said_finish(&s);
}

// A file on disk stands before the built-in of its name.
Test(list, what_runs_without_a_block_is_listed_once_more_at_the_end) {
    Said s = said("mkdir bands; " BLOCKLESS
                  ">bands/square-funnel.md; rebato list | sed -n '/^without a block/,$p'");
    said_out(&s,
             "without a block: on a measured neckline, with\n  --block none --set front_neckline=... --set "
             "back_neckline=...\n  each half the neckline");
    said_out(&s, "\n  bands/square-funnel ");
    said_out(&s, " A strip.\n");
    cr_expect_null(strstr(s.out.data, "blocks/"));
    said_finish(&s);
}

// Where one of its choices alone can do without, it says so, and which.
Test(list, all_that_is_said_to_run_without_a_block_does, .timeout = 60) {
    Said s = said(
        "for name in $(rebato list --json | jq -r '.recipes[] | select(.without_block).name'); do "
        "rebato check $name --block none --set front_neckline=10.6cm --set back_neckline=7.5cm >out 2>err || "
        "[ $? = 1 ] || grep -q -e ', or --set' err || echo \"$name fails\"; echo $name >>all; done; [ -s all "
        "]");
    said_code(&s, 0);
    cr_expect_str_empty(s.out.data);
    said_finish(&s);
}

Test(list, a_word_narrows_it) {
    Said s = said("rebato list FUNNEL --names");
    said_code(&s, 0);
    said_out(&s, "bands/square-funnel\n");
    cr_expect_null(strstr(s.out.data, "blocks/"));
    said_finish(&s);
}

Test(list, names_of_a_kind_are_names_alone) {
    Said s = said("rebato list --names blocks; rebato list --names bodies; rebato list --names recipes | "
                  "grep -c bodies/");
    said_out(&s, "blocks/close-fitting\nblocks/measured\nblocks/three-measures\nbodies/");
    said_out(&s, "\n0\n");
    said_finish(&s);
}

Test(list, json_has_one_documented_shape) {
    Said s = said(
        "rebato list --json | jq -e '"
        "(.recipes | length > 3) and (.bodies | length > 0) and "
        "all(.recipes[]; (.name, .family, .title, .summary | type == \"string\") and "
        "all(.needs[]; .name and (.about | type == \"string\") and (.measure | IN(\"length\", \"years\", "
        "\"text\"))) and "
        "all(.choices[]; has(\"default\") and has(\"least\") and has(\"most\") and (.options | "
        "type == \"array\") and .about)) and "
        "(.recipes[] | select(.name == \"bands/square-funnel\") | .choices[] | select(.name == "
        "\"height\") | "
        ".default == 100 and .least == 40 and .most == 250) and "
        "(.recipes[] | select(.name == \"bands/square-funnel\") | .choices[] | select(.name == "
        "\"centre\") | "
        ".default == \"seam\" and .options == [\"seam\", \"fold\"]) and "
        "(.bodies[] | select(.name == \"bodies/women-88\") | .measurements.bust_girth == 880)'");
    said_code(&s, 0);
    said_finish(&s);
}

Test(list, a_recipe_of_ones_own_is_listed_too) {
    Said s = said("rebato list \"$TESTS/cli/recipes/square.md\"");
    said_code(&s, 0);
    said_out(&s, "A square of cloth");
    said_out(&s, "side: its side; 10.0 cm (1.0 cm to 50.0 cm)");
    said_finish(&s);
}

Test(list, lines_are_broken_at_a_hundred_columns) {
    Said s = said("rebato list | LC_ALL=C.UTF-8 awk 'length > 100' | head -n 1");
    cr_expect_eq(s.out.length, 0, "%s", s.out.data);
    said_finish(&s);
}
