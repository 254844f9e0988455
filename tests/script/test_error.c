// What an author reads when something cannot be: the line, the names of the things, the numbers with their
// units, a way out.
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "bench.h"

typedef struct Said {
    const char *code, *fault; // "LINE: MESSAGE | HINT"; the code begins on line 7 of its recipe
} Said;

// The shoulders of the block of bench.c are 122.5 and 132.5 mm long, its front neck point lies at (67, 0).
static const Said sayings[] = {
    {"local p = bodice.front.sholder",
     "7: nothing is marked 'sholder' on 'Front' | did you mean 'shoulder'?"},
    {"local p = bodice.front.shoulder:at(90*cm)",
     "7: at: 90.0 cm is beyond the end of 'shoulder', which is 12.2 cm long | "},
    {"local p = bodice.front.shoulder:met(bodice.front.centre)",
     "7: 'shoulder' has no 'met' | did you mean 'meet'?"},
    {"local l = bodice.front.shoulder\nlocal p = l:meet(nil)",
     "8: meet: argument 1 should be a path, got nothing (nil) | "},
    {"local p = bodice.front.shoulder.meet(bodice.front.centre)",
     "7: meet: argument 2 should be a path, got nothing (nil) | is a colon meant? thing:meet(...)"},
    {"local high = line(point(0, 300), point(10, 300))\nlocal p = bodice.front.shoulder:meet(high)",
     "8: 'shoulder' does not meet 'high' | where they are nearest they are 30.5 cm apart"},
    {"local up = line(point(10*cm, 0), point(10*cm, 5*cm))\nlocal p = up:meet(bodice.front.shoulder)",
     "8: 'up' does not meet 'shoulder' | 'up' would meet it if it were 0.9 cm longer at its first end: "
     "extend(\"first\", ...)"},
    {"bodice.front.S = nil", "7: 'S' got nothing (nil) to mark | "},
    {"bodice.front.S = 12", "7: a draft holds points, paths and pieces; 'S' got the number 12 | "
                            "a number is noted under a plain name: S = ..."},
    {"bodice.front.S = point(0, 0)\n\nbodice.front.S = point(0, 0)",
     "9: 'S' was marked on 'Front' at line 7 already | a name on a draft is used once, as a letter on paper"},
    {"quarter = 1\nquarter = 2", "8: 'quarter' was named at line 7 already | a plain name is a note and is "
                                 "made once; use a local for what changes"},
    {"quarter = 1\nlocal x = quater", "8: nothing is called 'quater' | did you mean 'quarter'?"},
    {"line = 3", "7: 'line' is a word of the language; choose another name | "},
    {"local x = bodice.frnt.shoulder", "7: 'bodice' has no 'frnt' | did you mean 'front'?"},
    {"local x = bodice.lowered\nbodice.lowered = 1\nlocal y = bodice.lowred",
     "9: 'bodice' has no 'lowred' | did you mean 'lowered'?"},
    {"local x = bodice.front.shoulder.lenght", "7: 'shoulder' has no 'lenght' | did you mean 'length'?"},
    {"local x = bodice.front.neck_point:point_at(3)",
     "7: 'neck_point' has no 'point_at' | the words of a point are angle, between, bias, distance, down, "
     "left, "
     "mirror, move, polar, right, swing, toward, up, x and y"},
    {"local a = point(0, 0)\nlocal b = a + 3*cm",
     "8: 'a' is a point, so it cannot be reckoned with | to move a point write a:right(3*cm), or left, up, "
     "down; its numbers are a.x and a.y"},
    {"local b = 3*cm + bodice.front.neck_point",
     "7: 'neck_point' is a point, so it cannot be reckoned with | to move a point write "
     "neck_point:right(3*cm), or left, up, down; its numbers are neck_point.x and neck_point.y"},
    {"local b = 2 * bodice.front.shoulder", "7: 'shoulder' is a path, so it cannot be reckoned with | the "
                                            "number of a path is its length: shoulder.length"},
    {"local x = 3cm", "7: '3cm' is neither a number nor a name | write 3*cm: a number is multiplied by its "
                      "unit"},
    {"local x = 1.5inch", "7: '1.5inch' is neither a number nor a name | write 1.5*inch: a number is "
                          "multiplied by its unit"},
    {"x = 0/0", "7: 'x' is not a number (0/0, or a root of a negative number, somewhere above) | "},
    {"local p = point(\"1 cm\", 2)", "7: point: argument 1 should be a length, got the text \"1 cm\" | "
                                     "inside a recipe write numbers with a unit: 14*cm, 5/8*inch"},
    {"local l = \"14 cm\" + 1", "7: '14 cm' is a text, so it cannot be reckoned with | "
                                "inside a recipe write numbers with a unit: 14*cm, 5/8*inch"},
    {"local p = point(1, 2, 3)", "7: point takes at most 2 arguments, got 3 | "},
    {"local p = point(0, 0):bias(\"dwon\", \"left\")",
     "7: bias: argument 1 should be \"up\" or \"down\", got the text \"dwon\" | did you mean \"down\"?"},
    {"local l = bodice.front.centre:offset(10*cm, \"up\")",
     "7: offset: 'centre' runs upright, so \"up\" is neither of its "
     "sides | its sides are \"left\" and \"right\" there"},
    {"local l = bodice.front.centre:offset(-1*cm, \"left\")",
     "7: offset: a distance is not negative, got -1.0 cm | say the other side instead"},
    {"local p = point(0, 0)\np.x = 3",
     "8: a point is never changed: make a new one and name it on a draft | "},
    {"local t = {}\nlocal x = t.a.b", "8: 'a' has no value (nil), so nothing can be read from it | "},
    {"local x = math.sqrt({})", "7: sqrt: argument 1: number expected, got table | "},
    {"local a, b, c = point(0, 0), point(100, 0), point(50, 80)\n"
     "local p = piece(\"P\", { a = line(a, b), b = line(b, c), c = line(c, point(0, 32)) })",
     "8: the outline of 'P' is open by 3.2 cm between 'c' and 'a' | each edge should end where the next "
     "begins"},
    {"local p = piece(\"P\", { fold = line(point(0, 0), point(1, 1)) })",
     "7: 'fold' is a word of pieces; choose another name for the edge | "},
    {"sew(\"neck\", bodice.front.neckline, bodice.back.neckline)",
     "7: sew: argument 2 should be an edge of a piece, or a list of them, got 'neckline' | "
     "seams join edges of pieces: trace a piece and write piece.edge"},
    {"local x = solve { from = 0, to = 1, wanted = 3, function(x) return x end }",
     "7: solve: no number between 0 and 1 gives 3: 0 gives 0, and 1 gives 1 | "},
    {"refuse(\"the shoulder is too short\", \"a longer one\")",
     "7: the shoulder is too short | a longer one"},
    {"error(\"my own words\")", "7: my own words | "},
    {"for i = 1, 3 do", "5: 'end' expected (to close 'for' at line 7) before the code block ends | "
                        "every code block must be complete by itself"},
    {"local c = curve(point(0, 0), point(1, 1), { leave = \"north\" })",
     "7: curve: leave is no direction: \"north\" | a direction is a number of degrees, or \"up\", \"down\", "
     "\"left\", "
     "\"right\""},
    {"give { bodice = { front = bodice.front } }", "7: give: the bodice has no back | "},
    {"bodice.front:recut(line(point(5, 0), point(10, 10)))",
     "7: recut: the neckline begins 0.5 cm from the centre line | let it begin on the centre line, or on "
     "that line drawn "
     "out upward"},
    {"choose { height = { 10*cm, from = 12*cm, to = 25*cm, \"height\" } }",
     "7: the default of 'height' is 10.0 cm; it should be from 12.0 cm to 25.0 cm | "},
};

