#include "recipe/recipe.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "base/memory.h"
#include "base/text.h"
#include "recipe/source.h"

static Recipe read_as(const char *name, const char *text, size_t length) {
    Recipe recipe = {0};
    Fault fault;
    fault_init(&fault);
    bool fine = recipe_read(name, "trial.md", text, length, &recipe, &fault);
    cr_assert(fine, "line %d: %s", fault.line, fault.message);
    fault_finish(&fault);
    return recipe;
}

static Recipe read_text(const char *text) {
    return read_as("trial", text, strlen(text));
}

static void refused_bytes(const char *text, size_t length, int line, const char *says) {
    Recipe recipe = {.step_count = -7};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(recipe_read("trial", "trial.md", text, length, &recipe, &fault), "not refused: %s", says);
    cr_expect_eq(fault.line, line, "line %d, not %d: %s", fault.line, line, fault.message);
    cr_expect_str_eq(fault.file, "trial.md");
    cr_expect_not_null(strstr(fault.message, says), "%s", fault.message);
    cr_expect(fault.hint && strlen(fault.hint) > 10, "no hint: %s", fault.message);
    cr_expect_eq(recipe.step_count, -7, "the result must be left alone");
    fault_finish(&fault);
}

static void refused(const char *text, int line, const char *says) {
    refused_bytes(text, strlen(text), line, says);
}

static void chunk_line_is(const Recipe *recipe, int line, const char *wanted) {
    size_t length = 0;
    const char *at = text_line(recipe->chunk, line, &length);
    cr_assert_not_null(at, "the chunk has no line %d", line);
    cr_expect(length == strlen(wanted) && memcmp(at, wanted, length) == 0, "line %d: [%.*s], not [%s]", line,
              (int)length, at, wanted);
}

static const char *const funnel = "# Square funnel\n"                         // 1
                                  "\n"                                        // 2
                                  "A soft *funnel* that\n"                    // 3
                                  "slips over `the head`.\n"                  // 4
                                  "\n"                                        // 5
                                  "```lua\n"                                  // 6
                                  "needs { head_girth = \"round\" }\n"        // 7
                                  "```\n"                                     // 8
                                  "\n"                                        // 9
                                  "## Rule the width\n"                       // 10
                                  "\n"                                        // 11
                                  "A quarter is `= quarter`, with `=ease`.\n" // 12
                                  "\n"                                        // 13
                                  "- first\n"                                 // 14
                                  "\n"                                        // 15
                                  "  ```lua\n"                                // 16
                                  "  quarter = 140\n"                         // 17
                                  "    ease = 2\n"                            // 18
                                  "  ```\n"                                   // 19
                                  "\n"                                        // 20
                                  "### A remark\n"                            // 21
                                  "\n"                                        // 22
                                  "## Cut\n"                                  // 23
                                  "\n"                                        // 24
                                  "```text\n"                                 // 25
                                  "not code `= no`\n"                         // 26
                                  "```\n"                                     // 27
                                  "Twice `` = 2 * quarter `` it is.\n";       // 28

Test(recipe, title_summary_and_steps_are_plain_text_on_their_lines) {
    Recipe recipe = read_text(funnel);
    cr_assert_str_eq(recipe.title, "Square funnel");
    cr_assert_str_eq(recipe.summary, "A soft funnel that slips over the head.");
    cr_assert_eq(recipe.line_count, 28);
    cr_assert_eq(recipe.step_count, 2);
    cr_assert_str_eq(recipe.steps[0].title, "Rule the width");
    cr_assert(recipe.steps[0].first_line == 10 && recipe.steps[0].last_line == 22);
    cr_assert(recipe.steps[1].first_line == 23 && recipe.steps[1].last_line == 28);
    cr_assert_str_eq(recipe_step_title(&recipe, 2), "Cut");
    cr_assert_null(recipe_step_title(&recipe, 0));
    cr_assert_null(recipe_step_title(&recipe, 3));
    cr_assert(recipe_step_at(&recipe, 9) == 0 && recipe_step_at(&recipe, 10) == 1);
    cr_assert(recipe_step_at(&recipe, 22) == 1 && recipe_step_at(&recipe, 28) == 2);
    recipe_finish(&recipe);
}

