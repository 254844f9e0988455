#include "booklet/compose.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "booked.h"

typedef void Visit(const Book *book, const BookBlock *block, void *context);

static void walk(const Book *book, const BookBlock *blocks, int count, Visit *visit, void *context) {
    for (int i = 0; i < count; i++) {
        visit(book, &blocks[i], context);
        walk(book, blocks[i].items, blocks[i].count, visit, context);
    }
}

static void add_text(const Book *book, const BookBlock *block, void *context) {
    (void)book;
    for (int i = 0; i < block->spans.count; i++)
        buffer_add_text(context, block->spans.items[i].text);
    if (block->spans.count)
        buffer_add_char(context, '\n');
    for (int i = 0; block->table && i < block->table->row_count * block->table->column_count; i++) {
        for (int k = 0; k < block->table->cells[i].spans.count; k++)
            buffer_add_text(context, block->table->cells[i].spans.items[k].text);
        buffer_add_char(context, (i + 1) % block->table->column_count ? '\t' : '\n');
    }
}

static bool has_text(const Booked *b, const char *text) {
    Buffer all;
    buffer_init(&all);
    walk(&b->book, b->book.blocks, b->book.count, add_text, &all);
    const bool has = strstr(all.data, text);
    buffer_finish(&all);
    return has;
}

#define EXPECT_TEXT(b, text) cr_expect(has_text(b, text), "missing: %s", text)

static int entry_of(const Book *book, const char *title) {
    for (int i = 0; i < book->entry_count; i++)
        if (strcmp(book->entries[i].title, title) == 0)
            return i;
    cr_expect(false, "no section %s", title);
    return -1;
}

Test(compose, the_order_is_that_of_a_lesson) {
    Booked b;
    booked("flat/peter-pan", NULL, NULL, NULL, &b);
    const Book *book = &b.book;
    cr_assert_eq(book->blocks[0].role, ROLE_FRONT);
    cr_assert_eq(book->blocks[1].role, ROLE_CONTENTS);
    const char *const order[] = {"Draft it, step by step", "Decide the neckline",
                                 "Draw the neck edge",     "Trace front and back",
                                 "Cut the pieces",         "Sew it",
                                 "What was proven",        "The block under it: Close-fitting bodice block",
                                 "To draft it again"};
    for (size_t i = 1; i < sizeof order / sizeof *order; i++)
        cr_expect_lt(entry_of(book, order[i - 1]), entry_of(book, order[i]), "%s, %s", order[i - 1],
                     order[i]);
    booked_finish(&b);
}

Test(compose, a_recipe_used_inside_is_told_in_the_step_that_used_it) {
    Booked b;
    booked(TRIAL("kragen.md"), NULL, NULL, NULL, &b);
    const BookEntry *entries = b.book.entries;
    const int used = entry_of(&b.book, "Trace front and back");
    cr_assert_gt(used, 0);
    cr_expect_str_eq(entries[used - 1].title, "Das Oberteil schneiden");
    cr_expect_eq(entries[used].depth, entries[used - 1].depth + 1);
    Buffer number;
    buffer_init(&number);
    buffer_add_format(&number, "%s.1", entries[used - 1].number);
    cr_expect_str_eq(entries[used].number, number.data);
    buffer_finish(&number);
    booked_finish(&b);
}

Test(compose, a_recipe_used_again_is_told_in_the_step_that_used_it_again) {
    Booked b;
    booked(TRIAL("twice.md"), NULL, NULL, NULL, &b);
    const int again = entry_of(&b.book, "Once more: Round neckline, eased");
    cr_assert_gt(again, 0);
    cr_expect_str_eq(b.book.entries[again - 1].title, "Lower it again");
    EXPECT_TEXT(&b, "As told before in Round neckline, eased, here with these numbers.");
    booked_finish(&b);
}