Test(error, each_mistake_is_said_in_the_words_of_the_cutter, .timeout = 60) {
    for (size_t i = 0; i < sizeof sayings / sizeof *sayings; i++) {
        const char *said = fault_of(sayings[i].code);
        cr_expect_str_eq(said, sayings[i].fault, "%s: %s", sayings[i].code, said);
    }
}

Test(error, a_block_that_opens_in_one_fence_and_closes_in_another_is_told_at_its_fence) {
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    const Bench bench = {.text = "# R\n\n```lua\nfor i = 1, 2 do\n```\n\n```lua\nend\n```\n",
                         .no_block = true};
    cr_assert_not(bench_run(bench, &pattern, &fault));
    cr_expect_eq(fault.line, 3);
    fault_finish(&fault);
}

Test(error, more_than_200_locals_are_explained) {
    char code[300 * 20] = "";
    for (int i = 0; i < 210; i++)
        snprintf(code + strlen(code), 20, "local v%d = 1\n", i);
    const char *said = fault_of(code);
    cr_expect(strstr(said, "the recipe has more than 200 locals"), "%s", said);
}

Test(error, a_caught_error_leaves_no_trace) {
    cr_expect_str_eq(
        fault_of("local ok = pcall(function() local x = bodice.front.sholder end)\nerror(\"later\")"),
        "8: later | ");
}