Test(recipe, code_stands_in_the_chunk_on_the_lines_of_the_file) {
    Recipe recipe = read_text(funnel);
    chunk_line_is(&recipe, 1, "");
    chunk_line_is(&recipe, 7, "needs { head_girth = \"round\" }");
    chunk_line_is(&recipe, 10, ";(...)(1);");
    chunk_line_is(&recipe, 17, "quarter = 140");
    chunk_line_is(&recipe, 18, "  ease = 2");
    chunk_line_is(&recipe, 19, "");
    chunk_line_is(
        &recipe, 23,
        ";(...)(-1, function() return (quarter) end);(...)(-2, function() return (ease) end);(...)(2);");
    chunk_line_is(&recipe, 26, "");
    chunk_line_is(&recipe, 29, ";(...)(-3, function() return (2 * quarter) end);(...)(3);");
    cr_assert_eq(strlen(recipe.chunk), recipe.chunk_length);
    recipe_finish(&recipe);
}

Test(recipe, values_know_their_place) {
    Recipe recipe = read_text(funnel);
    cr_assert_eq(recipe.value_count, 3);
    cr_assert_str_eq(recipe.values[0].expression, "quarter");
    cr_assert(recipe.values[0].id == 1 && recipe.values[0].step == 1 && recipe.values[0].line == 12);
    cr_assert_eq(recipe.values[0].column, 15);
    cr_assert_str_eq(recipe.values[1].expression, "ease");
    cr_assert_eq(recipe.values[1].column, 33);
    cr_assert_str_eq(recipe.values[2].expression, "2 * quarter");
    cr_assert(recipe.values[2].step == 2 && recipe.values[2].line == 28);
    for (int i = 0; i < recipe.value_count; i++)
        cr_assert_eq(recipe.blocks[recipe.values[i].block].first_line, recipe.values[i].line);
    recipe_finish(&recipe);
}

Test(recipe, blocks_come_in_order_with_their_markdown) {
    Recipe recipe = read_text(funnel);
    static const struct {
        BlockKind kind;
        int level, first, last, step;
    } wanted[] = {
        {BLOCK_HEADING, 1, 1, 1, 0},   {BLOCK_PROSE, 0, 3, 4, 0},     {BLOCK_CODE, 0, 6, 8, 0},
        {BLOCK_HEADING, 2, 10, 10, 1}, {BLOCK_PROSE, 0, 12, 12, 1},   {BLOCK_OTHER, 0, 14, 19, 1},
        {BLOCK_HEADING, 3, 21, 21, 1}, {BLOCK_HEADING, 2, 23, 23, 2}, {BLOCK_OTHER, 0, 25, 27, 2},
        {BLOCK_PROSE, 0, 28, 28, 2},
    };
    cr_assert_eq(recipe.block_count, (int)(sizeof wanted / sizeof wanted[0]));
    for (int i = 0; i < recipe.block_count; i++) {
        const RecipeBlock *block = &recipe.blocks[i];
        cr_expect(block->kind == wanted[i].kind && block->level == wanted[i].level &&
                      block->first_line == wanted[i].first && block->last_line == wanted[i].last &&
                      block->step == wanted[i].step,
                  "block %d: kind %d, level %d, lines %d to %d, step %d", i, (int)block->kind, block->level,
                  block->first_line, block->last_line, block->step);
    }
    const RecipeBlock *prose = &recipe.blocks[1];
    cr_assert_eq(strncmp(prose->text, "A soft *funnel* that\nslips over `the head`.", prose->length), 0);
    cr_assert_eq(prose->length, strlen("A soft *funnel* that\nslips over `the head`."));
    recipe_finish(&recipe);
}

Test(recipe, fences_are_given_alone_with_their_lines) {
    Recipe recipe = read_text(funnel);
    cr_assert_eq(recipe.fence_count, 2);
    cr_assert(recipe.fences[1].line == 16 && recipe.fences[1].first_line == 17 && recipe.fences[1].step == 1);
    cr_assert_str_eq(recipe.fences[1].code, "quarter = 140\n  ease = 2\n");
    recipe_finish(&recipe);
}