Test(compose, measurements_choices_and_sizes_stand_on_the_front) {
    Booked b;
    booked("bands/mandarin", NULL, "height=4cm", NULL, &b);
    EXPECT_TEXT(&b, "bust girth\t88.0 cm\t");
    EXPECT_TEXT(&b, "height\t4.0 cm (chosen)\t");
    EXPECT_TEXT(&b, "Opening over the head\t");
    booked_finish(&b);
}

// 40 cm and twice the slit of 10 cm; the recipe without that step has the rows that its names let guess.
Test(compose, the_finished_sizes_are_those_the_recipe_tells) {
    Booked b;
    booked("bands/mandarin", NULL, "height=4cm", NULL, &b);
    EXPECT_TEXT(&b, "Height at the front end\t3.7 cm\nTop edge, end to end\t");
    cr_expect_not(has_text(&b, "base length\t"));
    for (int i = 0; i < b.book.entry_count; i++)
        cr_expect_str_neq(b.book.entries[i].title, "Finished sizes", "is no step");
    booked_finish(&b);
    booked(TRIAL("band.md"), NULL, NULL, NULL, &b);
    EXPECT_TEXT(
        &b,
        "length\t20.0 cm\nSlit or fastening, below the neckline\t10.0 cm\nOpening over the head\t60.0 cm\n");
    booked_finish(&b);
}

Test(compose, a_seam_names_the_edges_of_both_its_sides) {
    Booked b;
    booked("flat/peter-pan", NULL, NULL, NULL, &b);
    EXPECT_TEXT(&b,
                "Neckline of Back and Front, 20.5 cm, on to neck of Upper collar, 20.2 cm. "
                "The edge of Back and Front is 0.3 cm longer: ease it in, or stretch the other on to it.");
    booked_finish(&b);
}

// The V turns at its point, its facing with it: both pieces have a dot there.
// The ring of the neckband is one strip, its ends sewn together.
Test(compose, a_seam_of_a_piece_to_itself_is_told_once) {
    Booked b;
    booked("bands/rib", NULL, NULL, NULL, &b);
    EXPECT_TEXT(&b, "Centre back of Neckband, both edges, 4.0 cm each. No ease.");
    booked_finish(&b);
}

Test(compose, a_corner_in_a_seam_counts) {
    Booked b;
    booked("necklines/v", NULL, NULL, NULL, &b);
    EXPECT_TEXT(&b, "1 corner to pivot at");
    booked_finish(&b);
}

Test(compose, names_of_the_booklet_may_be_names_of_the_recipe) {
    Booked b;
    booked(TRIAL("names.md"), NULL, NULL, NULL, &b);
    for (int i = 0; i < b.book.entry_count; i++)
        for (int k = 0; k < i; k++)
            cr_expect_str_neq(b.book.entries[i].anchor, b.book.entries[k].anchor);
    has(&b, "<a href=\"#cloth-2\">the cloth</a>");
    has_not(&b, "href=\"#finished-sizes\""); // told on the front, which has no name
    EXPECT_TEXT(&b, "Seam: collar over neck");
    cr_expect_not(has_text(&b, "{1}"));
    booked_finish(&b);
}

Test(compose, an_age_is_told_as_one_says_it) {
    Booked b;
    booked("necklines/envelope", NULL, "age=1.98 years", NULL, &b);
    EXPECT_TEXT(&b, "\t23 months\t");
    booked_finish(&b);
}

// By hand: the ends of the band are straight (1), its lower seam is curved and eased (3), the collar is cut
// twice on the bias (2), the slit makes 2 more.
Test(compose, how_hard_it_is_is_counted_from_the_seams) {
    Booked b;
    booked(TRIAL("band.md"), NULL, NULL, NULL, &b);
    EXPECT_TEXT(&b, "Easy: 2 pieces, 2 seams, 1 of them curved, 1 with ease, 1 piece on the bias, a slit.");
    EXPECT_TEXT(&b, "Points here: 8;");
    booked_finish(&b);
}

