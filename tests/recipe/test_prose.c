#include "recipe/prose.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "base/buffer.h"

#define CODE "\n\n```lua\nx = 1\n```\n"

// The prose of a text as one line of marks, to be read at a glance: p( ) a paragraph, li( ) an item, *x* what
// is emphasised, [x](where) a link.
static void write_spans(SpanList spans, Buffer *out) {
    for (int i = 0; i < spans.count; i++) {
        const Span *span = &spans.items[i];
        const char *mark = span->style & SPAN_VALUE      ? "="
                           : span->style & SPAN_CODE     ? "`"
                           : span->style & SPAN_STRONG   ? "**"
                           : span->style & SPAN_EMPHASIS ? "*"
                                                         : "";
        const char *text = strcmp(span->text, "\n") == 0 ? "/" : span->text;
        if (span->link)
            buffer_add_format(out, "[%s%s%s](%s)", mark, text, mark, span->link);
        else
            buffer_add_format(out, "%s%s%s", mark, text, mark);
    }
}

static void write_prose(const Prose *prose, int count, Buffer *out) {
    static const char *const names[] = {
        [PROSE_HEADING] = "h", [PROSE_PARAGRAPH] = "p", [PROSE_LIST] = "ul",    [PROSE_ITEM] = "li",
        [PROSE_QUOTE] = "q",   [PROSE_CODE] = "code",   [PROSE_RULE] = "hr",    [PROSE_TABLE] = "table",
        [PROSE_ROW] = "tr",    [PROSE_CELL] = "td",     [PROSE_PICTURE] = "img"};
    for (int i = 0; i < count; i++) {
        const Prose *at = &prose[i];
        buffer_add_text(out, at->kind == PROSE_LIST && at->ordered ? "ol" : names[at->kind]);
        if (at->kind == PROSE_HEADING)
            buffer_add_format(out, "%d", at->level);
        if (at->kind == PROSE_LIST && at->start != 1)
            buffer_add_format(out, "%d", at->start);
        buffer_add_char(out, '(');
        if (at->text)
            buffer_add_format(out, "%s%s", at->text, at->spans.count ? ":" : "");
        write_spans(at->spans, out);
        write_prose(at->items, at->count, out);
        buffer_add_char(out, ')');
    }
}

static const char *fill(void *context, int line, int column) {
    static char text[32];
    if (context)
        return NULL;
    snprintf(text, sizeof text, "%d,%d", line, column);
    return text;
}

static void told(const char *text, void *context, const char *wanted) {
    Buffer source, found;
    Recipe recipe = {0};
    Fault fault;
    Arena arena;
    const Prose *prose;
    buffer_init(&source);
    buffer_init(&found);
    fault_init(&fault);
    arena_init(&arena);
    buffer_add_format(&source, "%s" CODE, text);
    cr_assert(recipe_read("trial", "trial.md", source.data, source.length, &recipe, &fault), "%s",
              fault.message);
    const int count = prose_read(&recipe, fill, context, &arena, &prose);
    cr_assert(count > 0 && prose[count - 1].kind == PROSE_CODE && prose[count - 1].runs);
    write_prose(prose, count - 1, &found);
    cr_expect_str_eq(found.data, wanted);
    arena_finish(&arena);
    recipe_finish(&recipe);
    fault_finish(&fault);
    buffer_finish(&source);
    buffer_finish(&found);
}

static void reads(const char *text, const char *wanted) {
    told(text, NULL, wanted);
}

Test(prose, paragraphs_keep_their_marks) {
    reads("A *soft* funnel that **slips** over\nthe `head`, and ***both***.",
          "p(A *soft* funnel that **slips** over the `head`, and **both**.)");
}

Test(prose, a_hard_break_is_kept_and_a_line_end_is_a_blank) {
    reads("one  \ntwo\nthree", "p(one/two three)");
}

Test(prose, headings_lists_quotes_and_rules_nest) {
    reads("# Name\n\n## Step\n\n3. one\n4. two\n   - inner\n\n> quoted\n\n---",
          "h1(Name)h2(Step)ol3(li(p(one))li(p(two)ul(li(p(inner)))))q(p(quoted))hr()");
}

Test(prose, every_value_is_filled_by_its_place_in_the_file) {
    reads("Half is `= a`, and `= b`.\n\n- item `= c`", "p(Half is =1,10=, and =1,21=.)ul(li(p(item =3,9=)))");
}

Test(prose, a_value_that_was_not_filled_shows_its_expression) {
    told("Half is `= a`.", "none", "p(Half is =a=.)");
}

Test(prose, what_only_looks_like_a_value_is_code) {
    reads("`== a` and `=> b`", "p(`== a` and `=> b`)");
}

// Which addresses a click may lead to.
Test(prose, only_pages_letters_and_places_in_the_booklet_are_linked) {
    reads("[a](https://example.org/x) [b](HTTP://example.org) [c](mailto:a@example.org) [d](#step)",
          "p([a](https://example.org/x) [b](HTTP://example.org) [c](mailto:a@example.org) [d](#step))");
    reads(
        "[a](javascript:alert(1)) [b](data:text/html,x) [c](file:///etc/passwd) [d](//example.org) [e](x.md)",
        "p(a b c d e)");
    reads("[a](java&#10;script:alert(1)) [b](<https://example.org/a b>) [c](https://example.org/&quot;x)",
          "p(a b c)");
    reads("<https://example.org/> and <javascript:alert(1)>",
          "p([https://example.org/](https://example.org/) and javascript:alert(1))");
}