Test(recipe, line_ends_of_any_kind_give_the_same_recipe) {
    Recipe recipe = read_text(funnel);
    size_t length = strlen(funnel);
    char *crlf = mem_new(2 * length + 4), *cr = mem_new(length + 1);
    size_t at = 0;
    memcpy(crlf, "\xEF\xBB\xBF", 3); // and a byte order mark
    at = 3;
    for (size_t i = 0; i < length; i++) {
        if (funnel[i] == '\n')
            crlf[at++] = '\r';
        crlf[at++] = funnel[i];
        cr[i] = funnel[i] == '\n' ? '\r' : funnel[i];
    }
    Recipe other = read_as("trial", crlf, at);
    cr_assert_str_eq(other.chunk, recipe.chunk);
    cr_assert_eq(other.hash, recipe.hash);
    recipe_finish(&other);
    other = read_as("trial", cr, length);
    cr_assert_str_eq(other.chunk, recipe.chunk);
    recipe_finish(&other);
    recipe_finish(&recipe);
    mem_free(crlf);
    mem_free(cr);
}

Test(recipe, fences_in_quotes_lists_and_tabs_keep_their_lines) {
    Recipe recipe =
        read_text("> ```lua\n> a = 1\n>   b = 2\n> ```\n\n1. x\n\n\t~~~ lua\n\tc = 3\n\t\td = 4\n\t~~~\n");
    chunk_line_is(&recipe, 2, "a = 1");
    chunk_line_is(&recipe, 3, "  b = 2");
    size_t length = 0;
    cr_assert_eq(
        strncmp(text_line(recipe.chunk, 9, &length) + strspn(text_line(recipe.chunk, 9, &length), " "),
                "c = 3", 5),
        0);
    cr_assert_not_null(strstr(text_line(recipe.chunk, 10, &length), "d = 4\n"));
    chunk_line_is(&recipe, 12, ";(...)(1);");
    recipe_finish(&recipe);
}

Test(recipe, headings_within_quotes_and_below_level_two_are_no_steps) {
    Recipe recipe = read_text("> ## quoted\n\n### three\n\nUnder\n-----\n\n```lua\nx = 1\n```\n");
    cr_assert_eq(recipe.step_count, 1);
    cr_assert_str_eq(recipe.steps[0].title, "Under");
    cr_assert_eq(recipe.steps[0].first_line, 5);
    cr_assert_str_eq(recipe.title, "trial");
    cr_assert_str_eq(recipe.summary, "");
    recipe_finish(&recipe);
}

Test(recipe, a_value_keeps_its_line_behind_a_code_span_of_two_lines) {
    Recipe recipe =
        read_text("```lua\nx = 1\n```\n\nsome `long\nspan` and `= x`\nmore `= x` and\n> q `= x`\n");
    cr_assert_eq(recipe.value_count, 3);
    cr_assert(recipe.values[0].line == 6 && recipe.values[0].column == 12);
    cr_assert(recipe.values[1].line == 7 && recipe.values[1].column == 7);
    cr_assert(recipe.values[2].line == 8 && recipe.values[2].column == 6);
    recipe_finish(&recipe);
}

Test(recipe, comparisons_in_prose_are_no_values) {
    Recipe recipe = read_text("Lua's `==` and `=>` are prose.\n\n```lua\nx = 1\n```\n");
    cr_assert_eq(recipe.value_count, 0);
    recipe_finish(&recipe);
}

Test(recipe, names_used_are_found_and_nothing_else) {
    Recipe recipe = read_text("```lua\nlocal a = use \"blocks/a\"\nuse('b', { x = 1 })\n-- use \"c\"\n"
                              "s = 'use \"d\"'\nt.use \"e\"\nt:use(\"f\")\nuse(name)\nuse [[g]]\nuse(\"b\")\n"
                              "x = s .. use(\"h\")\nuse(\"i\" .. j)\nuser \"k\"\nuse \"a\\98\"\n```\n");
    static const struct {
        const char *name;
        int line;
    } wanted[] = {{"blocks/a", 2}, {"b", 3}, {"g", 9}, {"h", 11}, {"i", 12}};
    cr_assert_eq(recipe.use_count, 5);
    for (int i = 0; i < 5; i++) {
        cr_expect_str_eq(recipe.uses[i].name, wanted[i].name);
        cr_expect_eq(recipe.uses[i].line, wanted[i].line);
    }
    recipe_finish(&recipe);
}