// 0.1 mm and 2 mm, divided by 25.4.
Test(compose, in_inches_cloth_is_measured_in_thousandths_and_ease_in_inches) {
    Booked b;
    booked_inches("flat/peter-pan", NULL, &b);
    EXPECT_TEXT(&b, "cloth\t0.020 in\t0.004 in to 0.079 in\t");
    EXPECT_TEXT(&b, "one more where 5/64 in or more is eased in");
    booked_finish(&b);
}

// The square of the recipe is 10 cm, its allowances 1 cm all round: 12 cm by 12 cm, 144 cm2.
Test(compose, the_cutting_list_measures_what_is_cut) {
    Booked b;
    booked(TRIAL("hostile.md"), NULL, NULL, NULL, &b);
    EXPECT_TEXT(&b, "main cloth\t144 cm\u00B2\t");
    EXPECT_TEXT(&b, "12.0 cm\u00A0\u00D7\u00A012.0 cm");
    EXPECT_TEXT(&b, "no lay is worked out here");
    booked_finish(&b);
}

Test(compose, a_failed_proof_stands_on_the_front_in_its_step_and_among_the_proofs) {
    Booked b;
    booked(TRIAL("hostile.md"), NULL, NULL, NULL, &b);
    int notices = 0;
    const BookBlock *front = &b.book.blocks[0];
    for (int i = 0; i < front->count; i++)
        notices += front->items[i].kind == BOOK_NOTICE && front->items[i].tone == TONE_FAILED;
    cr_expect_eq(notices, 1);
    EXPECT_TEXT(
        &b, "The <b>square</b> is small: 10.0 cm; wanted at most 5.0 cm. A way out: make it <i>smaller</i>.");
    EXPECT_TEXT(&b, "the <b>square</b> is small\t10.0 cm\tat most 5.0 cm\tdoes not hold");
    booked_finish(&b);
}

// Its only warning is of a step without words.
Test(compose, a_warning_of_no_step_stands_under_the_title) {
    Booked b;
    booked(TRIAL("teaching.md"), NULL, NULL, NULL, &b);
    const char *front = strstr(b.html.data, "<section class=\"front\">"), *figure = strstr(front, "<figure>");
    const char *warning = strstr(front, "class=\"notice warning\"");
    cr_expect(warning && warning < figure);
    booked_finish(&b);
}

Test(compose, what_it_takes_to_draft_it_again_is_there) {
    Booked b;
    booked("bands/mandarin", NULL, "height=4cm", NULL, &b);
    has(&b, "rebato draft bands/mandarin --block blocks/close-fitting --body trial.txt --set height=40mm\n");
    has(&b, "bust_girth = 880 mm\n");
    for (int i = 0; i < b.pattern.chapters.count; i++)
        has(&b, b.pattern.chapters.items[i].hash);
    booked_finish(&b);
}

Test(compose, where_a_file_lies_is_not_told) {
    Booked b;
    booked(TRIAL("kragen.md"), NULL, NULL, NULL, &b);
    has(&b, "rebato draft kragen.md --block blocks/close-fitting");
    has_not(&b, TESTS_DIR);
    booked_finish(&b);
}

Test(compose, code_is_shown_only_where_it_is_asked_for) {
    Booked plain, coded;
    const ComposeOptions options = {
        .with_code = true, .paper_width = 210, .paper_height = 297, .version = "0.0.0"};
    booked("bands/mandarin", NULL, NULL, NULL, &plain);
    booked("bands/mandarin", NULL, NULL, &options, &coded);
    has_not(&plain, "local ");
    has(&coded, "local ");
    has(&coded, "<pre><code>needs {");
    booked_finish(&plain);
    booked_finish(&coded);
}

Test(compose, a_recipe_that_teaches_the_language_may_show_its_code) {
    Booked b;
    booked(TRIAL("teaching.md"), NULL, NULL, NULL, &b);
    has(&b, "paper.A = point(0, 0)");
    has_not(&b, "local function traced"); // of a recipe it uses
    booked_finish(&b);
}

