#include <criterion/criterion.h>

#include <string.h>

#include "said.h"

#define SQUARE "\"$TESTS/cli/recipes/square.md\""

static int lines_of(const Buffer *text) {
    int lines = 0;
    for (const char *c = text->data; *c; c++)
        lines += *c == '\n';
    return lines;
}

Test(draft, a_collar_is_drafted_proven_and_told_in_five_lines) {
    Said s = said("rebato draft collars/square-funnel && ls");
    said_code(&s, 0);
    said_out(&s, "Square-set bias funnel");
    said_out(&s, "blocks/close-fitting");
    said_out(&s, "the body women-88");
    said_out(&s, "none was given");
    said_out(&s, "proofs hold");
    said_out(&s, "wrote square-funnel.pdf");
    said_out(&s, "\nsquare-funnel.pdf\n");
    cr_expect(lines_of(&s.out) <= 6, "%s", s.out.data); // five, and that of ls
    cr_expect_eq(s.err.length, 0, "%s", s.err.data);
    said_finish(&s);
}

Test(draft, the_pdf_is_one_to_other_readers) {
    Said s =
        said("rebato draft collars/square-funnel -o a.pdf >/dev/null && qpdf --check a.pdf && pdfinfo a.pdf");
    said_code(&s, 0);
    said_out(&s, "No syntax or stream encoding errors found");
    said_out(&s, "Pages:");
    said_finish(&s);
}

Test(draft, the_ending_chooses_the_format_and_several_go_at_once) {
    Said s = said("rebato draft " SQUARE " -o a.pdf -o a.svg -o a.png -o a.pattern -o a.json && "
                  "head -c 4 a.pdf && head -c 4 a.png | tail -c 3 && xmllint --noout a.svg && "
                  "jq -e 'type == \"object\"' a.json && rebato check a.pattern && ls");
    said_code(&s, 0);
    said_out(&s, "%PDFPNG");
    said_out(&s, "wrote a.pdf (");
    said_out(&s, ", a.svg, a.png, a.pattern, a.json\n");
    said_out(&s, "a.json\na.pattern\na.pdf\na.png\na.svg\n");
    said_finish(&s);
}

Test(draft, the_usual_file_is_named_after_the_recipe) {
    Said s = said("cp " SQUARE " my.square.md && rebato draft my.square.md && ls *.pdf");
    said_code(&s, 0);
    said_out(&s, "wrote my.square.pdf (");
    said_finish(&s);
}

Test(draft, a_written_pattern_gives_the_same_drawing) {
    Said s = said("rebato draft collars/square-funnel -o a.pattern -o a.pdf && rebato draft a.pattern -o "
                  "b.pdf -o b.pattern && "
                  "cmp a.pdf b.pdf && cmp a.pattern b.pattern && echo same");
    said_code(&s, 0);
    said_out(&s, "same");
    said_finish(&s);
}

Test(draft, a_written_pattern_is_not_drafted_again) {
    Said s = said("rebato draft " SQUARE " -o a.pattern && rebato draft a.pattern --set side=2cm");
    said_code(&s, 2);
    said_err(&s, "a.pattern is already drafted, so --set has nothing to do");
    said_finish(&s);
}

Test(draft, a_broken_pattern_is_told_with_its_line) {
    Said s = said("printf 'rebato-pattern 1\\nnonsense\\n' > a.pattern; rebato draft a.pattern; echo $?; ls");
    said_out(&s, "2\na.pattern\n");
    said_err(&s, "a.pattern:");
    said_finish(&s);
}

Test(draft, a_proof_that_fails_ends_with_one_and_the_drawing_is_there) {
    Said s = said("rebato draft " SQUARE " --set side=25cm; echo ended $?; ls");
    said_out(&s, "ended 1");
    said_out(&s, "the square is no more than 20 cm wide");
    said_out(&s, "25.0 cm");
    said_out(&s, "make side 20 cm or less");
    said_out(&s, "--accept \"the square is no more than 20 cm wide\"");
    said_out(&s, "square.pdf\n");
    said_finish(&s);
}

