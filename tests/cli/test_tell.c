#include <criterion/criterion.h>

#include <string.h>

#include "said.h"

// NO_COLOR: https://no-color.org, from memory. script(1) of util-linux gives the program a terminal.
Test(tell, colour_is_for_terminals_alone) {
    Said s = said("rebato draft nowhere");
    cr_expect_null(strchr(s.err.data, '\033'));
    said_finish(&s);
    s = said("unset NO_COLOR; script -qec \"rebato draft nowhere\" /dev/null");
    said_out(&s, "\033[");
    said_finish(&s);
    s = said("export NO_COLOR=1; script -qec \"rebato draft nowhere\" /dev/null");
    cr_expect_null(strchr(s.out.data, '\033'));
    said_finish(&s);
}

Test(tell, output_that_cannot_be_said_is_a_fault) {
    Said s = said("rebato help > /dev/full");
    said_code(&s, 2);
    said_err(&s, "standard output cannot be written");
    said_finish(&s);
}

Test(tell, a_recipe_tells_the_terminal_nothing) {
    Said s = said("rebato check \"$TESTS/cli/recipes/loud.md\"");
    said_out(&s, "A loud 2J recipe: ");
    said_finish(&s);
    s = said("rebato check \"$TESTS/cli/recipes/loud-fault.md\"");
    said_code(&s, 2);
    said_err(&s, "warn: the text holds a control sign");
    said_err(&s, "> 6 | warn \"a 2Jb\"");
    said_err(&s, "in the step \"A loud 2J fault\"");
    said_finish(&s);
}

Test(tell, doubts_about_the_body_are_told_with_a_fault) {
    Said s =
        said("printf 'head_girth = 5.6 cm\\nheadgirht = 56 cm\\n' >body.txt; rebato check bands/mandarin "
             "--body body.txt --json | jq -r '.fault.notes[]'");
    said_out(&s, "head_girth is 5.6 cm, but bodies lie between");
    said_out(&s, "not used: headgirht; ");
    said_err(&s, "note: head_girth is 5.6 cm, but bodies lie between");
    said_err(&s, "needs ");
    said_finish(&s);
}

Test(tell, a_report_has_the_notes_in_json_too) {
    Said s =
        said("cp \"$TESTS/../stdlib/bodies/women-88.txt\" body.txt; sed -i 's/^head_girth = .*/head_girth = "
             "90 cm/' body.txt; rebato draft bands/mandarin --body body.txt -o a.json | grep '^note: "
             "head_girth is 90.0 cm'; jq -r '.notes[]' a.json");
    said_code(&s, 0);
    said_out(&s, "\nhead_girth is 90.0 cm, but bodies lie between");
    said_finish(&s);
}
