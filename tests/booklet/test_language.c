#include "booklet/language.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "base/measures.h"
#include "booklet/language_table.h"
#include "pattern/mend.h"
#include "recipe/shelf.h"

Test(language, every_language_has_every_word) {
    int missing = 0;
    for (int i = 1; language_at(i); i++)
        for (int k = 0; language_key(language_english(), k); k++) {
            const char *key = language_key(language_english(), k);
            const bool has = language_has(language_at(i), key);
            cr_expect(has, "%s has no %s", language_tag(language_at(i)), key);
            missing += !has;
        }
    cr_expect_eq(missing, 0, "%d words are missing", missing);
}

Test(language, no_language_has_a_word_that_english_lacks) {
    for (int i = 1; language_at(i); i++)
        for (int k = 0; language_key(language_at(i), k); k++)
            cr_expect(language_has(language_english(), language_key(language_at(i), k)), "%s: %s",
                      language_tag(language_at(i)), language_key(language_at(i), k));
}

Test(language, english_german_french_and_spanish_are_there) {
    static const char *const tags[] = {"en", "de", "fr", "es"};
    for (int i = 0; i < 4; i++)
        cr_expect_not_null(language_find(tags[i]), "%s", tags[i]);
    cr_expect_str_eq(language_tag(language_english()), "en");
}

Test(language, the_same_is_filled_in_in_every_language) {
    for (int i = 1; language_at(i); i++)
        for (int k = 0; language_key(language_english(), k); k++) {
            const char *key = language_key(language_english(), k);
            for (char number = '1'; number <= '9'; number++) {
                const char place[] = {'{', number, '}', '\0'};
                const bool there = strstr(language_word(language_english(), key), place);
                cr_expect_eq(there, strstr(language_word(language_at(i), key), place) != NULL, "%s, %s: %s",
                             language_tag(language_at(i)), key, place);
            }
        }
}

Test(language, a_missing_word_is_taken_from_english) {
    static const LanguageEntry entries[] = {{"contents", "Inhoud"}};
    const Language dutch = {.tag = "nl", .entries = entries, .count = 1};
    cr_expect_str_eq(language_word(&dutch, "contents"), "Inhoud");
    cr_expect_str_eq(language_word(&dutch, "part.sewing"), language_word(language_english(), "part.sewing"));
}

Test(language, a_tag_is_found_whatever_its_case_and_its_country) {
    cr_expect_str_eq(language_tag(language_find("DE")), "de");
    cr_expect_str_eq(language_tag(language_find("de-AT")), "de");
    cr_expect_null(language_find("den"));
    cr_expect_null(language_find("d"));
    cr_expect_null(language_find(""));
}

Test(language, words_are_filled_in_where_they_say_so) {
    Buffer out;
    buffer_init(&out);
    language_say(language_english(), &out, "page", "3", "12", NULL);
    cr_expect_str_eq(out.data, "Page 3 of 12");
    buffer_clear(&out);
    language_count(language_english(), &out, "hard.seams", 1);
    language_count(language_english(), &out, "hard.seams", 2);
    cr_expect_str_eq(out.data, "1 seam2 seams");
    buffer_finish(&out);
}

// A Hebrew name at the head of a sentence would turn it (Unicode Standard Annex 9, rules P2 and P3).
Test(language, names_from_right_to_left_are_set_apart) {
    Buffer out;
    buffer_init(&out);
    language_say(language_english(), &out, "seam.edge", "\u05E6\u05D5", "Collar", NULL);
    cr_expect_str_eq(out.data, "\u200E\u2068\u05E6\u05D5\u2069 of Collar");
    buffer_finish(&out);
}

// RFC 5646, appendix A; parts longer than eight and what is no tag are refused.
Test(language, tags_are_known_by_their_form) {
    static const char *const sound[] = {"de", "zh-Hant", "pt-BR", "es-419", "sl-rozaj", "hy-Latn-IT"};
    static const char *const odd[] = {"",      "d",     "de-", "-de",       "de--AT",
                                      "de_AT", "de AT", "123", "abcdefghi", "d\xC3\xA9"};
    for (size_t i = 0; i < sizeof sound / sizeof *sound; i++)
        cr_expect(language_tag_is_sound(sound[i]), "%s", sound[i]);
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++)
        cr_expect_not(language_tag_is_sound(odd[i]), "%s", odd[i]);
}

Test(language, what_is_written_from_right_to_left_is_known) {
    cr_expect(language_tag_is_rtl("ar-EG"));
    cr_expect(language_tag_is_rtl("he"));
    cr_expect_not(language_tag_is_rtl("de"));
    cr_expect_not(language_tag_is_rtl("arn"), "Mapudungun is written from left to right");
    cr_expect(language_tag_is_rtl("az-Arab-IR"));
    cr_expect(language_tag_is_rtl("yi-Hebr"));
    cr_expect_not(language_tag_is_rtl("ar-Latn"));
    cr_expect_not(language_tag_is_rtl("zh-Hant-TW"));
    cr_expect_not(language_tag_is_rtl("sl-1994"), "a variant of four signs is no script");
}

