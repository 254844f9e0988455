// The bodice contract: what a half must be, and what becomes of it under a new neckline.
#include <math.h>
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

// A whole half, mm, of which one line may be another; the back follows from the same lines.
static const char *const lines[] = {
    "h.centre = line(point(0, -72), point(0, -400))",
    "h.neckline = line(point(0, -72), point(67, 0))",
    "h.shoulder = line(point(67, 0), point(184, -33))",
    "h.armhole = line(point(184, -33), point(230, -220))",
    "h.side = line(point(230, -220), point(230, -400))",
    "h.waist = line(point(0, -400), point(230, -400))",
};
enum { LINE_COUNT = sizeof lines / sizeof *lines };

// A block whose halves have the line changed at an index; "" leaves it out.
static const char *block_with(int changed, const char *line) {
    static char text[1500];
    snprintf(text, sizeof text,
             "# Block\n\nTyped.\n\n## Draw it\n\n```lua\nlocal function half(name)\n"
             "local h = draft(name)\n");
    for (int i = 0; i < LINE_COUNT; i++)
        snprintf(text + strlen(text), sizeof text - strlen(text), "%s\n", i == changed ? line : lines[i]);
    snprintf(text + strlen(text), sizeof text - strlen(text),
             "return h end\ngive { bodice = { front = half(\"Front\"), back = half(\"Back\") } }\n```\n");
    return text;
}

typedef struct Wrong {
    int changed;
    const char *line, *message, *hint;
} Wrong;

static const Wrong wrongs[] = {
    {0, "h.centre = line(point(0, -400), point(0, -72))",
     "the centre of the front runs the wrong way: it should run from the neck down to the hem",
     "turn it round where it is marked: front.centre = path:reverse()"},
    {1, "h.neckline = line(point(67, 0), point(0, -72))",
     "the neckline of the front runs the wrong way: it should run from the centre to the neck point",
     "turn it round where it is marked: front.neckline = path:reverse()"},
    {2, "h.shoulder = line(point(184, -33), point(67, 0))",
     "the shoulder of the front runs the wrong way: it should run from the neck point to the tip",
     "turn it round where it is marked: front.shoulder = path:reverse()"},
    {3, "h.armhole = line(point(230, -220), point(184, -33))",
     "the armhole of the front runs the wrong way: it should run from the tip of the shoulder to the side",
     "turn it round where it is marked: front.armhole = path:reverse()"},
    {4, "h.side = line(point(230, -400), point(230, -220))",
     "the side of the front runs the wrong way: it should run from the armhole to the waist",
     "turn it round where it is marked: front.side = path:reverse()"},
    {5, "h.waist = line(point(230, -400), point(0, -400))",
     "the waist of the front runs the wrong way: it should run from the centre to the side",
     "turn it round where it is marked: front.waist = path:reverse()"},
    {3, "h.armhole = line(point(184, -33), point(230, -223.25))",
     "the outline of the front is open by 3.25 mm between 'armhole' and 'side'",
     "armhole runs from the tip of the shoulder to the side, side from the armhole to the waist"},
    {1, "h.neckline = line(point(0, -72), point(67, 0.02))",
     "the outline of the front is open by 0.02 mm between 'neckline' and 'shoulder'",
     "neckline runs from the centre to the neck point, shoulder from the neck point to the tip"},
    {5, "h.waist = line(point(0, -401), point(230, -400))",
     "the outline of the front is open by 1.00 mm between 'centre' and 'waist'",
     "centre runs from the neck down to the hem, waist from the centre to the side"},
    {3, "h.armhole = point(1, 1)", "the armhole of the front should be a path, got 'armhole'", ""},
    {2, "", "the front of the bodice has no edge 'shoulder'", "centre, neckline and shoulder"},
};

Test(lib_bodice, a_half_that_is_not_whole_is_told_in_the_file_of_its_block) {
    const char *collar = bench_recipe("local x = 1");
    for (size_t i = 0; i < sizeof wrongs / sizeof *wrongs; i++) {
        Pattern pattern = {0};
        Fault fault;
        fault_init(&fault);
        const Bench bench = {.block = block_with(wrongs[i].changed, wrongs[i].line), .text = collar};
        cr_assert_not(bench_run(bench, &pattern, &fault), "%s", wrongs[i].line);
        cr_expect_str_eq(fault.message, wrongs[i].message);
        cr_expect(strstr(fault.hint ? fault.hint : "", wrongs[i].hint), "%s | %s", fault.message, fault.hint);
        cr_expect(strstr(fault.file, "/block.md"), "%s", fault.file);
        cr_expect_eq(fault.line, 17, "line %d", fault.line);
        cr_expect_str_eq(fault.step, "Draw it");
        fault_finish(&fault);
    }
}