Test(recipe, keys_are_found_in_the_authors_order) {
    Recipe recipe =
        read_text("```lua\nheight = 1\nneeds {\n  -- ease = 1\n  b = \"height = 3\", [\"ease\"] = 2,\n"
                  "  height = { 10 }, a = x == 1,\n}\n```\n");
    long b = recipe_name_order(&recipe, 3, "b"), ease = recipe_name_order(&recipe, 3, "ease");
    long height = recipe_name_order(&recipe, 3, "height"), a = recipe_name_order(&recipe, 3, "a");
    cr_assert(0 < b && b < ease && ease < height && height < a);
    cr_assert_eq(strncmp(recipe.chunk + height, "height = { 10 }", 15), 0);
    cr_assert_lt(recipe_name_order(&recipe, 1, "height"), b);
    cr_assert_eq(recipe_name_order(&recipe, 1, "x"), -1);
    cr_assert_eq(recipe_name_line(&recipe, 1, "height"), 2);
    cr_assert_eq(recipe_name_line(&recipe, 3, "height"), 6);
    cr_assert_eq(recipe_name_line(&recipe, 1, "x"), 0);
    recipe_finish(&recipe);
}

Test(recipe, a_fence_is_whole_when_it_closes_what_it_opens) {
    static const struct {
        const char *code;
        bool whole;
    } rows[] = {{"for i = 1, 3 do x(i) end", true},
                {"if a then b() elseif c then d() else e() end", true},
                {"repeat f() until g", true},
                {"local function f() return { 1, (2) } end", true},
                {"s = 'do (' -- if {", true},
                {"for i = 1, 3 do", false},
                {"end", false},
                {"f(1", false},
                {"end do", false},
                {"s = [[long]]", false},
                {"s = 'a\\z", false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const RecipeFence fence = {.code = rows[i].code};
        cr_expect_eq(recipe_fence_is_whole(&fence), rows[i].whole, "%s", rows[i].code);
    }
}

Test(recipe, what_it_needs_is_read_without_running_it) {
    Recipe recipe = read_text("```lua\nneeds {\n  bodice = \"any bodice\", size = { \"x\", inner = 1 },\n}\n"
                              "-- needs { comment = 1 }\nt.needs { field = 1 }\nneeds({ more = \"y\" })\n"
                              "give { given = 1 }\nx = { other = 1 }\n```\n");
    cr_expect(recipe_needs(&recipe, "bodice") && recipe_needs(&recipe, "size") &&
              recipe_needs(&recipe, "more"));
    cr_expect(!recipe_needs(&recipe, "inner") && !recipe_needs(&recipe, "comment") &&
              !recipe_needs(&recipe, "field"));
    cr_expect(!recipe_needs(&recipe, "given") && !recipe_needs(&recipe, "other"));
    recipe_finish(&recipe);
}

// The test value of the IETF draft on FNV (draft-eastlake-fnv): "foobar".
Test(recipe, the_hash_is_fnv_1a) {
    cr_assert_eq(source_hash("foobar", 6), 0x85944171f73967e8u);
    cr_assert_eq(source_hash("", 0), 0xcbf29ce484222325u);
}

Test(recipe, mistakes_are_named_with_their_line) {
    refused("# T\n\nprose\n", 0, "no code");
    refused("", 0, "no code");
    refused("x\n\n```lua\na = 1\n", 3, "not closed");
    refused("- x\n\n  ```lua\n  a = 1\n\nafter\n", 3, "not closed");
    refused("```lua\na = 1\n~~~\n", 1, "not closed");
    refused("```lua\na = 1\n```\n\nxx `=` y\n", 5, "nothing to show");
    refused("```lua\na = 1\n```\n\nxx `=   ` y\n", 5, "nothing to show");
    refused("```lua\na = 1\n```\n\nxx `= a -- b` y\n", 5, "\"--\"");
    refused("```lua\na = 1\n```\n\nxx `= a +\n b` y\n", 5, "end of a line");
    refused_bytes("a\nb\0c\n", 6, 2, "zero byte");
    refused_bytes("a\r\nb\r\n\xC3(\n", 9, 3, "not UTF-8");
    refused_bytes("a\n\xFE", 3, 2, "not UTF-8");
}

// Hostile files: each must be answered in a time that grows with its length alone.
static void answered_soon(const char *start, const char *piece, const char *end, size_t bytes) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, start);
    while (text.length + strlen(piece) + strlen(end) <= bytes)
        buffer_add_text(&text, piece);
    buffer_add_text(&text, end);
    Recipe recipe = {0};
    Fault fault;
    fault_init(&fault);
    clock_t before = clock();
    bool fine = recipe_read("trial", "trial.md", text.data, text.length, &recipe, &fault);
    double seconds = (double)(clock() - before) / CLOCKS_PER_SEC;
    cr_expect_lt(seconds, 20.0, "[%s] took %.1f s", piece, seconds); // under a second without a sanitizer
    cr_expect(fine || fault.message);
    recipe_finish(&recipe);
    fault_finish(&fault);
    buffer_finish(&text);
}

