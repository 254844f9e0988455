// Every recipe and every fragment of a recipe that the documents show is run. A fence of four marks called
// markdown is a whole recipe; a fence called lua is a fragment, run on a bodice. The commands of the README
// are run with the files it shows.
#include <criterion/criterion.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/file.h"
#include "base/text.h"
#include "said.h"

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

// A document and its fence at hand.
typedef struct Document {
    const char *name;
    Buffer text;
    int line;      // read last
    size_t marks;  // that open the fence
    char kind[32]; // what stands behind them
    char where[64];
    Buffer fence; // its lines
} Document;

static void document_open(Document *document, const char *name) {
    char path[512];
    Fault fault;
    *document = (Document){.name = name};
    fault_init(&fault);
    buffer_init(&document->text);
    buffer_init(&document->fence);
    snprintf(path, sizeof path, "%s/../%s", getenv("TESTS"), name);
    cr_assert(file_read(path, 1u << 20, &document->text, &fault), "%s", fault.message);
}

static void document_close(Document *document) {
    buffer_finish(&document->text);
    buffer_finish(&document->fence);
}

static bool document_next(Document *document) {
    size_t length, marks = 0;
    const char *line;
    while (marks < 3) {
        line = text_line(document->text.data, ++document->line, &length);
        if (!line)
            return false;
        marks = strspn(line, "`");
    }
    document->marks = marks;
    snprintf(document->kind, sizeof document->kind, "%.*s", (int)(length - marks), line + marks);
    snprintf(document->where, sizeof document->where, "%s:%d", document->name, document->line);
    buffer_clear(&document->fence);
    while ((line = text_line(document->text.data, ++document->line, &length))) {
        marks = strspn(line, "`");
        if (marks >= document->marks && marks == length)
            return true;
        buffer_add(&document->fence, line, length);
        buffer_add_char(&document->fence, '\n');
    }
    cr_assert_fail("%s: a fence is not closed", document->where);
    return false;
}

// Runs the fences of a document; gives how many ran.
static int run_document(const char *name) {
    Document document;
    int ran = 0;
    document_open(&document, name);
    while (document_next(&document)) {
        bool recipe = document.marks > 3 && strcmp(document.kind, "markdown") == 0;
        bool fragment = document.marks == 3 && strcmp(document.kind, "lua") == 0;
        ran += recipe || fragment;
        if (recipe)
            cr_expect_eq(run_recipe(document.fence.data, document.where), 0, "%s: a proof fails",
                         document.where);
        else if (fragment)
            run_fragment(document.fence.data, document.where);
    }
    document_close(&document);
    return ran;
}

// The lines of a shell that write down each measurement file the document shows, which is a fence whose first
// line is "# NAME.txt", and a recipe of one's own.
static void add_files(const char *name, Buffer *out) {
    Document document;
    document_open(&document, name);
    buffer_add_text(out, "cat >my-collar.md <<'END'\n# My collar\n\nA strip.\n\n```lua\n"
                         "needs { bodice = \"a bodice\" }\nlocal d = draft \"Strip\"\n"
                         "d.A = point(0, 0)\nlocal b, c = d.A:right(20*cm), d.A:up(4*cm)\n"
                         "d.strip = piece(\"Strip\", { low = line(d.A, b), end_ = line(b, b:up(4*cm)), "
                         "top = line(b:up(4*cm), c), start = line(c, d.A) }):grain(\"along\", \"low\")\n"
                         "```\nEND\n");
    while (document_next(&document)) {
        size_t length;
        const char *first = text_line(document.fence.data, 1, &length);
        if (*document.kind || !first || !text_starts(first, "# ") || length < 6 ||
            memcmp(first + length - 4, ".txt", 4) != 0)
            continue;
        buffer_add_format(out, "cat >%.*s <<'END'\n%sEND\n", (int)length - 2, first + 2, document.fence.data);
    }
    document_close(&document);
}

#define DRAFT "./scripts/draft "

// What a line of the shell hands to the program, with the program's own name before it; false for any other
// line, and for one that hands it nothing.
static bool shell_line(const char *line, size_t length, Buffer *out) {
    if (length < strlen(DRAFT) || !text_starts(line, DRAFT))
        return false;
    const char *rest = line + strlen(DRAFT);
    const char *from = rest + strspn(rest, " ");
    if (from >= line + length || *from == '#')
        return false;
    buffer_add_text(out, "rebato ");
    buffer_add(out, rest, (size_t)(line + length - rest));
    return true;
}

// Runs the lines of the fence at hand, each in a folder of its own; gives how many ran.
static int run_commands(const Document *document, const char *files) {
    int ran = 0;
    size_t length;
    const char *line;
    for (int at = 1; (line = text_line(document->fence.data, at, &length)); at++) {
        Buffer command;
        buffer_init(&command);
        if (shell_line(line, length, &command)) {
            const bool fresh = text_starts(command.data, "rebato new "); // writes what files would hold
            Said s = said("%s%s\n", fresh ? "" : files, command.data);
            cr_expect(s.code == 0 || s.code == 1, "%s: %s\n%s", document->where, command.data, s.err.data);
            said_finish(&s);
            ran++;
        }
        buffer_finish(&command);
    }
    return ran;
}

Test(docs, every_recipe_in_the_readme_runs_and_holds) {
    cr_expect(run_document("README.md") > 0);
}

Test(docs, every_recipe_for_developers_runs) {
    run_document("DEVELOPERS.md");
}

Test(docs, every_command_of_the_readme_runs) {
    Document document;
    Buffer files;
    int ran = 0;
    buffer_init(&files);
    add_files("README.md", &files);
    document_open(&document, "README.md");
    while (document_next(&document))
        if (strcmp(document.kind, "sh") == 0)
            ran += run_commands(&document, files.data);
    cr_expect(ran > 0);
    document_close(&document);
    buffer_finish(&files);
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