Test(draft, a_proof_is_accepted_by_its_name) {
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

Test(draft, a_fault_writes_nothing_and_leaves_the_old_file) {
    Said s =
        said("echo old > a.pdf; rebato draft \"$TESTS/cli/recipes/wrong.md\" -o a.pdf -o b.svg; echo ended "
             "$?; cat a.pdf; ls");
    said_out(&s, "ended 2\nold\na.pdf\n");
    cr_expect_null(strstr(s.out.data, "b.svg"));
    said_err(&s, "wrong.md:12: ");
    said_err(&s, "> 12 | half = 2 * quater");
    said_err(&s, "quarter");
    said_err(&s, "in the step \"Go wrong\"");
    said_finish(&s);
}

Test(draft, a_file_that_cannot_be_written_keeps_the_others_as_they_were) {
    Said s = said("echo old > a.pdf; mkdir b.svg; rebato draft " SQUARE
                  " -o a.pdf -o b.svg; echo ended $?; cat a.pdf");
    said_out(&s, "ended 2\nold\n");
    said_err(&s, "b.svg: is a folder");
    said_finish(&s);
    s = said("echo old > a.pdf; rebato draft " SQUARE " -o a.pdf -o nowhere/b.svg; echo ended $?; cat a.pdf");
    said_out(&s, "ended 2\nold\n");
    said_err(&s, "there is no folder nowhere");
    said_finish(&s);
}

Test(draft, a_recipe_that_never_ends_is_stopped) {
    Said s = said("rebato draft \"$TESTS/cli/recipes/hungry.md\"; echo ended $?; ls");
    said_out(&s, "ended 2\n");
    said_err(&s, "hungry.md:");
    cr_expect_null(strstr(s.out.data, "pdf"));
    said_finish(&s);
}

Test(draft, the_same_run_gives_the_same_bytes) {
    Said s = said("for i in 1 2; do rebato draft collars/square-funnel -o $i.pdf -o $i.svg -o $i.png -o "
                  "$i.json >/dev/null; done; "
                  "cmp 1.pdf 2.pdf && cmp 1.svg 2.svg && cmp 1.png 2.png && cmp 1.json 2.json && echo same");
    said_code(&s, 0);
    said_out(&s, "same");
    said_finish(&s);
}

Test(draft, json_is_the_report_alone_and_is_read_by_jq) {
    Said s = said("rebato draft collars/square-funnel --json | jq -e '.pieces | length >= 2'");
    said_code(&s, 0);
    said_finish(&s);
    s = said("rebato check collars/square-funnel --json > c.json; rebato draft collars/square-funnel "
             "--json | cmp - c.json && echo same");
    said_out(&s, "same");
    said_finish(&s);
    s = said("rebato draft \"$TESTS/cli/recipes/wrong.md\" --json | jq -r '.fault | .line, .step'; ls");
    cr_expect_str_eq(s.out.data, "12\nGo wrong\n", "%s", s.out.data);
    said_finish(&s);
}

Test(draft, mistyped_names_are_told_the_nearest) {
    static const struct {
        const char *line, *hint;
    } slips[] = {
        {"draft collars/square-funel", "collars/square-funnel"},
        {"draft collars/square-funnel --block blocks/close-fiting", "blocks/close-fitting"},
        {"draft collars/square-funnel --on necklines/lowred", "necklines/lowered"},
        {"draft collars/square-funnel --body women-8", "women-88"},
        {"draft collars/square-funnel --paper a44", "a4"},
        {"draft collars/square-funnel --units inch", "did you mean in?"},
        {"draft collars/square-funnel --show peices", "did you mean pieces?"},
        {"draft collars/square-funnel --set heigth=9cm", "height"},
        {"draft collars/square-funnel -o a.pfd", "did you mean a.pdf?"},
        {"drfat collars/square-funnel", "rebato draft"},
        {"help drat", "rebato help draft"},
        {"words curv", "curve"},
        {"list mandarn", "mandarin"},
    };
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        Said s = said("rebato %s", slips[i].line);
        said_code(&s, 2);
        said_err(&s, slips[i].hint);
        said_finish(&s);
    }
}

Test(draft, what_makes_no_sense_is_refused) {
    static const struct {
        const char *line, *message;
    } slips[] = {
        {SQUARE " --block blocks/close-fitting", "needs no bodice, so --block has nothing to do"},
        {SQUARE " --set side", "does not say which name gets which value"},
        {SQUARE " --set side=1cm --set side=2cm", "gives side twice"},
        {SQUARE " --set side=90cm", "50.0 cm"},
        {SQUARE " --set side=4", "unit"},
        {SQUARE " --scale 4", "the scale 4 is not understood"},
        {SQUARE " --scale 1:0", "the scale 1:0 is not understood"},
        {SQUARE " -o a.pdf -o a.pdf", "-o a.pdf is given twice"},
        {SQUARE " -o -", "does not say what to draw"},
    };
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        Said s = said("rebato draft %s", slips[i].line);
        said_code(&s, 2);
        said_err(&s, slips[i].message);
        said_finish(&s);
    }
}

Test(draft, inches_are_shown_where_they_are_wanted) {
    Said s = said("rebato check " SQUARE " --units in --set side='5 1/2 in'");
    said_code(&s, 0);
    said_out(&s, "5 1/2 in");
    said_finish(&s);
}

Test(draft, a_neckline_and_a_setting_for_it_go_under_the_collar) {
    Said s = said("rebato check collars/mandarin --on necklines/lowered");
    cr_expect(s.code == 0 || s.code == 1, "%s", s.err.data);
    said_out(&s, "blocks/close-fitting, necklines/lowered");
    said_finish(&s);
}

// NO_COLOR: https://no-color.org, from memory. script(1) of util-linux gives the program a terminal.
Test(draft, colour_is_for_terminals_alone) {
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

Test(draft, output_that_cannot_be_said_is_a_fault) {
    Said s = said("rebato help > /dev/full");
    said_code(&s, 2);
    said_err(&s, "standard output cannot be written");
    said_finish(&s);
}

Test(draft, a_recipe_tells_the_terminal_nothing) {
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

Test(draft, a_recipe_that_can_do_without_a_block_is_drafted_without) {
    Said s = said("rebato check \"$TESTS/cli/recipes/maybe.md\"");
    said_code(&s, 0);
    said_out(&s, "on blocks/close-fitting");
    said_finish(&s);
    s = said("rebato check \"$TESTS/cli/recipes/maybe.md\" --block none");
    said_code(&s, 1);
    cr_expect_null(strstr(s.out.data, "blocks/"), "%s", s.out.data);
    said_finish(&s);
    s = said("rebato check collars/square-funnel --block none");
    said_code(&s, 2);
    said_err(&s, "--block blocks/close-fitting");
    said_finish(&s);
}

Test(draft, a_recipe_that_only_speaks_of_a_bodice_is_drafted_alone) {
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
