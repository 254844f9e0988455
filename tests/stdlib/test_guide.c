// The manual is recipes: each chapter drafts, all its proofs hold, and the last one leaves no word out.
#include <criterion/criterion.h>
#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "drafted.h"
#include "recipe/shelf.h"
#include "script/words.h"

#define WORDS_CHAPTER "guide/7-words-by-subject"
#define BLOCK_CHAPTER "guide/2-your-own-block"

// Drafts every chapter on the block; the chapter that is a block itself goes without.
static void every_chapter_on(const char *block, const char *settings, const char *body) {
    int count, chapters = 0;
    const BuiltIn *built_in = shelf_built_in(&count);
    for (int i = 0; i < count; i++) {
        if (strcmp(built_in[i].family, "guide") != 0)
            continue;
        char chain[128];
        const bool is_block = strcmp(built_in[i].name, BLOCK_CHAPTER) == 0;
        snprintf(chain, sizeof chain, "%s %s", is_block ? "" : block, built_in[i].name);
        proven_whole(chain, is_block ? NULL : settings, body);
        chapters++;
    }
    cr_expect(chapters >= 7, "only %d chapters", chapters);
}

Test(guide, every_chapter_holds_on_the_example) {
    every_chapter_on("blocks/close-fitting", NULL, EXAMPLE_88);
}

Test(guide, every_chapter_holds_in_the_smallest_and_the_largest_size) {
    every_chapter_on("blocks/close-fitting", "back_shoulder=closed", "bodies/women-80");
    every_chapter_on("blocks/close-fitting", "back_shoulder=closed", "bodies/women-116");
}

Test(guide, every_chapter_holds_on_a_measured_block) {
    every_chapter_on("blocks/measured", NULL, PAPER_88);
}

Test(guide, the_typed_block_bears_a_collar) {
    proven_whole(BLOCK_CHAPTER " flat/peter-pan", NULL, EXAMPLE_88);
    proven_whole(BLOCK_CHAPTER " flat/peter-pan", "bought=0mm bought_neck=0mm", EXAMPLE_88);
}

// The seam runs 15 mm inside the cut shoulder, and is 15 mm shorter at each end (plane geometry).
Test(guide, the_allowance_comes_off_the_bought_back) {
    Pattern p;
    draft_of(BLOCK_CHAPTER, NULL, EXAMPLE_88, &p);
    const Mark *cut = mark_of(&p, "Bought back", "cut_shoulder"),
               *seam = mark_of(&p, "Bought back", "seam_shoulder");
    close_to(path_length(&seam->path), path_length(&cut->path) - 30, 0.01, "the seam of the shoulder");
    close_to(mark_of(&p, "Typed back", "neck_point")->point.y, 0, 0.01, "the neck point, above the level");
    pattern_finish(&p);
}

Test(guide, the_scoop_has_the_length_that_was_asked_for) {
    Pattern p;
    draft_of("blocks/close-fitting guide/3-curves", "front_edge=21cm", EXAMPLE_88, &p);
    close_to(edge_length(&p, "Front", "neckline"), 210, 0.1, "the half front neckline");
    pattern_finish(&p);
    proven_whole("blocks/close-fitting guide/3-curves flat/peter-pan", NULL, EXAMPLE_88);
}

Test(guide, a_length_that_cannot_be_is_refused_with_both_limits) {
    Pattern p;
    Fault fault;
    cr_assert_not(
        drafted("blocks/close-fitting guide/3-curves", "front_edge=11cm widen=6cm", EXAMPLE_88, &p, &fault));
    cr_expect(strstr(fault.message, "cannot be drawn") && strstr(fault.hint, "front_edge"), "%s",
              fault.message);
    fault_finish(&fault);
    pattern_finish(&p);
}

// In the code of the chapter the word stands as itself, after a colon, or after a dot.
static bool is_used(const char *chunk, const char *name) {
    const char *mark = strpbrk(name, ".:");
    const char *word = mark ? mark + 1 : name;
    const size_t length = strlen(word);
    for (const char *at = strstr(chunk, word); at; at = strstr(at + 1, word)) {
        const char before = at > chunk ? at[-1] : ' ', behind = at[length];
        const bool begins = mark ? before == *mark : !strchr("._:", before);
        if (begins && !isalnum((unsigned char)before) && !isalnum((unsigned char)behind) && behind != '_')
            return true;
    }
    return false;
}

Test(guide, no_word_of_the_language_is_forgotten) {
    Shelf shelf;
    Fault fault;
    const Recipe *recipe;
    shelf_init(&shelf);
    fault_init(&fault);
    cr_assert(shelf_find(&shelf, WORDS_CHAPTER, &recipe, &fault), "%s", fault.message);
    int count;
    const WordRow *rows = words_all(&count);
    for (int i = 0; i < count; i++) {
        char told[64];
        snprintf(told, sizeof told, "`%s`", rows[i].name);
        cr_expect(strstr(recipe->source, told), "the chapter has no line on %s", rows[i].name);
        cr_expect(is_used(recipe->chunk, rows[i].name), "the chapter does not use %s", rows[i].name);
    }
    cr_expect(count > 100);
    fault_finish(&fault);
    shelf_finish(&shelf);
}

Test(guide, chapters_hold_at_the_ends_of_their_choices) {
    const char *const first = "blocks/close-fitting guide/1-first-collar",
                      *const pieces = "blocks/measured guide/4-pieces-and-proofs";
    const char *const change = "blocks/close-fitting guide/5-changing-a-recipe";
    proven_whole(first, "height=2cm turn=1", EXAMPLE_88);
    proven_whole(first, "height=5cm turn=30", EXAMPLE_88);
    proven_whole(pieces, "height=2cm held=0mm", PAPER_88);
    proven_whole(pieces, "height=6cm held=5mm", PAPER_88);
    proven_whole(change, "part=0.3", EXAMPLE_88);
    proven_whole(change, "part=0.75 widen=30mm", EXAMPLE_88);
    proven_whole("blocks/close-fitting guide/6-sharing-recipes", "height=6cm", EXAMPLE_88);
    proven_whole("blocks/close-fitting guide/7-words-by-subject", "size=8cm", EXAMPLE_88);
    proven_whole("blocks/close-fitting guide/7-words-by-subject", "size=15cm", EXAMPLE_88);
}
