#include <criterion/criterion.h>

#include "example.h"

Test(sheet, the_named_papers_have_their_standard_sizes) {
    // ISO 216 (A4, A3); North American letter, 8 1/2 x 11 in.
    static const struct {
        const char *name;
        double width, height;
    } papers[] = {{"a4", 210, 297}, {"A3", 297, 420}, {"letter", 215.9, 279.4}};
    for (int i = 0; i < 3; i++) {
        SheetOptions options = {.whole = true};
        Fault fault;
        fault_init(&fault);
        cr_assert(sheet_paper(papers[i].name, &options, &fault));
        cr_expect_not(options.whole);
        cr_expect_float_eq(options.width, papers[i].width, 1e-9);
        cr_expect_float_eq(options.height, papers[i].height, 1e-9);
        fault_finish(&fault);
    }
}
