#include "bench.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <criterion/criterion.h>

#include "base/file.h"
#include "base/memory.h"

// A bodice of bust 88 as outlines, mm: neck points, centre neck and shoulder tips as a published block
// drafting method gives them (formulas re-read), front dart closed; the necklines are straight here, for what
// is checked does not hang on them.
static const char block_text[] = "# Test block\n"
                                 "\n"
                                 "A bodice typed as outlines.\n"
                                 "\n"
                                 "```lua\n"
                                 "local front, back = draft \"Front\", draft \"Back\"\n"
                                 "front.centre   = line(point(0, -72), point(0, -400))\n"
                                 "front.neckline = line(point(0, -72), point(67, 0))\n"
                                 "front.shoulder = line(point(67, 0), point(184.8, -33.5))\n"
                                 "back.centre    = line(point(0, -15), point(0, -410))\n"
                                 "back.neckline  = line(point(0, -15), point(72, 0))\n"
                                 "back.shoulder  = line(point(72, 0), point(194.7, -50))\n"
                                 "give { bodice = { front = front, back = back } }\n"
                                 "```\n";

#define FOLDER_BYTES 64

static void write_text(const char *folder, const char *name, const char *text, char *path, size_t size) {
    Fault fault;
    fault_init(&fault);
    snprintf(path, size, "%s/%s.md", folder, name);
    cr_assert(file_write(path, text, strlen(text), &fault), "%s", fault.message);
    fault_finish(&fault);
}

static int split_settings(char *text, Setting *out, int most) {
    int count = 0;
    for (char *word = strtok(text, " "); word && count < most; word = strtok(NULL, " ")) {
        char *equals = strchr(word, '=');
        cr_assert(equals, "a setting is NAME=VALUE");
        *equals = '\0';
        out[count++] = (Setting){.name = word, .value = equals + 1};
    }
    return count;
}

static bool run_on_shelf(const Bench *bench, Shelf *shelf, const char *const *chain, int count, Pattern *out,
                         Fault *fault) {
    BodyMeasure measures[] = {{.name = "head_girth", .value = 560}, {.name = "bust_girth", .value = 880}};
    const Measures body = {.items = measures, .count = 2};
    char *settings_text = mem_text(bench->settings ? bench->settings : "");
    Setting settings[20];
    const int setting_count = split_settings(settings_text, settings, 20);
    const ScriptJob job = {.shelf = shelf,
                           .chain = chain,
                           .chain_count = count,
                           .settings = settings,
                           .setting_count = setting_count,
                           .body = &body,
                           .body_name = "bench",
                           .limits = bench->limits};
    const bool fine = bench->survey  ? script_survey(&job, out, fault)
                      : bench->apart ? script_run_apart(&job, out, fault)
                                     : script_run(&job, out, fault);
    mem_free(settings_text);
    return fine;
}

bool bench_run(Bench bench, Pattern *out, Fault *fault) {
    char folder[FOLDER_BYTES] = "/tmp/rebato-bench-XXXXXX", block[100], recipe[100], other[100] = "";
    cr_assert(mkdtemp(folder));
    write_text(folder, "block", bench.block ? bench.block : block_text, block, sizeof block);
    write_text(folder, "recipe", bench.text, recipe, sizeof recipe);
    if (bench.other)
        write_text(folder, "other", bench.other, other, sizeof other);
    Shelf shelf;
    shelf_init(&shelf);
    const Recipe *first = NULL, *last = NULL;
    bool fine = shelf_find(&shelf, block, &first, fault) && shelf_find(&shelf, recipe, &last, fault);
    if (fine) {
        const char *chain[] = {first->name, last->name};
        fine = run_on_shelf(&bench, &shelf, bench.no_block ? chain + 1 : chain, bench.no_block ? 1 : 2, out,
                            fault);
    }
    shelf_finish(&shelf);
    unlink(block);
    unlink(recipe);
    unlink(other);
    rmdir(folder);
    return fine;
}

const char *bench_recipe(const char *code) {
    static char *text;
    const size_t size = strlen(code) + 200;
    text = mem_resize(text, size);
    snprintf(text, size, "# Bench\n\nOne block.\n\n```lua\nneeds { bodice = \"a bodice\" }\n%s\n```\n", code);
    return text;
}

const char *fault_of(const char *code) {
    static char said[2000];
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    if (bench_run((Bench){.text = bench_recipe(code)}, &pattern, &fault))
        said[0] = '\0';
    else
        snprintf(said, sizeof said, "%d: %s | %s", fault.line, fault.message, fault.hint ? fault.hint : "");
    pattern_finish(&pattern);
    fault_finish(&fault);
    return said;
}

double note_of(const Pattern *pattern, const char *name) {
    for (int i = pattern->notes.count - 1; i >= 0; i--)
        if (strcmp(pattern->notes.items[i].name, name) == 0)
            return pattern->notes.items[i].value;
    cr_assert_fail("no note '%s'", name);
    return 0;
}

void bench_runs(Bench bench, Pattern *out) {
    Fault fault;
    fault_init(&fault);
    const bool fine = bench_run(bench, out, &fault);
    cr_assert(fine, "%d: %s (%s)", fault.line, fault.message, fault.hint ? fault.hint : "");
    fault_finish(&fault);
}

void bench_fails(Bench bench, int line, const char *message, const char *hint) {
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(bench_run(bench, &pattern, &fault), "%s", message);
    if (line > 0)
        cr_expect_eq(fault.line, line, "line %d: %s", fault.line, fault.message);
    cr_expect(strstr(fault.message, message), "%s", fault.message);
    cr_expect(strstr(fault.hint ? fault.hint : "", hint), "%s | %s", fault.message, fault.hint);
    fault_finish(&fault);
}

void pattern_of(const char *code, Pattern *out) {
    bench_runs((Bench){.text = bench_recipe(code)}, out);
}

void gives(const char *code, double value) {
    Pattern pattern = {0};
    pattern_of(code, &pattern);
    cr_expect_float_eq(note_of(&pattern, "r"), value, 1e-6, "%s: %.9f, not %.9f", code,
                       note_of(&pattern, "r"), value);
    pattern_finish(&pattern);
}
