// The worked example of the language, as a reader would write it, on a block typed as outlines.
#include <math.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"
#include "pattern/write.h"

static const char funnel[] =
    "# Square-set bias funnel\n"
    "\n"
    "A soft funnel that slips over the head. It is set into a neckline cut to a right angle, front and back, "
    "and folds over at the\n"
    "top to face itself. The funnel hangs on the bias; its set-in seams lie on the straight grain.\n"
    "\n"
    "```lua\n"
    "needs {\n"
    "  bodice     = \"a bodice, net of seam allowance, shoulder darts closed\",\n"
    "  head_girth = \"round the widest part of the head\",\n"
    "}\n"
    "choose {\n"
    "  height = { 10*cm, from = 4*cm, to = 25*cm, \"finished height\" },\n"
    "  ease   = { 0*cm, from = 0*cm, to = 4*cm, \"room over the head: none in soft cloth, 2 to 3 cm in "
    "firm\" },\n"
    "  centre = { \"seam\", \"fold\", \"how the centre front and centre back are cut\" },\n"
    "}\n"
    "```\n"
    "\n"
    "## Extend the centre lines\n"
    "\n"
    "Carry the centre front and the centre back on above the neck, with room for the funnel.\n"
    "\n"
    "```lua\n"
    "local front, back = bodice.front, bodice.back\n"
    "for half in each(front, back) do\n"
    "  half.axis = half.centre:extend(\"first\", 30*cm)\n"
    "end\n"
    "```\n"
    "\n"
    "## Rule the width\n"
    "\n"
    "A quarter of the head, with a quarter of the ease, is `= quarter`. Hold the square to the centre front "
    "and slide it until an arm of that\n"
    "length ends on the shoulder. On the back go by the shoulder, so that the shoulder seams still match; "
    "the arm there comes to `= back.S.x`.\n"
    "\n"
    "```lua\n"
    "quarter = (head_girth + ease) / 4\n"
    "\n"
    "front.S = front.axis:offset(quarter, \"right\"):meet(front.shoulder)\n"
    "back.S  = back.shoulder:at(front.shoulder:along(front.S))\n"
    "```\n"
    "\n"
    "## Raise the funnel\n"
    "\n"
    "Square from the centre line to the shoulder point, and mark the height up from both ends.\n"
    "\n"
    "```lua\n"
    "for half in each(front, back) do\n"
    "  half.G = half.axis:foot(half.S)\n"
    "  half.U, half.T = half.S:up(height), half.G:up(height)\n"
    "end\n"
    "```\n"
    "\n"
    "## Cut the neckline\n"
    "\n"
    "From the shoulder point, rule down to the centre line at 45 degrees. This is the new neckline; left and "
    "right together make a right angle.\n"
    "\n"
    "```lua\n"
    "for half in each(front, back) do\n"
    "  half.V = half.axis:meet(half.S:bias(\"down\", \"left\"))\n"
    "end\n"
    "```\n"
    "\n"
    "## Trace the pieces\n"
    "\n"
    "```lua\n"
    "local function funnel(name, half)\n"
    "  local p = piece(name, {\n"
    "    neckline = line(half.V, half.S),\n"
    "    side     = line(half.S, half.U),\n"
    "    top      = line(half.U, half.T),\n"
    "    centre   = line(half.T, half.V),\n"
    "  })\n"
    "  p = p:unfold \"top\"                                  -- the facing, in one with the funnel\n"
    "  if centre == \"fold\" then p = p:unfold \"centre\" end\n"
    "  return p:grain(\"along\", \"neckline\")\n"
    "end\n"
    "\n"
    "front.funnel, back.funnel = funnel(\"Front funnel\", front), funnel(\"Back funnel\", back)\n"
    "opening = 2 * (front.funnel.top.length + back.funnel.top.length)\n"
    "prove \"the funnel passes over the head\" { opening, at_least = head_girth + ease }\n"
    "```\n";

static const Mark *mark_of(const Pattern *pattern, int draft, const char *name) {
    const Mark *mark = draft_find_mark(&pattern->drafts.items[draft], name);
    cr_assert(mark, "no mark '%s'", name);
    return mark;
}

