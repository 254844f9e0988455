#include "base/measures.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/file.h"
#include "base/memory.h"

static Measures read_text(const char *text) {
    Measures measures = {0};
    Fault fault;
    fault_init(&fault);
    bool fine = measures_read(text, strlen(text), "anna.txt", &measures, &fault);
    cr_assert(fine, "line %d: %s", fault.line, fault.message);
    fault_finish(&fault);
    return measures;
}

static Measures read_file(const char *name) {
    Buffer path, text;
    Fault fault;
    buffer_init(&path);
    buffer_init(&text);
    fault_init(&fault);
    buffer_add_format(&path, "%s/%s", BODIES, name);
    cr_assert(file_read(path.data, MEASURES_BYTES_MOST, &text, &fault), "%s", fault.message);
    Measures measures = read_text(text.data);
    buffer_finish(&path);
    buffer_finish(&text);
    fault_finish(&fault);
    return measures;
}

static void measure_is(const Measures *measures, const char *name, double mm) {
    const BodyMeasure *measure = measures_find(measures, name);
    cr_assert_not_null(measure, "no %s", name);
    cr_expect_float_eq(measure->value, mm, 1e-9, "%s is %f", name, measure->value);
}

static void refused(const char *text, int line, const char *says, const char *hint) {
    Measures measures = {.count = -7};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(measures_read(text, strlen(text), "anna.txt", &measures, &fault), "not refused: %s", text);
    cr_expect_eq(measures.count, -7);
    cr_expect_eq(fault.line, line, "line %d: %s", fault.line, fault.message);
    cr_expect_str_eq(fault.file, "anna.txt");
    cr_expect_not_null(strstr(fault.message, says), "%s", fault.message);
    cr_expect(fault.hint && strstr(fault.hint, hint), "%s: %s", fault.message, fault.hint);
    fault_finish(&fault);
}

Test(measures, lines_are_read_in_order_with_remarks_and_any_unit) {
    Measures measures =
        read_text("\xEF\xBB\xBF# Anna\r\n\r\nhead_girth = 56 cm # over the hair\r\n"
                  "  neck_base_girth=14 5/8 in\rsleeve_of_hers = 61,5\u00A0cm\nwaist_girth =\t700 mm");
    cr_assert_eq(measures.count, 4);
    cr_assert_str_eq(measures.items[0].name, "head_girth");
    cr_assert(measures.items[0].line == 3 && measures.items[1].line == 4 && measures.items[2].line == 5);
    measure_is(&measures, "head_girth", 560);
    measure_is(&measures, "neck_base_girth", 371.475);
    measure_is(&measures, "sleeve_of_hers", 615);
    measure_is(&measures, "waist_girth", 700);
    cr_assert_null(measures_find(&measures, "height"));
    measures_finish(&measures);
    measures_finish(&measures);
}

Test(measures, an_empty_file_is_an_empty_set) {
    Measures measures = read_text("# nothing yet\n");
    cr_assert_eq(measures.count, 0);
    measures_finish(&measures);
}

Test(measures, mistakes_are_named_with_their_line_and_what_would_work) {
    refused("\nhead_girth = 56\n", 2, "without its unit", "14 cm");
    refused("head_girth = 56 furlongs\n", 1, "unit is not known", "mm, cm");
    refused("head_girth = \n", 1, "no length", "14 cm");
    refused("head_girth = # 56 cm\n", 1, "no length", "14 cm");
    refused("head_girth 56 cm\n", 1, "not a measurement", "head_girth = 56 cm");
    refused("head_girth = 56 cm = 3\n", 1, "as one length", "14.5 cm");
    refused("head_girth = 1 - 5/8 in\n", 1, "hyphen", "1-5/8 in");
    refused("head_girth = 0 cm\n", 1, "not more than 0", "0 or less");
    refused("head_girth = -5 cm\n", 1, "not more than 0", "0 or less");
    refused("a = 1 cm\nb = 2 cm\na = 3 cm\n", 3, "given twice, first on line 1", "take one");
    refused("Neck-Girth = 35 cm\n", 1, "not a name", "write neck_girth");
    refused("neck girth = 35 cm\n", 1, "not a name", "write neck_girth");
    refused("1st = 35 cm\n", 1, "not a name", "letters a to z");
    refused("größe = 35 cm\n", 1, "not a name", "letters a to z");
    refused("= 35 cm\n", 1, "not a name", "letters a to z");
    refused("nek_girth = 35 cm\n", 1, "not known", "did you mean neck_girth");
    refused("a = 1 cm\n\xFF = 2 cm\n", 2, "UTF-8", "UTF-8");
}

