// Each built-in recipe drafted on the example, as the canonical text: a reviewer reads what moved and by how
// much. Run with REBATO_GOLDENS=write in the environment to write them anew.
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/file.h"
#include "drafted.h"
#include "pattern/write.h"
#include "recipe/shelf.h"

static void golden(const char *chain, const char *body, const char *name) {
    Pattern pattern;
    draft_of(chain, NULL, body, &pattern);
    Buffer text, wanted;
    buffer_init(&text);
    buffer_init(&wanted);
    pattern_write(&pattern, &text);
    char path[512];
    snprintf(path, sizeof path, "%s/goldens/%s.pattern", TESTS_DIR, name);
    Fault fault;
    fault_init(&fault);
    const char *write = getenv("REBATO_GOLDENS");
    if (write && strcmp(write, "write") == 0)
        cr_assert(file_write(path, text.data, text.length, &fault), "%s", fault.message);
    cr_assert(file_read(path, 16u << 20, &wanted, &fault), "%s", fault.message);
    if (wanted.length != text.length || memcmp(wanted.data, text.data, text.length) != 0) {
        size_t at = 0, line = 1;
        for (; at < text.length && at < wanted.length && text.data[at] == wanted.data[at]; at++)
            line += text.data[at] == '\n';
        cr_expect(false, "%s differs from its golden from line %zu on", name, line);
    }

    Pattern again;
    cr_assert(pattern_read(text.data, text.length, &again, &fault), "%s", fault.message);
    Buffer second;
    buffer_init(&second);
    pattern_write(&again, &second);
    cr_expect(second.length == text.length && memcmp(second.data, text.data, text.length) == 0,
              "%s: read back and written again differs", name);
    buffer_finish(&second);
    pattern_finish(&again);
    buffer_finish(&text);
    buffer_finish(&wanted);
    fault_finish(&fault);
    pattern_finish(&pattern);
}

Test(goldens, the_close_fitting_block) {
    golden("blocks/close-fitting", EXAMPLE_88, "close-fitting");
}
Test(goldens, the_measured_block) {
    golden("blocks/measured", PAPER_88, "measured");
}
Test(goldens, the_block_from_three_measures) {
    golden("blocks/three-measures", EXAMPLE_88, "three-measures");
}
Test(goldens, the_funnel_on_a_measured_block) {
    golden("blocks/measured bands/square-funnel", PAPER_88, "square-funnel-measured");
}

static void family(const char *name) {
    int count;
    const BuiltIn *all = shelf_built_in(&count);
    int drafts = 0;
    for (int i = 0; i < count; i++) {
        if (strcmp(all[i].family, name) != 0)
            continue;
        char chain[200];
        snprintf(chain, sizeof chain, "blocks/close-fitting %s", all[i].name);
        golden(chain, EXAMPLE_88, strrchr(all[i].name, '/') + 1);
        drafts++;
    }
    cr_expect(drafts > 0, "nothing in %s", name);
}

Test(goldens, the_necklines) {
    family("necklines");
}
Test(goldens, the_bands) {
    family("bands");
}
Test(goldens, the_flat_collars) {
    family("flat");
}
