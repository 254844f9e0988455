// A lesson in another language than its recipe's: what no recipe wrote is in the language of the reader. In
// the HTML a recipe's words are told by their language, so that every other word must come from the table of
// the language, or be a name that a recipe gave.
#include <criterion/criterion.h>
#include <string.h>

#include "words_left.h"

static const ComposeOptions *options_for(const Language *language) {
    static ComposeOptions options;
    options =
        (ComposeOptions){.language = language, .paper_width = 210, .paper_height = 297, .version = "0.0.0"};
    return &options;
}

static void has_only_its_own_words(const Booked *booked, const Language *language, const char *written_in,
                                   const char *prose) {
    Buffer left, names, words, looked_at;
    buffer_init(&left);
    buffer_init(&looked_at);
    buffer_init(&names);
    buffer_init(&words);
    words_left(booked->html.data, written_in, &left);
    given_names(booked, &names);
    table_words(language, &words);
    buffer_add_text(&names, prose);
    int seen = 0;
    size_t length;
    for (const char *at = left.data, *word; (word = next_word(&at, &length)) != NULL; seen++) {
        if (has_word(looked_at.data, word, length))
            continue;
        buffer_add(&looked_at, word, length);
        buffer_add_char(&looked_at, ' ');
        cr_expect(has_word(words.data, word, length) || has_word(names.data, word, length),
                  "%s, %s: \"%.*s\" in \"%.60s\"", booked->pattern.recipe, language_tag(language),
                  (int)length, word, word - (word - left.data > 20 ? 20 : word - left.data));
    }
    cr_expect_gt(seen, 150, "only %d words were looked at", seen);
    buffer_finish(&looked_at);
    buffer_finish(&left);
    buffer_finish(&names);
    buffer_finish(&words);
}

static void weaves_without_english(const char *recipe, const char *body, const char *setting) {
    for (int i = 1; language_at(i); i++) {
        Booked b;
        booked(recipe, body, setting, options_for(language_at(i)), &b);
        has_only_its_own_words(&b, language_at(i), "en", "");
        booked_finish(&b);
    }
}

Test(left_over, a_funnel_with_a_proof_that_fails_has_no_english) {
    weaves_without_english("bands/funnel", NULL, "slit=0 mm");
}

Test(left_over, collars_necklines_and_blocks_have_no_english) {
    weaves_without_english("flat/peter-pan", NULL, NULL);
    weaves_without_english("bands/wing", NULL, NULL);
    weaves_without_english("necklines/slit", NULL, NULL);
    weaves_without_english("blocks/close-fitting", NULL, NULL);
    weaves_without_english("blocks/measured", TESTS_DIR "/bodies/paper-88.txt", NULL);
}

Test(left_over, a_child_has_its_age_and_its_cautions_without_english) {
    weaves_without_english("flat/peter-pan", TRIAL("child-4.txt"), NULL);
}

Test(left_over, inches_have_no_english) {
    for (int i = 1; language_at(i); i++) {
        Booked b;
        booked_inches("flat/peter-pan", options_for(language_at(i)), &b);
        has_only_its_own_words(&b, language_at(i), "en", "");
        Buffer left;
        buffer_init(&left);
        words_left(b.html.data, "en", &left);
        for (const char *at = left.data; (at = strstr(at, " in")) != NULL; at++)
            cr_expect_not(at > left.data && strchr("0123456789", at[-1]) &&
                              !strchr("abcdefghijklmnopqrstuvwxyz", at[3]),
                          "%.30s", at - 8);
        cr_expect_not_null(strstr(left.data, "\u2033"));
        buffer_finish(&left);
        booked_finish(&b);
    }
}

// Whatever can be wrong with a pattern.
Test(left_over, ways_out_have_no_english) {
    for (int i = 1; language_at(i); i++) {
        Booked b;
        booked(TRIAL("wrong.md"), NULL, NULL, options_for(language_at(i)), &b);
        has_only_its_own_words(&b, language_at(i), "qaa", "");
        int failing = 0;
        for (int k = 0; k < b.pattern.proofs.count; k++) {
            const Proof *proof = &b.pattern.proofs.items[k];
            cr_expect(proof->holds || proof->mend, "%s", proof->what);
            failing += !proof->holds;
        }
        cr_expect_geq(failing, 6, "%d", failing);
        booked_finish(&b);
    }
}

// A recipe whose own words are German: what is English in its lesson was said by a recipe of the shelf.
Test(left_over, a_german_recipe_is_german_throughout) {
    Booked b;
    booked(TRIAL("kragen.md"), NULL, NULL, NULL, &b);
    cr_expect_str_eq(language_tag(b.book.language), "de");
    has(&b, "<html lang=\"de\">");
    has_only_its_own_words(&b, language_find("de"), "en", shelf_held(&b.shelf, b.pattern.recipe)->source);
    booked_finish(&b);
}