Test(measures, a_zero_byte_and_too_much_are_refused) {
    Measures measures = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert_not(measures_read("a = 1 cm\nb\0c", 12, "x", &measures, &fault));
    cr_assert_eq(fault.line, 2);
    Buffer text;
    buffer_init(&text);
    for (int i = 0; i <= MEASURES_MOST; i++)
        buffer_add_format(&text, "m%d_ = %d cm\n", i, i + 1);
    cr_assert_not(measures_read(text.data, text.length, "x", &measures, &fault));
    cr_assert_eq(fault.line, MEASURES_MOST + 1);
    while (text.length <= MEASURES_BYTES_MOST)
        buffer_add_text(&text, "# more\n");
    cr_assert_not(measures_read(text.data, text.length, "x", &measures, &fault));
    cr_assert_not_null(strstr(fault.message, "64 KB"));
    buffer_finish(&text);
    fault_finish(&fault);
}

Test(measures, the_two_girths_of_the_neck_are_never_taken_for_one_another) {
    refused("neck_girth = 37 cm\nneck_base_girth = 33 cm\n", 2,
            "33.0 cm, is smaller than neck_girth, 37.0 cm", "about 4 cm larger");
    refused("neck_base_girth = 33 cm\n\nneck_girth = 37 cm\n", 3, "smaller", "shirt");
    Measures measures = read_text("neck_girth = 33 cm\nneck_base_girth = 37 cm\n");
    measures_finish(&measures);
}

Test(measures, an_age_is_in_years_or_months) {
    Measures measures = read_text("age = 6 years\nhead_girth = 51 cm\n");
    measure_is(&measures, "age", 6);
    measure_is(&measures, "head_girth", 510);
    measures_finish(&measures);
    measures = read_text("age = 18 months # at the last birthday 1\n");
    measure_is(&measures, "age", 1.5);
    measures_finish(&measures);
    measures = read_text("age = 0 months\n"); // a newborn
    measure_is(&measures, "age", 0);
    measures_finish(&measures);
    refused("age = 6 cm\n", 1, "age = 6 cm: age is in years or months", "6 years or 18 months");
    refused("age = 6\n", 1, "age is in years or months", "6 years or 18 months");
    refused("age = -6 years\n", 1, "age is in years or months", "6 years or 18 months");
    refused("age = 600 years\n", 1, "age is in years or months", "up to 150 years");
    refused("age =\n", 1, "age is given no years or months", "6 years or 18 months");
    refused("head_girth = 6 years\n", 1, "the unit is not known", "mm, cm");
}

// The age of the oldest person known was 122 years, from memory: more is doubted, 120 is not.
Test(measures, an_age_no_one_has_is_doubted_in_years) {
    Measures measures = read_text("age = 130 years\n");
    Buffer doubts;
    buffer_init(&doubts);
    measures_doubts(&measures, &doubts);
    cr_expect_str_eq(doubts.data,
                     "age is 130 years, but bodies lie between 0 years and 120 years: check the number "
                     "and its unit.\n");
    buffer_finish(&doubts);
    measures_finish(&measures);
}

