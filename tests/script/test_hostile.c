// Recipes that mean harm, or might as well: each gives an ordinary fault, in time, and this process lives.
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <criterion/criterion.h>

#include "base/file.h"
#include "base/memory.h"
#include "bench.h"

#define HOSTILE_LEAST 80
#define HOSTILE_MOST 300
#define WALL_SECONDS 4.0
// Until a killed child is gone and its message thrown away, on a busy machine.
#define SLACK_SECONDS 2.0

// Those that may end well, and why.
static const char *const harmless[][2] = {
    {"68_name_with_slash", "a name is only drawn, never a path of a file"},
    {"107_unfold_doubling", "a piece is made anew each time, nothing grows"},
    {"110_sort_bad_order", "a bad order sorts badly or raises; either is fine"},
};

// Those that only the clock stops, and so only in a child.
static const char *const clock_only[][2] = {
    {"125_compare_flood", "one instruction compares 16 MB"},
};

static bool is_among(const char *const (*list)[2], size_t count, const char *name) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(list[i][0], name) == 0)
            return true;
    return false;
}

static bool is_harmless(const char *name) {
    return is_among(harmless, sizeof harmless / sizeof *harmless, name);
}

static bool is_clock_only(const char *name) {
    return is_among(clock_only, sizeof clock_only / sizeof *clock_only, name);
}

static double now_seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static int by_text(const void *a, const void *b) {
    return strcmp(*(char *const *)a, *(char *const *)b);
}

// The names of the scripts without ".lua", sorted; each the caller's.
static int hostile_names(char **names) {
    DIR *folder = opendir(TESTS_DIR "/hostile");
    cr_assert(folder);
    int count = 0;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL && count < HOSTILE_MOST;) {
        char *dot = strstr(entry->d_name, ".lua");
        if (dot && dot[4] == '\0') {
            *dot = '\0';
            names[count++] = mem_text(entry->d_name);
        }
    }
    closedir(folder);
    qsort(names, (size_t)count, sizeof *names, by_text);
    return count;
}

// The script as the one block of a recipe.
static void wrap(const char *name, Buffer *out) {
    char path[400];
    Fault fault;
    Buffer script;
    fault_init(&fault);
    buffer_init(&script);
    snprintf(path, sizeof path, "%s/hostile/%s.lua", TESTS_DIR, name);
    cr_assert(file_read(path, 1 << 20, &script, &fault), "%s", fault.message);
    buffer_add_text(out, "# Hostile\n\nA recipe that means harm.\n\n```lua\n");
    buffer_add(out, script.data, script.length);
    buffer_add_text(out, "\n```\n");
    buffer_finish(&script);
    fault_finish(&fault);
}

// Runs one and gives what went against the rules, or NULL.
static const char *against(const char *name, bool apart, ScriptLimits limits) {
    static char wrong[600];
    Buffer text;
    Pattern pattern = {0};
    Fault fault;
    buffer_init(&text);
    fault_init(&fault);
    wrap(name, &text);
    const double before = now_seconds();
    const bool fine =
        bench_run((Bench){.text = text.data, .apart = apart, .limits = limits}, &pattern, &fault);
    const double took = now_seconds() - before;
    wrong[0] = '\0';
    if (fine && !is_harmless(name))
        snprintf(wrong, sizeof wrong, "%s ended well", name);
    else if (!fine && (!fault.message || !fault.message[0]))
        snprintf(wrong, sizeof wrong, "%s gave no message", name);
    else if (!fine && (strstr(fault.message, "signal") || strstr(fault.message, "broke off")))
        snprintf(wrong, sizeof wrong, "%s: %s", name, fault.message);
    else if (took > WALL_SECONDS + SLACK_SECONDS)
        snprintf(wrong, sizeof wrong, "%s took %.1f s", name, took);
    if (getenv("SHOW_HOSTILE"))
        fprintf(stderr, "%5.2f s  %-34s %d: %s | %s\n", took, name, fault.line,
                fault.message ? fault.message : "-", fault.hint ? fault.hint : "");
    pattern_finish(&pattern);
    fault_finish(&fault);
    buffer_finish(&text);
    return wrong[0] ? wrong : NULL;
}

static void all_go_by_the_rules(bool apart) {
    char *names[HOSTILE_MOST];
    const int count = hostile_names(names);
    const ScriptLimits limits = {.instructions = 20000000, .seconds = WALL_SECONDS};
    int broken = 0;
    cr_expect_geq(count, HOSTILE_LEAST);
    for (int i = 0; i < count; i++) {
        const char *wrong = !apart && is_clock_only(names[i]) ? NULL : against(names[i], apart, limits);
        cr_expect_null(wrong, "%s", wrong);
        broken += wrong != NULL;
        mem_free(names[i]);
    }
    cr_log_info("%d hostile recipes, %d against the rules", count, broken);
}

Test(hostile, each_gives_an_ordinary_fault_in_a_child, .timeout = 250) {
    all_go_by_the_rules(true);
}

Test(hostile, each_gives_an_ordinary_fault_in_this_process, .timeout = 250) {
    all_go_by_the_rules(false);
}

// A piece of source repeated as often as goes into so many bytes, between two others.
static void repeat(Buffer *out, const char *before, const char *piece, size_t bytes, const char *after) {
    buffer_add_text(out, before);
    for (size_t used = 0; used + strlen(piece) < bytes; used += strlen(piece))
        buffer_add_text(out, piece);
    buffer_add_text(out, after);
}

static void source_fails(const char *before, const char *piece, size_t bytes, const char *after) {
    Buffer code;
    Pattern pattern = {0};
    Fault fault;
    buffer_init(&code);
    fault_init(&fault);
    repeat(&code, before, piece, bytes, after);
    const Bench bench = {.text = bench_recipe(code.data), .apart = true};
    const double began = now_seconds();
    cr_expect_not(bench_run(bench, &pattern, &fault), "%s", piece);
    cr_expect_lt(now_seconds() - began, WALL_SECONDS, "%s", piece);
    cr_expect(fault.message && !strstr(fault.message, "signal"), "%s: %s", piece, fault.message);
    pattern_finish(&pattern);
    fault_finish(&fault);
    buffer_finish(&code);
}

Test(hostile, sources_at_the_edge_of_what_lua_reads_are_refused, .timeout = 60) {
    source_fails("local x = ", "(", 60000, "1");
    source_fails("local x = ", "{", 60000, "");
    source_fails("local x = ", "-", 60000, "nil + nil");
    source_fails("local x = ", "not ", 60000, "nil + nil");
    source_fails("local t = {} t.a = t local v = t", "._ENV", 60000, ".x + 1");
    source_fails("", "do ", 60000, "");
    source_fails("", "if x then ", 60000, "");
    source_fails("local x = 1", " .. 1", 60000, "");
    source_fails("local x = line(", "1,", 2000, "1)");
    source_fails("local x = '", "a", 70000, "'");
    source_fails("local a = {} local f = function() return a", "[a]", 60000, " end f()");
    source_fails("", "::l::", 60000, "");
    source_fails("goto ", "x", 60000, "");
}

Test(hostile, an_endless_loop_is_stopped_by_the_clock, .timeout = 20) {
    const ScriptLimits limits = {.instructions = 4000000000L, .seconds = 0.5};
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    const Bench bench = {.text = bench_recipe("while true do end"), .apart = true, .limits = limits};
    const double before = now_seconds();
    cr_assert_not(bench_run(bench, &pattern, &fault));
    cr_expect_lt(now_seconds() - before, 3.0);
    cr_expect_str_eq(fault.message, "the recipe was stopped after 0.5 s");
    fault_finish(&fault);
}