// With hundredths of a millimetre to spare, and where edges are left out.
Test(lib_bodice, a_half_that_is_whole_or_has_fewer_edges_is_taken) {
    static const struct {
        int changed;
        const char *line;
    } fine[] = {{0, "h.centre = line(point(0, -72), point(0, -400))"},
                {1, "h.neckline = line(point(0, -72), point(67, 0.005))"},
                {3, ""},
                {4, ""},
                {5, ""}};
    for (size_t i = 0; i < sizeof fine / sizeof *fine; i++) {
        Pattern pattern = {0};
        Fault fault;
        fault_init(&fault);
        const Bench bench = {.block = block_with(fine[i].changed, fine[i].line),
                             .text = bench_recipe("r = bodice.front.shoulder_point.x")};
        cr_assert(bench_run(bench, &pattern, &fault), "%s: %s", fine[i].line, fault.message);
        cr_expect_float_eq(note_of(&pattern, "r"), 184, 1e-9);
        pattern_finish(&pattern);
        fault_finish(&fault);
    }
}

Test(lib_bodice, a_block_has_its_neck_points_on_the_level_but_a_neckline_need_not) {
    static const char shifted[] =
        "# Block\n\nTyped.\n\n```lua\n%slocal function half(name)\nlocal h = draft(name)\n"
        "h.centre = line(point(0, -72), point(0, -400))\nh.neckline = line(point(0, -72), point(67, -12.5))\n"
        "h.shoulder = line(point(67, -12.5), point(184, -33))\nreturn h end\n"
        "give { bodice = { front = half(\"F\"), back = half(\"B\") } }\n```\n";
    char text[700];
    snprintf(text, sizeof text, shifted, "");
    bench_fails((Bench){.block = text, .text = bench_recipe("")}, 12,
                "the neck point of the front lies 12.50 mm below y = 0", "on y = 0");
    snprintf(text, sizeof text, shifted, "needs { bodice = \"a bodice\" }\n");
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    cr_expect(bench_run((Bench){.text = text}, &pattern, &fault), "%s", fault.message);
    pattern_finish(&pattern);
    fault_finish(&fault);
}

Test(lib_bodice, a_recipe_before_the_last_gives_a_bodice) {
    const char *collar = bench_recipe("local x = 1");
    bench_fails((Bench){.block = "# B\n\nB.\n\n```lua\nlocal x = 1\n```\n", .text = collar}, 5,
                "/block.md gives no bodice", "end it with give { bodice = { front = ..., back = ... } }");
    bench_fails(
        (Bench){.block = "# B\n\nB.\n\n```lua\nneeds { bodice = { \"a bodice\", optional = true } }\n```\n",
                .text = collar},
        5, "gives no bodice, so it is no neckline to put a collar on", "end it with give");
    bench_fails((Bench){.block = "# B\n\nB.\n\n```lua\ngive { depth = 3 }\n```\n", .text = collar}, 5,
                "/block.md gives no bodice", "end it with give");
}

Test(lib_bodice, recut_keeps_the_bodice_and_takes_the_new_neckline) {
    Pattern pattern = {0};
    pattern_of("local f = bodice.front\n"
               "f.helper = point(1, 1)\n"
               "local n = f:recut(line(f.shoulder:at(2*cm), f.centre_neck:down(4*cm)))\n"
               "r, s = n.centre.first.y, n.shoulder.length\nt = n:has \"helper\" and 1 or 0\n"
               "u = n:name()\nv = n:recut(line(point(0, -50), n.shoulder:at(1*cm))):name()",
               &pattern);
    cr_expect_float_eq(note_of(&pattern, "r"), -112, 1e-6);
    cr_expect_float_eq(note_of(&pattern, "s"), hypot(184.8 - 67, 33.5) - 20, 1e-6);
    cr_expect_float_eq(note_of(&pattern, "t"), 0, 1e-6);
    cr_expect_str_eq(pattern.notes.items[pattern.notes.count - 2].text, "Front, new neckline");
    cr_expect_str_eq(pattern.notes.items[pattern.notes.count - 1].text, "Front, new neckline 2");
    pattern_finish(&pattern);
}
