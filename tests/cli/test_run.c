#include <criterion/criterion.h>

#include <string.h>

#include "said.h"

#define SQUARE "\"$TESTS/cli/recipes/square.md\""

Test(run, a_written_pattern_is_not_drafted_again) {
    Said s = said("rebato draft " SQUARE " -o a.pattern && rebato draft a.pattern --set side=2cm");
    said_code(&s, 2);
    said_err(&s, "a.pattern is already drafted, so --set has nothing to do");
    said_finish(&s);
}

Test(run, a_broken_pattern_is_told_with_its_line) {
    Said s = said("printf 'rebato-pattern 1\\nnonsense\\n' > a.pattern; rebato draft a.pattern; echo $?; ls");
    said_out(&s, "2\na.pattern\n");
    said_err(&s, "a.pattern:");
    said_finish(&s);
}

Test(run, a_proof_is_accepted_by_its_name) {
    Said s = said("rebato draft " SQUARE " --set side=25cm --accept 'the square is no more than 20 cm wide'");
    said_code(&s, 0);
    said_out(&s, "(accepted)");
    said_finish(&s);
    s = said("rebato draft " SQUARE
             " --set side=25cm --accept 'the square is no more than 2 cm wide'; echo ended $?; ls");
    said_out(&s, "ended 2\n");
    said_err(&s, "did you mean \"the square is no more than 20 cm wide\"?");
    cr_expect_null(strstr(s.out.data, "pdf"));
    said_finish(&s);
}

Test(run, a_recipe_that_never_ends_is_stopped) {
    Said s = said("rebato draft \"$TESTS/cli/recipes/hungry.md\"; echo ended $?; ls");
    said_out(&s, "ended 2\n");
    said_err(&s, "hungry.md:");
    cr_expect_null(strstr(s.out.data, "pdf"));
    said_finish(&s);
}

Test(run, a_neckline_and_a_setting_for_it_go_under_the_collar) {
    Said s = said("rebato check bands/mandarin --on necklines/lowered");
    cr_expect(s.code == 0 || s.code == 1, "%s", s.err.data);
    said_out(&s, "blocks/close-fitting, necklines/lowered");
    said_finish(&s);
}

Test(run, a_recipe_that_can_do_without_a_block_is_drafted_without) {
    Said s = said("rebato check \"$TESTS/cli/recipes/maybe.md\"");
    said_code(&s, 0);
    said_out(&s, "on blocks/close-fitting");
    said_finish(&s);
    s = said("rebato check \"$TESTS/cli/recipes/maybe.md\" --block none");
    said_code(&s, 1);
    cr_expect_null(strstr(s.out.data, "blocks/"), "%s", s.out.data);
    said_finish(&s);
    s = said("rebato check bands/square-funnel --block none");
    said_code(&s, 2);
    said_err(&s, "--block blocks/close-fitting");
    said_finish(&s);
}

Test(run, a_recipe_that_only_speaks_of_a_bodice_is_drafted_alone) {
    Said s =
        said("printf '# Talk\\n\\nA test.\\n\\n```lua\\nlocal t = { bodice = 1 }\\nlocal d = draft \"D\"\\n"
             "d.A = point(0, 0)\\n```\\n' >talk.md; rebato check talk.md; rebato check talk.md --block "
             "blocks/measured");
    said_code(&s, 2);
    said_out(&s, "for the body women-88");
    cr_expect_null(strstr(s.out.data, "blocks/"), "%s", s.out.data);
    said_err(&s, "talk.md needs no bodice, so --block has nothing to do");
    said_finish(&s);
}

Test(run, a_recipe_that_asks_for_no_bodice_is_no_neckline) {
    Said s = said("rebato check bands/mandarin --on blocks/measured");
    said_code(&s, 2);
    said_err(&s, "--on blocks/measured is no neckline: it asks for no bodice to be cut into");
    said_err(&s, "--block blocks/measured");
    said_finish(&s);
    s = said("rebato check bands/mandarin --on \"$TESTS/cli/recipes/square.md\"");
    said_code(&s, 2);
    said_err(&s, "square.md is no neckline");
    said_err(&s, "rebato list necklines");
    said_finish(&s);
}

#define BODY "cp \"$TESTS/../stdlib/bodies/women-88.txt\" body.txt; "

Test(run, names_that_nothing_asks_for_are_noted) {
    Said s = said(BODY "echo 'hem_girth = 90 cm' >>body.txt; rebato check bands/mandarin --body body.txt");
    said_code(&s, 0);
    said_out(&s, "note: not used: hem_girth; what is drafted asks for: ");
    said_out(&s, "neck_base_girth");
    said_finish(&s);
    s = said(BODY "echo 'wrist_girth = 16 cm' >>body.txt; rebato check bands/mandarin --body body.txt");
    said_code(&s, 0);
    cr_expect_null(strstr(s.out.data, "not used"), "a known name is no slip: %s", s.out.data);
    said_finish(&s);
    s = said(
        BODY
        "echo 'my_tie = 4 cm' >>body.txt; printf '# Tie\\n\\nOwn.\\n\\n```lua\\nneeds { my_tie = \"its "
        "width\" }\\nlocal d = draft \"D\"\\nd.A = point(my_tie, 0)\\n```\\n' >tie.md; rebato check tie.md "
        "--body body.txt");
    said_code(&s, 0);
    cr_expect_null(strstr(s.out.data, "not used"), "a name a recipe asks for: %s", s.out.data);
    said_finish(&s);
}