Test(run, the_worked_example_gives_the_worked_numbers) {
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    const bool fine = bench_run((Bench){.text = funnel}, &pattern, &fault);
    cr_assert(fine, "%d: %s (%s)", fault.line, fault.message, fault.hint ? fault.hint : "");
    cr_expect_float_eq(note_of(&pattern, "quarter"), 140.0, 1e-9);
    cr_expect_float_eq(note_of(&pattern, "opening"), 564.6, 0.05);
    const Point s = mark_of(&pattern, 0, "S")->point, v = mark_of(&pattern, 0, "V")->point;
    cr_expect_float_eq(point_distance(s, v), 197.99, 0.005);
    cr_expect_float_eq(-v.y, 160.7, 0.1); // below the neck point, which lies on y = 0
    cr_assert_eq(pattern.proofs.count, 1);
    cr_expect(pattern.proofs.items[0].holds);
    cr_expect_eq(pattern.pieces.count, 2);
    const int front = pattern_find_piece(&pattern, "Front funnel");
    cr_assert_geq(front, 0);
    cr_expect_str_eq(pattern.pieces.items[front].edges.items[0].name, "neckline");
    cr_assert_eq(pattern.filled.count, 2);
    cr_expect_str_eq(pattern.filled.items[0].text, "14.0 cm");
    cr_expect_eq(pattern.chapters.count, 2);
    cr_expect_eq(pattern.steps.count, 1 + 6);
    cr_expect_str_eq(pattern.steps.items[mark_of(&pattern, 0, "V")->step].title, "Cut the neckline");
    pattern_finish(&pattern);
    fault_finish(&fault);
}

Test(run, a_setting_changes_what_is_drawn) {
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    const bool fine =
        bench_run((Bench){.text = funnel, .settings = "height=6cm centre=fold"}, &pattern, &fault);
    cr_assert(fine, "%d: %s", fault.line, fault.message);
    const Point s = mark_of(&pattern, 0, "S")->point, u = mark_of(&pattern, 0, "U")->point;
    cr_expect_float_eq(u.y - s.y, 60, 1e-9);
    cr_expect_eq(pattern.pieces.items[0].edges.count, 8);
    pattern_finish(&pattern);
    fault_finish(&fault);
}

Test(run, a_head_too_large_for_the_shoulder_is_said_with_the_numbers) {
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(bench_run((Bench){.text = funnel, .settings = "head_girth=80cm"}, &pattern, &fault));
    cr_expect_str_eq(fault.message, "the offset of 'axis' does not meet 'shoulder'");
    cr_expect_str_eq(
        fault.hint,
        "the offset runs 20.0 cm from 'axis'; 'shoulder' lies between 6.7 cm and 18.5 cm from it");
    cr_expect_eq(fault.line, 37);
    cr_expect_str_eq(fault.step, "Rule the width");
    fault_finish(&fault);
}

Test(run, a_child_process_gives_the_same_bytes) {
    Fault fault;
    fault_init(&fault);
    Buffer texts[3];
    for (int i = 0; i < 3; i++) {
        Pattern pattern = {0};
        buffer_init(&texts[i]);
        cr_assert(bench_run((Bench){.text = funnel, .apart = i == 1}, &pattern, &fault), "%s", fault.message);
        // The names of the files differ from run to run.
        pattern.recipe = "funnel";
        for (int j = 0; j < pattern.chapters.count; j++)
            pattern.chapters.items[j].recipe = "chapter";
        pattern_write(&pattern, &texts[i]);
        pattern_finish(&pattern);
    }
    cr_expect_str_eq(texts[0].data, texts[1].data);
    cr_expect_str_eq(texts[0].data, texts[2].data);
    for (int i = 0; i < 3; i++)
        buffer_finish(&texts[i]);
    fault_finish(&fault);
}

Test(run, the_same_recipe_gives_the_same_pattern) {
    Pattern one = {0}, two = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert(bench_run((Bench){.text = funnel}, &one, &fault));
    cr_assert(bench_run((Bench){.text = funnel}, &two, &fault));
    cr_assert_eq(one.notes.count, two.notes.count);
    for (int i = 0; i < one.notes.count; i++) {
        cr_expect_str_eq(one.notes.items[i].name, two.notes.items[i].name);
        cr_expect_eq(one.notes.items[i].value, two.notes.items[i].value);
    }
    for (int i = 0; i < one.inputs.count; i++)
        cr_expect_str_eq(one.inputs.items[i].name, two.inputs.items[i].name);
    pattern_finish(&one);
    pattern_finish(&two);
    fault_finish(&fault);
}
