#include <criterion/criterion.h>

#include <string.h>

#include "said.h"

Test(new, what_it_writes_drafts_at_once_and_every_proof_holds) {
    Said s =
        said("rebato new my-collar && rebato check my-collar.md && rebato draft my-collar.md && head -n 1 "
             "my-collar.md && ls");
    said_code(&s, 0);
    said_out(&s, "wrote my-collar.md\n");
    said_out(&s, "  rebato check my-collar.md\n  rebato draft my-collar.md\n");
    said_out(&s, "My collar: 5 pieces (Stand, Front, Back, Slit facing, Slit facing interfacing)\n");
    said_out(&s, "proofs hold\n");
    said_out(&s, "\n# My collar\nmy-collar.md\nmy-collar.pdf\n");
    said_finish(&s);
}

Test(new, it_holds_on_other_blocks_and_at_the_ends_of_its_choices) {
    Said s = said("rebato new a && for set in height=15mm height=60mm slit=30cm; do rebato check a.md "
                  "--set $set || exit 3; done; rebato check a.md --block blocks/measured --body "
                  "\"$TESTS/bodies/paper-88.txt\" && rebato check a.md --block blocks/three-measures --body "
                  "women-116");
    said_code(&s, 0);
    said_finish(&s);
}

Test(new, a_file_that_is_there_is_left_as_it_is) {
    Said s =
        said("echo mine >a.md; ln -s nowhere b.md; rebato new a; rebato new a.md --from peter-pan; rebato "
             "new b; cat a.md; ls");
    said_err(&s, "a.md: is there already, and is left as it is");
    said_err(&s, "b.md: is there already");
    said_err(&s, "give another name");
    cr_expect_str_eq(s.out.data, "mine\na.md\nb.md\n");
    said_finish(&s);
}

Test(new, the_title_comes_from_the_last_part_of_the_name) {
    Said s = said(
        "mkdir in; rebato new in/her_second--stand.md && head -n 1 in/*.md; rebato new 'a*b' && head -n 1 "
        "a*.md");
    said_code(&s, 0);
    said_out(&s, "# Her second stand\n");
    said_out(&s, "# A\\*b\n"); // no emphasis
    said_out(&s, "rebato check 'a*b.md'\n");
    said_finish(&s);
}

Test(new, a_name_that_cannot_be_says_why_and_nothing_is_written) {
    static const char *const names[][2] = {
        {"nowhere/a", "there is no folder nowhere"},
        {"in/", "no letter in its last part"},
        {"-- --", "no letter in its last part"},
        {"\"$(printf 'a\\nb')\"", "a control character"},
        {"\"$(printf 'a\\377')\"", "not UTF-8"},
        {"''", "needs a name for the recipe"},
        {"", "needs a name for the recipe"},
        {"a b", "does not know what to do with b"},
        {"a --from nothing", "there is no recipe 'nothing'"},
        {"a --from ''", "--from is empty"},
        {"a --form peter-pan", "did you mean --from?"},
    };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        Said s = said("rebato new %s; code=$?; ls; exit $code", names[i][0]);
        said_code(&s, 2);
        said_err(&s, names[i][1]);
        cr_expect_str_empty(s.out.data);
        said_finish(&s);
    }
}

// The hash is the one the report tells of the recipe.
Test(new, a_copy_says_where_it_is_from) {
    Said s = said(
        "rebato new pp --from peter-pan >/dev/null; sed -n 1,5p pp.md; echo \"Begun from flat/peter-pan, "
        "whose text had the hash $(rebato check flat/peter-pan --json | jq -r '.chapters[] | "
        "select(.recipe == \"flat/peter-pan\").hash'): say\" | grep -qFf - pp.md && rebato list pp.md");
    said_code(&s, 0);
    cr_expect(strncmp(s.out.data, "# Pp\n\nBegun from flat/peter-pan, whose text had the hash ", 56) == 0,
              "%s", s.out.data);
    said_finish(&s);
}

// It differs from the original in its title and in the line on where it is from, and drafts the same.
Test(new, a_copy_of_any_recipe_drafts_the_same) {
    Said s = said(
        "for name in $(rebato list --names recipes); do rebato new copy --from $name >/dev/null || exit 3; "
        "rebato check $name --json | jq -c '[.values, .pieces, .seams]' >one; "
        "rebato check copy.md --json | jq -c '[.values, .pieces, .seams]' >other; "
        "cmp one other || exit 4; rm copy.md; done");
    said_code(&s, 0);
    said_finish(&s);
}

Test(new, a_recipe_of_ones_own_is_copied_too) {
    Said s = said("printf 'No title here.\\n\\n```lua\\nlocal d = draft \"D\"\\nd.A = point(0, 0)\\n```\\n' "
                  ">a_b.md; rebato "
                  "new c --from a_b.md >/dev/null && cat c.md");
    said_code(&s, 0);
    said_out(&s, "# C\n\nBegun from a\\_b.md, whose text had the hash ");
    said_out(&s, ": say here what is yours in it.\n\nNo title here.\n\n```lua\n");
    said_finish(&s);
}