Test(compose, the_words_are_in_the_language_that_is_asked_for) {
    Booked b;
    const ComposeOptions german = {
        .language = language_find("de"), .paper_width = 210, .paper_height = 297, .version = "0.0.0"};
    booked("bands/mandarin", NULL, NULL, &german, &b);
    cr_expect_str_eq(b.book.prose_language, "en");
    EXPECT_TEXT(&b, "Brustumfang\t88,0 cm\t");
    has(&b, "<html lang=\"de\">");
    has(&b, "<p lang=\"en\">");
    has_not(&b, "Seam allowance");
    booked_finish(&b);
}

Test(compose, the_language_of_the_recipe_is_kept_and_written_its_own_way) {
    Booked b;
    booked(TRIAL("commonmark.md"), NULL, NULL, NULL, &b);
    cr_expect_str_eq(b.book.prose_language, "ar");
    has(&b, "<html lang=\"en\">");
    has(&b, "<h1 lang=\"ar\" dir=\"rtl\">");
    booked_finish(&b);
}

// Its own words and the program's are German; those of the recipe it uses are English, and said to be so.
Test(compose, a_recipe_that_states_its_language_has_the_words_in_it) {
    Booked b;
    booked(TRIAL("kragen.md"), NULL, NULL, NULL, &b);
    has(&b, "<html lang=\"de\">");
    has(&b, "<p>Ein gerader Steg am runden Ausschnitt");
    has(&b, "<span class=\"value\">17,6\u00A0cm</span>");
    has(&b, "<p lang=\"en\">Trace round each half");
    const BookBlock *sewing = NULL;
    for (int i = 0; i < b.book.count; i++)
        if (b.book.blocks[i].role == ROLE_SEWING)
            sewing = &b.book.blocks[i];
    cr_assert(sewing && sewing->count > 2);
    cr_expect_eq(sewing->items[1].kind, BOOK_LIST, "the order of sewing stands first");
    EXPECT_TEXT(&b, "Gr\u00F6\u00DFtes Teil");
    booked_finish(&b);
}

// What show() wrote, in a value, a remark and the text of a choice.
Test(compose, measures_within_the_sentences_of_a_recipe_are_written_as_its_language_does) {
    Booked b;
    booked(TRIAL("kragen.md"), NULL, NULL, NULL, &b);
    EXPECT_TEXT(&b, "\u00FCblich 2,5 cm bis 4,0 cm");
    EXPECT_TEXT(&b, "2,5 mm bis 0,3 cm");
    EXPECT_TEXT(&b, "das kann um 12,5 mm schwanken");
    booked_finish(&b);
}

Test(compose, a_language_without_words_is_told) {
    Booked b;
    booked(TRIAL("commonmark.md"), NULL, NULL, NULL, &b);
    cr_expect_not_null(strstr(b.notes.data, "no words for the language 'ar': there are en, de, es, fr\n"),
                       "%s", b.notes.data);
    booked_finish(&b);
    const ComposeOptions german = {
        .language = language_find("de"), .paper_width = 210, .paper_height = 297, .version = "0.0.0"};
    booked(TRIAL("commonmark.md"), NULL, NULL, &german, &b);
    cr_expect_null(strstr(b.notes.data, "no words"), "the reader chose one");
    booked_finish(&b);
}

Test(compose, a_recipe_without_steps_or_pieces_has_a_booklet) {
    Booked b;
    booked(TRIAL("no-steps.md"), NULL, NULL, NULL, &b);
    has(&b, "<h1>");
    has(&b, "Nothing was there to prove");
    has_not(&b, "<figure>");
    booked_finish(&b);
}

Test(compose, pictures_that_cannot_be_shown_are_named_and_told) {
    Booked b;
    booked(TRIAL("hostile.md"), NULL, NULL, NULL, &b);
    cr_expect_not_null(strstr(b.notes.data, "pictures/wide.png"), "%s", b.notes.data);
    cr_expect_not_null(strstr(b.notes.data, "more than 8000 pixels"));
    cr_expect_not_null(strstr(b.notes.data, "vector.svg"));
    cr_expect_not_null(strstr(b.notes.data, "line 13"), "%s", b.notes.data);
    EXPECT_TEXT(&b, "[Picture: remote]");
    has_not(&b, "<img");
    booked_finish(&b);
}