Test(recipe, hostile_files_are_answered_in_bounded_time) {
    static const char *const pieces[] = {
        ">",         "> ",     "- ",        "* a\n",       "1) ",
        "[",         "![",     "![[]()",    "](",          "[a](",
        "*a_ ",      "**x",    "`",         "`a\n",        "<!--",
        "<a ",       "&",      "## a\n",    "# a\n",       "\n",
        "- x\n\n",   "`= a` ", "`= a`\n\n", "```lua\n",    "~~~lua\nx=1\n~~~\n",
        "\t",        "=",      "-",         "\\",          "[a]: b\n\n",
        "    a\n\n", "a\r",    "1. \n",     "use \"a\"\n", "`= ",
        "_*",
    };
    const char *code = "```lua\na = 1\n```\n\n";
    for (size_t i = 0; i < sizeof pieces / sizeof pieces[0]; i++) {
        answered_soon(code, pieces[i], "\n", RECIPE_BYTES_MOST);
        answered_soon("", pieces[i], "\n\n```lua\na = 1\n```\n", RECIPE_BYTES_MOST / 8);
    }
    answered_soon(code, "[]()", "", RECIPE_BYTES_MOST);
    answered_soon("```lua\na=1\n```\n\n- - - - - - - - - - - - - - - - - - - - - - - - - - a\n", "\n", "x",
                  RECIPE_BYTES_MOST);
}

static void refused_many(const char *start, const char *piece, int count, int line, const char *says) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, start);
    for (int i = 0; i < count; i++)
        buffer_add_text(&text, piece);
    refused(text.data, line, says);
    buffer_finish(&text);
}

Test(recipe, what_is_too_much_is_refused_where_it_becomes_so) {
    const char *code = "```lua\na = 1\n```\n";
    refused_many(code, ">", 101, 4, "nested");
    refused_many("```lua\n```\n", "## a\n", 201, 203, "200 steps");
    refused_many(code, "`= a`\n\n", 1001, 2004, "1000 values");
    refused_many(code, "![", 1001, 4, "1000 pictures");
    refused_many(code, "aaaaaaaaaaaaaaaa", 65536, 0, "1 MB");
    refused_many("```lua\n", "a = 1234567890\n", 5000, 1, "not closed");
    refused_many(code, "```lua\na = 1234567890123456789012345678901234567890123456789\n```\n", 1400, 3643,
                 "64 KB");
}

Test(recipe, a_chunk_of_the_longest_file_has_its_lines) {
    Buffer text;
    buffer_init(&text);
    buffer_add_text(&text, "```lua\na = 1\n```\n");
    for (int i = 0; i < 100000; i++)
        buffer_add_text(&text, "### x\n");
    Recipe recipe = read_as("trial", text.data, text.length);
    cr_assert_eq(recipe.line_count, 100003);
    cr_assert_eq(recipe.block_count, 100001);
    chunk_line_is(&recipe, 100004, ";(...)(1);");
    recipe_finish(&recipe);
    buffer_finish(&text);
}

Test(recipe, what_it_chooses_is_read_without_running_it) {
    Recipe recipe =
        read_text("```lua\nneeds { size = \"x\" }\nchoose {\n  height = { 4, from = 1, \"y\" },\n}\n"
                  "use(\"./other\", { width = 1 })\n```\n");
    cr_expect(recipe_chooses(&recipe, "height"));
    cr_expect(!recipe_chooses(&recipe, "size") && !recipe_chooses(&recipe, "from") &&
              !recipe_chooses(&recipe, "width"));
    recipe_finish(&recipe);
}
