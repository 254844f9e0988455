#include <criterion/criterion.h>
#include <string.h>

#include "said.h"

#define SQUARE "\"$TESTS/cli/recipes/square.md\""

Test(weave, a_lesson_is_written_as_one_html_file) {
    Said s = said(
        "rebato weave bands/square-funnel --set height=12cm -o funnel.html && grep -c '<svg' funnel.html "
        "&& grep -o '<title>[^<]*' funnel.html | head -1 && ls");
    said_code(&s, 0);
    said_out(&s, "wrote funnel.html");
    said_out(&s, "<title>Square-set bias funnel");
    said_out(&s, "\nfunnel.html\n");
    cr_expect_eq(s.err.length, 0, "%s", s.err.data);
    said_finish(&s);
}

Test(weave, the_same_lesson_is_the_same_bytes) {
    Said s = said("rebato weave bands/mandarin -o a.html >/dev/null && rebato weave bands/mandarin -o b.html "
                  ">/dev/null && cmp a.html b.html && echo same");
    said_out(&s, "same");
    said_finish(&s);
}

// What the last page says: the measurements saved as a file, and the line run.
Test(weave, the_lesson_is_enough_to_draft_the_same_again) {
    Said s = said(
        "rebato draft necklines/v --body women-104 --set depth=18cm -o before.pattern >/dev/null && "
        "rebato weave necklines/v --body women-104 --set depth=18cm -o v.html >/dev/null && "
        "awk '/<pre><code>rebato draft/ { sub(/.*<code>/, \"\"); print > \"line\" } "
        "/<pre><code>bust_girth/ { sub(/.*<code>/, \"\"); on = 1 } /<\\/code>/ { on = 0 } "
        "on { print > \"women-104.txt\" }' v.html && sh -c \"$(cat line) -o again.pattern\" >/dev/null && "
        "cmp before.pattern again.pattern && cat line && echo the same");
    said_out(&s,
             "rebato draft necklines/v --block blocks/close-fitting --body women-104.txt --set depth=180mm\n"
             "the same");
    cr_expect_eq(s.err.length, 0, "%s", s.err.data);
    said_finish(&s);
}

Test(weave, a_failed_proof_ends_with_one_and_the_lesson_says_so) {
    Said s = said("rebato weave " SQUARE
                  " --set side=25cm -o a.html; echo ended $?; grep -c 'notice failed' a.html");
    said_out(&s, "ended 1");
    said_out(&s, "\n3\n"); // on the front, in its step, before the proofs
    said_finish(&s);
}

Test(weave, the_help_tells_the_files_it_writes) {
    Said s = said("rebato help weave | grep -A1 -e --out && rebato help weave | grep -c -e svg -e 'whole'");
    said_out(&s, "where to write: .pdf or .html; the recipe's name and .pdf when not given\n0\n");
    said_finish(&s);
}

Test(weave, an_accepted_proof_is_no_failure) {
    Said s = said("rebato weave " SQUARE
                  " --set side=25cm --accept 'the square is no more than 20 cm wide' -o a.html; "
                  "echo ended $?; grep -c 'notice failed' a.html; grep -c 'taken as it is' a.html");
    said_out(&s, "ended 0\n0\n");
    said_finish(&s);
}

Test(weave, units_language_and_code_are_chosen) {
    Said s = said("rebato weave bands/mandarin --units in --language fr --with-code -o a.html && cat a.html");
    said_code(&s, 0);
    said_out(&s, "<html lang=\"fr\">");
    said_out(&s, "tour de poitrine");
    said_out(&s, "34 5/8\u2033");
    said_out(&s, "<pre><code>needs {");
    said_finish(&s);
}

Test(weave, pictures_beside_the_recipe_are_taken_in_and_others_told) {
    Said s = said("mkdir pictures && cp \"$TESTS/booklet/recipes/pictures/stand.png\" pictures && "
                  "printf '# Mine\\n\\nIt is.\\n\\n![stand](pictures/stand.png) "
                  "![none](none.png)\\n\\n```lua\\na = 1*cm\\n```\\n' "
                  "> mine.md && rebato weave mine.md -o mine.html && grep -c 'data:image/png' mine.html");
    said_code(&s, 0);
    said_out(&s, "note: the picture none.png of mine.md, line 5, is not shown: there is no such file");
    said_out(&s, "\n1\n");
    said_finish(&s);
}

static void refused(const char *line, const char *says, const char *hint) {
    Said s = said("%s; echo ended $?; ls", line);
    said_out(&s, "ended 2\n");
    said_err(&s, says);
    said_err(&s, hint);
    said_finish(&s);
}

Test(weave, what_it_cannot_write_is_told) {
    refused("rebato weave bands/mandarin -o a.svg", "rebato weave writes no .svg", "rebato draft does");
    refused("rebato draft bands/mandarin -o a.html", "rebato draft writes no .html", "rebato weave does");
    refused("rebato weave bands/mandarin -o a.htm", "does not say what to draw", "did you mean a.html?");
    refused("rebato weave bands/mandarin -o a", "does not say what to draw", ".pdf or .html");
    refused("rebato weave bands/mandarin --paper whole", "cannot be printed on --paper whole", "a4, letter");
    refused("rebato weave bands/mandarin --paper 200x200cm", "cannot be printed on --paper 200x200cm",
            "a4, letter");
    refused("rebato weave bands/mandarin --language nl -o a.html", "no words in the language nl",
            "en, de, es, fr");
    refused("rebato weave bands/mandarin --scale 1:2", "has no option --scale", "rebato help weave");
    refused("rebato draft bands/mandarin -o a.pattern >/dev/null && rebato weave a.pattern",
            "a pattern has no prose", "weave its recipe");
}
