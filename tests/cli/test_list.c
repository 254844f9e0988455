#include <criterion/criterion.h>

#include <string.h>

#include "said.h"

Test(list, recipes_stand_by_family_with_needs_and_choices) {
    Said s = said("rebato list");
    said_code(&s, 0);
    said_out(&s, "blocks\n  blocks/close-fitting\n");
    said_out(&s, "bands\n");
    said_out(&s, "Square-set bias funnel");
    said_out(&s, "needs bodice, head_girth");
    said_out(&s, "height: finished height above the shoulder; 10.0 cm (4.0 cm to 25.0 cm)");
    said_out(&s, "(of seam, fold)");
    said_out(&s, "bodies\n  bodies/women-80: 11 measurements\n  bodies/women-84");
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
    Said s = said("rebato list --json | jq -e '"
                  "(.recipes | length > 3) and (.bodies | length > 0) and "
                  "all(.recipes[]; (.name, .family, .title, .summary | type == \"string\") and "
                  "all(.needs[]; .name and (.about | type == \"string\")) and "
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
