// Every recipe and every fragment of a recipe that the documents show is run, and so is every example of the
// reference. A fence of four marks called markdown is a whole recipe; a fence called lua is a fragment, run
// on a bodice.
#include <criterion/criterion.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"
#include "said.h"
#include "script/words.h"

static int run_recipe(const char *text, const char *where) {
    Fault fault;
    fault_init(&fault);
    char path[] = "/tmp/rebato-docs-XXXXXX.md";
    int made = mkstemps(path, 3);
    cr_assert(made >= 0);
    FILE *file = fdopen(made, "w");
    fputs(text, file);
    fclose(file);
    Said s = said("rebato check %s", path);
    cr_expect(s.code != 2, "%s: %s", where, s.err.data);
    int code = s.code;
    said_finish(&s);
    remove(path);
    fault_finish(&fault);
    return code;
}

static void run_fragment(const char *code, const char *where) {
    Buffer recipe;
    buffer_init(&recipe);
    buffer_add_text(&recipe, "# A fragment\n\nFrom a document.\n\n```lua\n");
    if (!strstr(code, "needs"))
        buffer_add_text(&recipe, "needs { bodice = \"a bodice\" }\n");
    buffer_add_text(&recipe, code);
    buffer_add_text(&recipe, "```\n");
    run_recipe(recipe.data, where);
    buffer_finish(&recipe);
}

// The marks that open a fence at the line, 0 where there is none.
static size_t fence_marks(const char *line) {
    size_t marks = strspn(line, "`");
    return marks >= 3 ? marks : 0;
}

// Runs the fences of a document; gives how many ran.
static int run_document(const char *name) {
    char path[512], where[600];
    Buffer text, fence;
    Fault fault;
    fault_init(&fault);
    buffer_init(&text);
    buffer_init(&fence);
    snprintf(path, sizeof path, "%s/../%s", getenv("TESTS"), name);
    cr_assert(file_read(path, 1u << 20, &text, &fault), "%s", fault.message);
    int ran = 0;
    size_t open = 0, length;
    bool recipe = false, fragment = false;
    const char *line;
    for (int at = 1; (line = text_line(text.data, at, &length)); at++) {
        size_t marks = fence_marks(line);
        if (open == 0) {
            open = marks;
            recipe = marks > 3 && text_starts(line + marks, "markdown");
            fragment = marks == 3 && text_starts(line + marks, "lua");
            buffer_clear(&fence);
            snprintf(where, sizeof where, "%s:%d", name, at);
            continue;
        }
        if (marks < open || marks != length) {
            buffer_add(&fence, line, length);
            buffer_add_char(&fence, '\n');
            continue;
        }
        open = 0;
        ran += recipe || fragment;
        if (recipe)
            cr_expect_eq(run_recipe(fence.data, where), 0, "%s: a proof fails", where);
        else if (fragment)
            run_fragment(fence.data, where);
    }
    cr_expect_eq(open, 0, "%s: a fence is not closed", where);
    buffer_finish(&text);
    buffer_finish(&fence);
    return ran;
}

Test(docs, every_recipe_in_the_readme_runs_and_holds) {
    cr_expect(run_document("README.md") > 0);
}

Test(docs, every_recipe_for_developers_runs) {
    run_document("DEVELOPERS.md");
}

Test(docs, every_example_of_the_reference_runs) {
    int count, ran = 0;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++) {
        if (!rows[i].example)
            continue;
        char *code = mem_new(strlen(rows[i].example) + 2);
        strcat(strcpy(code, rows[i].example), "\n");
        run_fragment(code, rows[i].name);
        mem_free(code);
        ran++;
    }
    cr_expect(ran > 0);
}

// With REBATO_GOLDENS=write in the environment the picture is drawn anew.
Test(docs, the_picture_in_the_readme_is_what_its_recipe_draws) {
    Said s = said("awk '/^````markdown/ { on = 1; next } /^````/ { on = 0 } on' \"$TESTS/../README.md\" > "
                  "bias-funnel.md && "
                  "rebato draft bias-funnel.md --scale 1:5 --show both -o picture.svg && "
                  "if [ \"${REBATO_GOLDENS:-}\" = write ]; then cp picture.svg "
                  "\"$TESTS/pictures/bias-funnel.svg\"; fi && "
                  "cmp picture.svg \"$TESTS/pictures/bias-funnel.svg\"");
    said_code(&s, 0);
    said_finish(&s);
}