typedef struct ValueSaid {
    const char *value;
    int line;
    const char *step, *message, *hint;
} ValueSaid;

// The value stands on line 6, in the step "Rule"; the next step begins on line 14.
static const ValueSaid values[] = {
    {"halff", 6, "Rule", "nothing is called 'halff'", "did you mean 'half'?"},
    {"quartr", 6, "Rule", "nothing is called 'quartr'", "did you mean 'quarter'?"},
    {"half.sholder", 6, "Rule", "nothing is marked 'sholder' on 'Front'", "did you mean 'shoulder'?"},
    {"half", 6, "Rule", "the value 'half' should be a number or text, got 'Front'",
     "a number or text can be filled in: path.length, point.x"},
    {"3cm", 6, "Rule", "'3cm' is neither a number nor a name",
     "write 3*cm: a number is multiplied by its unit"},
    {"(1", 6, "Rule", "')' expected before the value ends", "every value must be complete by itself"},
    {"half +", 6, "Rule", "unexpected symbol near ')'", NULL},
    {"deep()", 11, "Rule", "'none' has no value (nil), so it cannot be reckoned with", NULL},
};

static void value_says(const ValueSaid *said, const char *rest) {
    char text[800];
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    snprintf(text, sizeof text,
             "# R\n\n## Rule\n\nIt comes\nto `= %s`.\n\n```lua\nneeds { bodice = \"a bodice\" }\n"
             "quarter, local_one = 14*cm, 1\nlocal function deep() local none; return none + 1 end\n"
             "local half = bodice.front; local other = deep\n```\n%s",
             said->value, rest);
    cr_assert_not(bench_run((Bench){.text = text}, &pattern, &fault), "%s", said->value);
    cr_expect_eq(fault.line, said->line, "%s: line %d", said->value, fault.line);
    cr_expect_str_eq(fault.step, said->step, "%s: %s", said->value, fault.step);
    cr_expect_str_eq(fault.message, said->message);
    if (said->hint)
        cr_expect_str_eq(fault.hint, said->hint);
    fault_finish(&fault);
}

Test(error, a_value_of_the_prose_is_told_at_its_own_line_and_step) {
    for (size_t i = 0; i < sizeof values / sizeof *values; i++) {
        value_says(&values[i], "");
        value_says(&values[i], "## After\n\nMore.\n\n```lua\nlocal x = 1\n```\n");
    }
}

Test(error, too_much_memory_is_told_at_the_line_that_asked_for_it, .timeout = 30) {
    static const char *const codes[] = {
        "local t = {}\nfor i = 1, 1e9 do\n  t[i] = { i }\nend",
        "local t = {}\nfor i = 1, 1e9 do\n  t[i] = point(i % 7, 1)\nend",
        "local s = \"x\"\nfor i = 1, 60 do\n  s = s .. s\nend",
        "local s = \"x\"\nlocal t = {}\nfor i = 1, 1e9 do t[#t + 1] = s .. i end",
    };
    for (size_t i = 0; i < sizeof codes / sizeof *codes; i++)
        for (int apart = 0; apart < 2; apart++) {
            Pattern pattern = {0};
            Fault fault;
            fault_init(&fault);
            cr_assert_not(bench_run(
                (Bench){.text = bench_recipe(codes[i]), .apart = apart, .limits = {.memory = 8 << 20}},
                &pattern, &fault));
            cr_expect_str_eq(fault.message, "the recipe used more than 8 MB", "%s", codes[i]);
            cr_expect_eq(fault.line, 9, "%s: line %d", codes[i], fault.line);
            cr_expect_str_eq(fault.step, "Bench");
            fault_finish(&fault);
        }
}