static void check_anchor(const Book *book, const BookBlock *block, void *context) {
    (void)context;
    if (!block->anchor)
        return;
    int found = 0;
    for (int i = 0; i < book->entry_count; i++)
        found += strcmp(book->entries[i].anchor, block->anchor) == 0;
    cr_expect_eq(found, block->role == ROLE_CONTENTS ? 0 : 1, "%s", block->anchor);
    cr_expect_eq(block->anchor[strspn(block->anchor, "abcdefghijklmnopqrstuvwxyz0123456789-")], '\0', "%s",
                 block->anchor);
}

static void check_figure(const Book *book, const BookBlock *block, void *context) {
    (void)book;
    for (int i = 0; i < block->picture_count; i++) {
        cr_expect(block->pictures[i].alt && *block->pictures[i].alt);
        ++*(int *)context;
    }
}

// Headings go down one level at a time, so that a reader who listens finds her way.
static void check_level(const Book *book, const BookBlock *block, void *context) {
    (void)book;
    if (block->kind != BOOK_HEADING)
        return;
    int *last = context;
    cr_expect(block->level <= *last + 1, "%s: %d after %d", block->spans.items[0].text, block->level, *last);
    *last = block->level;
}

// Every value is filled in, and no mark of one is left in the text.
static void check_values(const Book *book, const BookBlock *block, void *context) {
    (void)book;
    for (int i = 0; i < block->spans.count; i++) {
        const Span *span = &block->spans.items[i];
        cr_expect_neq(span->style & (SPAN_VALUE | SPAN_CODE), SPAN_VALUE | SPAN_CODE, "%s: %s",
                      (const char *)context, span->text);
        if (span->style & SPAN_CODE)
            continue;
        cr_expect_null(strstr(span->text, "`="), "%s", span->text);
        cr_expect_null(strstr(span->text, "nan "), "%s", span->text);
    }
}

static void check_woven(const char *name, const Booked *b) {
    int figures = 0, level = 0;
    walk(&b->book, b->book.blocks, b->book.count, check_anchor, NULL);
    walk(&b->book, b->book.blocks, b->book.count, check_figure, &figures);
    walk(&b->book, b->book.blocks, b->book.count, check_level, &level);
    walk(&b->book, b->book.blocks, b->book.count, check_values, (void *)name);
    cr_expect(figures > 0 || b->pattern.pieces.count + b->pattern.drafts.count == 0, "%s has no figure",
              name);
    cr_expect_eq(b->notes.length, 0, "%s: %s", name, b->notes.data);
    for (int i = 0; i < b->pattern.seams.count; i++) {
        char anchor[32];
        snprintf(anchor, sizeof anchor, "id=\"seam-%d\"", i + 1);
        has(b, anchor);
    }
}

Test(compose, every_recipe_of_the_shelf_weaves_with_all_its_values, .timeout = 300) {
    booked_each(check_woven);
}

static void count_step_pictures(const Book *book, const BookBlock *block, void *context) {
    (void)book;
    for (int i = 0; i < block->picture_count; i++)
        *(int *)context += block->pictures[i].kind == BOOK_PICTURE_STEP;
}

// Nine steps draw on sixty drafts each.
Test(compose, a_lesson_shows_at_most_500_pictures_of_its_steps_and_says_so) {
    Booked b;
    booked(TRIAL("many-pictures.md"), NULL, NULL, NULL, &b);
    int count = 0;
    walk(&b.book, b.book.blocks, b.book.count, count_step_pictures, &count);
    cr_expect_eq(count, 500);
    cr_expect(strstr(b.notes.data, "the first 500 pictures of its steps and leaves 40 out"), "%s",
              b.notes.data);
    booked_finish(&b);
}