Test(measures, only_true_slips_are_near_misses) {
    static const struct {
        const char *typed, *meant;
    } rows[] = {
        {"nek_girth", "neck_girth"},
        {"neck_grith", "neck_girth"},
        {"neckgirth", "neck_girth"},
        {"neckbase_girth", "neck_base_girth"},
        {"sholder_length", "shoulder_length"},
        {"acros_back_width", "across_back_width"},
        {"hight", "height"},
        {"agee", NULL}, // a name of three letters is not guessed at
        {"back_neck_point_to_wasit", "back_neck_point_to_waist"},
        {"neck_girth", NULL},
        {"rib_girth", NULL},
        {"leg_length", NULL},
        {"head_height", NULL},
        {"back_neck_width", NULL},
        {"back_shoulder_length", NULL},
        {"my_own_measure", NULL},
        {"x", NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *got = measure_near_miss(rows[i].typed);
        cr_expect(rows[i].meant ? got && strcmp(got, rows[i].meant) == 0 : !got, "%s: %s", rows[i].typed,
                  got ? got : "none");
    }
}

Test(measures, every_known_measure_has_its_words_and_no_name_is_a_slip_of_another) {
    int count = 0;
    const KnownMeasure *all = measure_known_all(&count);
    cr_assert_gt(count, 20);
    for (int i = 0; i < count; i++) {
        cr_expect(strlen(all[i].term) > 5 && strlen(all[i].taken) > 15, "%s", all[i].name);
        cr_expect((0 < all[i].least || measure_in_years(all[i].name)) && all[i].least * 1.5 < all[i].most,
                  "%s", all[i].name);
        cr_expect_eq(measure_known(all[i].name), &all[i]);
        cr_expect_null(measure_near_miss(all[i].name));
    }
    cr_assert_null(measure_known("my_own_measure"));
}

// The least and the greatest person of the public ANSUR II survey (US Army, 2012), women and men, in mm.
Test(measures, no_one_of_a_published_survey_is_doubted) {
    static const struct {
        const char *name;
        int least, most;
    } rows[] = {
        {"head_girth", 500, 635},        {"neck_girth", 275, 514},
        {"neck_base_girth", 302, 545},   {"bust_girth", 695, 1469},
        {"waist_girth", 611, 1379},      {"shoulder_length", 107, 185},
        {"across_back_width", 270, 562}, {"back_neck_point_to_waist", 345, 598},
        {"height", 1409, 1993},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char text[128];
        Buffer doubts;
        buffer_init(&doubts);
        for (int end = 0; end < 2; end++) {
            snprintf(text, sizeof text, "%s = %d mm\n", rows[i].name, end ? rows[i].most : rows[i].least);
            Measures measures = read_text(text);
            measures_doubts(&measures, &doubts);
            measures_finish(&measures);
        }
        cr_expect_str_eq(doubts.data, "");
        buffer_finish(&doubts);
    }
}

// Head girth at birth, third percentile, of the CDC growth charts (2000): 315 mm for boys.
Test(measures, a_newborn_is_not_doubted_but_a_slip_of_the_unit_is) {
    Measures measures = read_text("head_girth = 315 mm\nneck_girth = 350 cm\nheight = 1.7 cm\nown = 1 mm\n");
    Buffer doubts;
    buffer_init(&doubts);
    measures_doubts(&measures, &doubts);
    cr_expect_str_eq(
        doubts.data,
        "neck_girth is 350.0 cm, but bodies lie between 17.0 cm and 57.0 cm: check the number and its "
        "unit.\nheight is 1.7 cm, but bodies lie between 40.0 cm and 230.0 cm: check the number and its "
        "unit.\n");
    buffer_finish(&doubts);
    measures_finish(&measures);
}

Test(measures, the_example_of_a_published_drafting_method_reads) {
    Measures measures = read_file("example-88.txt");
    measure_is(&measures, "bust_girth", 880);
    measure_is(&measures, "waist_girth", 680);
    measure_is(&measures, "back_neck_point_to_waist", 410);
    measure_is(&measures, "scye_depth", 210);
    measure_is(&measures, "neck_base_girth", 370);
    measure_is(&measures, "shoulder_length", 122.5);
    measure_is(&measures, "across_back_width", 344);
    measure_is(&measures, "across_front_width", 324);
    measure_is(&measures, "head_girth", 560);
    cr_assert_eq(measures.count, 9);
    measures_finish(&measures);
    measures = read_file("paper-88.txt"); // names of a paper block are no slips of body measurements
    measure_is(&measures, "front_shoulder_length", 122.5);
    measures_finish(&measures);
}

// The limits of the drafting method for a close-fitting block whose formulas the block recipe gives: the
// front armhole lies at least 6 cm from the back one, the front shoulder is longer than its drop, the back
// shoulder tip lies outside the back width.
Test(measures, every_set_that_comes_with_the_program_can_be_drafted) {
    static const int busts[] = {80, 84, 88, 92, 96, 100, 104, 108, 112, 116};
    for (size_t i = 0; i < sizeof busts / sizeof busts[0]; i++) {
        char name[64];
        snprintf(name, sizeof name, "../../stdlib/bodies/women-%d.txt", busts[i]);
        Measures m = read_file(name);
#define MM(name) (measures_find(&m, name)->value)
        measure_is(&m, "bust_girth", busts[i] * 10);
        double dart = 70 + 6 * (busts[i] - 88) / 4.0;
        double armholes = MM("bust_girth") / 2 + 50 - MM("across_front_width") / 2 - dart / 2 -
                          (MM("across_back_width") / 2 + 5);
        cr_expect_gt(armholes, 60, "%s", name);
        double drop = MM("scye_depth") / 5 - 7, shoulder = MM("shoulder_length") + 10;
        double tip = MM("neck_base_girth") / 5 - 2 + sqrt(shoulder * shoulder - drop * drop);
        cr_expect_gt(tip, MM("across_back_width") / 2 + 5, "%s", name);
        cr_expect_gt(MM("neck_base_girth"), MM("neck_girth") + 30, "%s", name);
        cr_expect_gt(MM("head_girth"), MM("neck_base_girth"), "%s", name);
        Buffer doubts;
        buffer_init(&doubts);
        measures_doubts(&m, &doubts);
        cr_expect_str_eq(doubts.data, "");
        buffer_finish(&doubts);
        measures_finish(&m);
    }
}
