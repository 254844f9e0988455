#include <criterion/criterion.h>

#include <string.h>

#include "said.h"

#define SQUARE "\"$TESTS/cli/recipes/square.md\""

Test(target, the_ending_chooses_the_format_and_several_go_at_once) {
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

Test(target, the_usual_file_is_named_after_the_recipe) {
    Said s = said("cp " SQUARE " my.square.md && rebato draft my.square.md && ls *.pdf");
    said_code(&s, 0);
    said_out(&s, "wrote my.square.pdf (");
    said_finish(&s);
}

Test(target, a_file_that_cannot_be_written_keeps_the_others_as_they_were) {
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

Test(target, endings_may_be_capitals) {
    Said s =
        said("rebato draft " SQUARE " -o A.PDF -o b.Pattern && head -c 4 A.PDF && rebato check b.Pattern");
    said_code(&s, 0);
    said_out(&s, "%PDF");
    said_finish(&s);
}

Test(target, one_file_under_two_names_is_refused) {
    static const char *const pairs[] = {"-o q.pdf -o q.pdf", "-o q.pdf -o ./q.pdf",
                                        "-o q.pdf -o there/../q.pdf", "-o q.pdf -o here/q.pdf",
                                        "-o q.pdf -o link.pdf"};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        Said s = said("mkdir there; ln -s . here; ln -s q.pdf link.pdf; rebato draft " SQUARE
                      " %s; echo ended $?; "
                      "ls *.pdf",
                      pairs[i]);
        said_out(&s, "ended 2\nlink.pdf\n");
        said_err(&s, i == 0 ? "-o q.pdf is given twice" : "are the same file");
        said_finish(&s);
    }
    Said s = said("mkdir there; rebato draft " SQUARE " -o q.pdf -o there/q.pdf -o Q.pdf");
    said_code(&s, 0);
    said_finish(&s);
}

Test(target, a_link_stays_and_what_it_leads_to_is_replaced) {
    Said s = said("mkdir there; echo old > there/a.svg; ln -s there/a.svg a.svg; ln -s there/b.svg b.svg; "
                  "rebato draft " SQUARE " -o a.svg -o b.svg && readlink a.svg b.svg && xmllint --noout "
                  "there/a.svg there/b.svg && ls there");
    said_code(&s, 0);
    said_out(&s, "there/a.svg\nthere/b.svg\n");
    said_out(&s, "a.svg\nb.svg\n");
    said_finish(&s);
    s = said("ln -s nowhere/a.svg a.svg; rebato draft " SQUARE " -o a.svg");
    said_code(&s, 2);
    said_err(&s, "a.svg: cannot be written: there is no folder nowhere");
    said_finish(&s);
}

Test(target, a_folder_is_no_recipe) {
    Said s = said("rebato draft bands/");
    said_code(&s, 2);
    said_err(&s, "bands/ is a folder or a family, not a recipe");
    said_finish(&s);
}

Test(target, paper_is_told_in_one_unit_or_two) {
    Said s =
        said("for p in 60x90cm 24x36in 600x900mm; do rebato draft " SQUARE " --paper $p -o a.pdf >/dev/null "
             "&& pdfinfo a.pdf | grep 'Page size'; done");
    said_code(&s, 0);
    said_out(&s, "1700.79 x 2551.18"); // 60 and 90 cm in units of 1/72 in
    said_out(&s, "1728 x 2592");
    said_finish(&s);
    s = said("rebato draft " SQUARE " --paper 600cm");
    said_code(&s, 2);
    said_err(&s, "5 m");
    said_finish(&s);
}