Test(prose, raw_html_is_text_and_a_comment_is_nothing) {
    reads("A <b onclick=\"x()\">bold</b> word", "p(A `<b onclick=\"x()\">`bold`</b>` word)");
    reads("<script>alert(1)</script>", "code(<script>alert(1)</script>\n)");
    reads("<!-- for the author -->\n\nshown <!-- not this --> here", "p(shown  here)");
    reads("<!-- a --> <script>x</script>", "code(<!-- a --> <script>x</script>\n)");
}

Test(prose, pictures_stand_behind_their_paragraph) {
    reads("See ![the *stand*](stand.png) here.", "p(See  here.)img(stand.png:the stand)");
    reads("![](a.jpg)", "img(a.jpg)");
}

// GitHub Flavored Markdown, section 4.10.
Test(prose, tables_are_read_by_their_bars) {
    reads("| neck | width |\n|---|--:|\n| fifth | *7* cm |\n| sixth |",
          "table(tr(td(neck)td(width))tr(td(fifth)td(*7* cm))tr(td(sixth)td()))");
    reads("neck | width\n--- | ---\n | 7 | too much", "table(tr(td(neck)td(width))tr(td(7)td(too much)))");
    reads("one | two\nthree | four", "p(one | two three | four)");
    reads("| a |\n|---|\n| `x|y` `= z` |", "table(tr(td(a))tr(td(`x|y` =3,10=)))");
}

// Columns times lines, the ruled one too, are 100 000 at most.
static ProseKind kind_of_table(int columns, int rows) {
    Buffer text;
    Recipe recipe = {0};
    Fault fault;
    Arena arena;
    const Prose *prose;
    buffer_init(&text);
    fault_init(&fault);
    arena_init(&arena);
    for (int row = -1; row < rows; row++) {
        for (int i = 0; i < (row < 1 ? columns : 1); i++)
            buffer_add_format(&text, "%s%s", i ? "|" : "", row == 0 ? "-" : "a");
        buffer_add_text(&text, row < 1 ? "\n" : "|\n");
    }
    buffer_add_text(&text, CODE);
    cr_assert(recipe_read("trial", "trial.md", text.data, text.length, &recipe, &fault), "%s", fault.message);
    cr_assert_eq(prose_read(&recipe, fill, NULL, &arena, &prose), 2);
    const ProseKind kind = prose[0].kind;
    arena_finish(&arena);
    recipe_finish(&recipe);
    fault_finish(&fault);
    buffer_finish(&text);
    return kind;
}

Test(prose, a_table_of_more_cells_than_anyone_reads_stays_prose) {
    cr_expect_eq(kind_of_table(500, 199), PROSE_TABLE);
    cr_expect_eq(kind_of_table(500, 200), PROSE_PARAGRAPH);
    cr_expect_eq(kind_of_table(3, 2000), PROSE_TABLE);
}

Test(prose, the_column_of_a_table_may_be_aligned_to_the_right) {
    Recipe recipe = {0};
    Fault fault;
    Arena arena;
    const Prose *prose;
    fault_init(&fault);
    arena_init(&arena);
    static const char text[] = "| a | b |\n|:--|--:|\n| 1 | 2 |" CODE;
    cr_assert(recipe_read("trial", "trial.md", text, sizeof text - 1, &recipe, &fault));
    cr_assert_eq(prose_read(&recipe, NULL, NULL, &arena, &prose), 2);
    cr_expect_not(prose[0].items[1].items[0].number);
    cr_expect(prose[0].items[1].items[1].number);
    arena_finish(&arena);
    recipe_finish(&recipe);
    fault_finish(&fault);
}

static void in_language(const char *text, const char *wanted) {
    Buffer source;
    Recipe recipe = {0};
    Fault fault;
    Arena arena;
    buffer_init(&source);
    fault_init(&fault);
    arena_init(&arena);
    buffer_add_format(&source, "%s" CODE, text);
    cr_assert(recipe_read("trial", "trial.md", source.data, source.length, &recipe, &fault));
    const char *tag = prose_stated(&recipe, "language", &arena);
    cr_expect(wanted ? tag && strcmp(tag, wanted) == 0 : !tag, "[%s]: %s", text, tag ? tag : "none");
    arena_finish(&arena);
    recipe_finish(&recipe);
    fault_finish(&fault);
    buffer_finish(&source);
}

Test(prose, a_recipe_may_state_its_language) {
    in_language("<!-- language: de -->\n\n# Kragen", "de");
    in_language("# Kragen\n\n<!--language:pt-BR-->", "pt-BR");
    in_language("# Collar", NULL);
    in_language("<!-- language: -->", NULL);
    in_language("<!-- language: de\" onload=\"x -->", NULL);
    in_language("```\n<!-- language: de -->\n```", NULL);
}

// Marks nested without end must not fill the stack, and what a stranger sends must not take for ever.
Test(prose, marks_nested_without_end_are_read, .timeout = 20) {
    Buffer text;
    buffer_init(&text);
    for (int i = 0; i < 20000; i++)
        buffer_add_text(&text, i % 2 ? "*a **b " : "_c __d ");
    for (int i = 0; i < 20000; i++)
        buffer_add_text(&text, i % 2 ? " b** a*" : " d__ c_");
    buffer_add_text(&text, CODE);
    Recipe recipe = {0};
    Fault fault;
    Arena arena;
    const Prose *prose;
    fault_init(&fault);
    arena_init(&arena);
    cr_assert(recipe_read("trial", "trial.md", text.data, text.length, &recipe, &fault));
    cr_expect_gt(prose_read(&recipe, NULL, NULL, &arena, &prose), 0);
    arena_finish(&arena);
    recipe_finish(&recipe);
    fault_finish(&fault);
    buffer_finish(&text);
}