Test(language, titles_of_sewing_are_known_in_each_language) {
    cr_expect(language_any_begins("sewing.titles", "Sew it"));
    cr_expect(language_any_begins("sewing.titles", "N\u00e4hen und b\u00fcgeln"));
    cr_expect(language_any_begins("sewing.titles", "Montage"));
    cr_expect(language_any_begins("sewing.titles", "So n\u00e4ht man den Kragen"));
    cr_expect(language_any_begins("sewing.titles", "Gamme de montage"));
    cr_expect(language_any_begins("sewing.titles", "Instrucciones de costura"));
    cr_expect(language_any_begins("buying.titles", "Stoffbedarf"));
    cr_expect(language_any_begins("sizes.titles", "Fertige Gr\u00f6\u00dfe"));
    cr_expect_not(language_any_begins("sewing.titles", "Sewn edges"));
    cr_expect(language_any_ends("sizes.names", "half neckline"));
    cr_expect_not(language_any_ends("sizes.names", "edge ease"));
}

// Those that the chapter of the guide on sharing recipes names, in quotes.
Test(language, the_titles_that_the_guide_names_are_known) {
    Shelf shelf;
    shelf_init(&shelf);
    Fault fault;
    fault_init(&fault);
    const Recipe *chapter;
    cr_assert(shelf_find(&shelf, "guide/6-sharing-recipes", &chapter, &fault));
    const char *at = strstr(chapter->source, "\n- English: \"");
    cr_assert_not_null(at);
    const char *behind = strstr(at, "\n\n");
    cr_assert_not_null(behind);
    int titles = 0;
    for (at = strchr(at, '"'); at < behind; at = strchr(strchr(at + 1, '"') + 1, '"'), titles++) {
        char title[64];
        snprintf(title, sizeof title, "%.*s", (int)strcspn(at + 1, "\""), at + 1);
        cr_expect(language_any_begins("sizes.titles", title) || language_any_begins("buying.titles", title) ||
                      language_any_begins("sewing.titles", title),
                  "%s", title);
    }
    cr_expect_geq(titles, 24);
    fault_finish(&fault);
    shelf_finish(&shelf);
}

// What other rooms say in English too: said once more in the table, so that it is whole to translate.
Test(language, the_english_table_says_what_the_other_rooms_say) {
    int count;
    const KnownMeasure *known = measure_known_all(&count);
    for (int i = 0; i < count; i++) {
        char key[80];
        snprintf(key, sizeof key, "taken.%s", known[i].name);
        cr_expect_str_eq(language_word(language_english(), key), known[i].taken);
        snprintf(key, sizeof key, "measure.%s", known[i].name);
        cr_expect_str_eq(language_word(language_english(), key), known[i].term);
    }
    for (int i = 0; mend_key(i); i++)
        cr_expect_str_eq(language_word(language_english(), mend_key(i)), mend_words(mend_key(i)));
    cr_expect_str_eq(language_word(language_english(), "remark.no_opening"), REMARK_NO_OPENING);
}

// Imprimerie nationale, Lexique des regles typographiques, from memory: a no-break space before a colon, a
// narrow one before a semicolon and within guillemets; none of them before or within the others.
Test(language, french_has_its_spaces_before_its_signs) {
    const Language *french = language_find("fr");
    for (int i = 0; language_key(french, i); i++) {
        const char *words = language_word(french, language_key(french, i));
        for (const char *at = words; *at; at++) {
            const bool colon = *at == ':' && at > words;
            if (colon)
                cr_expect(at - words >= 2 && memcmp(at - 2, "\u00A0", 2) == 0, "%s", words);
            if (*at == ';' || *at == '!' || *at == '?')
                cr_expect(at - words >= 3 && memcmp(at - 3, "\u202F", 3) == 0, "%s", words);
            if (strncmp(at, "\u00AB", 2) == 0)
                cr_expect(strncmp(at + 2, "\u202F", 3) == 0, "%s", words);
            if (strncmp(at, "\u00BB", 2) == 0)
                cr_expect(at - words >= 3 && memcmp(at - 3, "\u202F", 3) == 0, "%s", words);
            cr_expect_neq(*at, '\'', "a straight apostrophe: %s", words);
        }
    }
}

// German quotes are low and high, Spanish ones angles without blanks.
Test(language, quotes_are_those_of_the_language) {
    static const char *const wrong[][2] = {{"de", "\u00AB"}, {"de", "\""},      {"es", "\u201E"},
                                           {"es", "\""},     {"es", "\u00AB "}, {"fr", "\u201E"},
                                           {"fr", "\""}};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        const Language *language = language_find(wrong[i][0]);
        for (int k = 0; language_key(language, k); k++)
            cr_expect_null(strstr(language_word(language, language_key(language, k)), wrong[i][1]), "%s: %s",
                           wrong[i][0], language_key(language, k));
    }
    cr_expect_not_null(strstr(language_word(language_find("de"), "figure.piece_alt"), "\u201E{1}\u201C"));
}
