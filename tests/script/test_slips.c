// What someone new to recipes gets wrong, and what she is told would work.
#include <criterion/criterion.h>
#include <string.h>

#include "bench.h"

typedef struct Said {
    const char *code, *hint; // of its fault
} Said;

static const Said sayings[] = {
    {"local d = draft \xE2\x80\x9CStand\xE2\x80\x9D", "write straight quotation marks"},
    {"local p = point(0, 0):up(3 cm)", "write 3*cm"},
    {"local p = point(0, 0):up(3, 5*cm)", ""},
    {"local l = bodice.front.shoulder:offset(3,5*cm, \"up\")", "inside a recipe write 3.5*cm"},
    {"local l = bodice.front.shoulder:offset(3*cm, up)", "in quotation marks: \"up\""},
    {"local l = bodice.front.shoulder:offset(3*cm \"up\")", "is a comma missing behind it?"},
    {"local d = draft Stand\nd.A = point(0, 0)", "look at the end of the line before too"},
    {"local half_neck = 1\nlocal x = half-neck", "a name is written with _"},
    {"local x = head_girth / 4", "ask for it first: needs { head_girth = "},
};

Test(slips, each_is_told_what_would_work) {
    for (size_t i = 0; i < sizeof sayings / sizeof *sayings; i++) {
        const char *said = fault_of(sayings[i].code);
        const char *hint = strstr(said, " | ");
        cr_assert(hint, "%s: %s", sayings[i].code, said);
        cr_expect(*sayings[i].hint ? strstr(hint, sayings[i].hint) != NULL : strlen(hint) == 3, "%s: %s",
                  sayings[i].code, said);
    }
}

Test(slips, a_block_that_does_not_run_is_pointed_at) {
    const char *text = "# R\n\n```\nwidth = 3*cm\n```\n\n```lua\nhalf = width / 2\n```\n";
    bench_fails((Bench){.text = text, .no_block = true}, 8, "nothing is called 'width'",
                "the code block at line 3 does not run: it opens without the word lua");
}

Test(slips, a_recipe_that_asks_for_no_bodice_is_told_to_ask) {
    const char *text = "# R\n\n```lua\nlocal n = bodice.front.neckline\n```\n";
    bench_fails((Bench){.text = text, .no_block = true}, 4, "nothing is called 'bodice'",
                "ask for it first: needs { bodice = ");
}
