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
    Said s = said("rebato draft bands/square-funnel && ls");
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
        said("rebato draft bands/square-funnel -o a.pdf >/dev/null && qpdf --check a.pdf && pdfinfo a.pdf");
    said_code(&s, 0);
    said_out(&s, "No syntax or stream encoding errors found");
    said_out(&s, "Pages:");
    said_finish(&s);
}

Test(draft, a_written_pattern_gives_the_same_drawing) {
    Said s = said("rebato draft bands/square-funnel -o a.pattern -o a.pdf && rebato draft a.pattern -o "
                  "b.pdf -o b.pattern && "
                  "cmp a.pdf b.pdf && cmp a.pattern b.pattern && echo same");
    said_code(&s, 0);
    said_out(&s, "same");
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

Test(draft, the_same_run_gives_the_same_bytes) {
    Said s = said("for i in 1 2; do rebato draft bands/square-funnel -o $i.pdf -o $i.svg -o $i.png -o "
                  "$i.json >/dev/null; done; "
                  "cmp 1.pdf 2.pdf && cmp 1.svg 2.svg && cmp 1.png 2.png && cmp 1.json 2.json && echo same");
    said_code(&s, 0);
    said_out(&s, "same");
    said_finish(&s);
}

Test(draft, mistyped_names_are_told_the_nearest) {
    static const struct {
        const char *line, *hint;
    } slips[] = {
        {"draft bands/square-funel", "bands/square-funnel"},
        {"draft bands/square-funnel --block blocks/close-fiting", "blocks/close-fitting"},
        {"draft bands/square-funnel --on necklines/lowred", "necklines/lowered"},
        {"draft bands/square-funnel --body women-8", "women-88"},
        {"draft bands/square-funnel --paper a44", "a4"},
        {"draft bands/square-funnel --units inch", "did you mean in?"},
        {"draft bands/square-funnel --show peices", "did you mean pieces?"},
        {"draft bands/square-funnel --set heigth=9cm", "height"},
        {"draft bands/square-funnel -o a.pfd", "did you mean a.pdf?"},
        {"drfat bands/square-funnel", "rebato draft"},
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
