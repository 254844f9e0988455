// Source of what is expected: ISO 32000-1 (PDF), ISO 216 (A sizes), and the outside readers named in each
// test.
#include <criterion/criterion.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "example.h"
#include "reader.h"

static Pattern pattern;
static Drawing drawing;
static Buffer said;

static void begin(void) {
    buffer_init(&said);
}

static void end(void) {
    drawing_finish(&drawing);
    buffer_finish(&said);
    pattern_finish(&pattern);
}

TestSuite(pdf, .init = begin, .fini = end, .timeout = 60);

static void draw_on(const char *paper) {
    SheetOptions options = example_options(SHEET_PDF);
    Fault fault;
    fault_init(&fault);
    cr_assert(sheet_paper(paper, &options, &fault));
    fault_finish(&fault);
    drawing_make(&drawing, &pattern, &options);
}

Test(pdf, qpdf_finds_nothing_wrong) {
    example_funnel(&pattern);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "qpdf --check %s", &said), 0, "%s", said.data);
    cr_expect_eq(text_count(said.data, "WARNING"), 0, "%s", said.data);
}

Test(pdf, mutool_finds_the_pages_and_both_fonts_embedded) {
    example_funnel(&pattern);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "mutool info %s", &said), 0);
    char pages[32];
    snprintf(pages, sizeof pages, "Pages: %d", drawing.pages);
    cr_expect_eq(text_count(said.data, pages), 1, "%s", said.data);
    cr_expect_eq(reader_run(&drawing, "pdffonts %s", &said), 0); // poppler
    cr_expect_eq(text_count(said.data, "yes yes yes"), 2, "%s", said.data);
}

Test(pdf, pages_have_the_size_of_the_paper_to_a_thousandth_of_a_point) {
    static const struct {
        const char *paper, *width, *height;
    } papers[] = {{"a4", "595.276", "841.89"}, {"letter", "612", "792"}, {"a3", "841.89", "1190.55"}};
    example_funnel(&pattern);
    for (int i = 0; i < 3; i++) {
        draw_on(papers[i].paper);
        cr_expect_eq(reader_run(&drawing, "pdfinfo %s", &said), 0); // poppler
        char size[64];
        snprintf(size, sizeof size, "%s x %s pts", papers[i].width, papers[i].height);
        cr_expect_eq(text_count(said.data, size), 1, "%s: %s", papers[i].paper, said.data);
        if (i < 2)
            drawing_finish(&drawing);
    }
}

Test(pdf, the_print_dialog_is_asked_not_to_scale) {
    example_funnel(&pattern);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "qpdf --json --json-key=qpdf %s || qpdf --json %s", &said) & ~3, 0);
    cr_expect_geq(text_count(said.data, "\"/PrintScaling\": \"/None\""), 1);
    cr_expect_geq(text_count(said.data, "\"/Lang\": \"u:en\"") + text_count(said.data, "\"/Lang\": \"en\""),
                  1);
}

Test(pdf, the_names_of_the_pieces_are_text) {
    example_funnel(&pattern);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "pdftotext -layout %s -", &said), 0); // poppler
    static const char *const words[] = {
        "Front funnel", "Back funnel",   "Stand",
        "Facing",       "Square funnel", "grain along",
        "place on",     "roll line",     "A1",
        "100 mm",       "4 in",          "Print at 100 % (actual size). Measure the squares"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        cr_expect_geq(text_count(said.data, words[i]), 1, "%s", words[i]);
}

Test(pdf, accents_fractions_and_signs_come_back_as_they_were_written) {
    static const char name[] = "Été ½ ⅝ × 45° – “Größe”";
    example_square(&pattern, 150, name);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "pdftotext %s -", &said), 0);
    cr_expect_geq(text_count(said.data, name), 1, "%s", said.data);
}

Test(pdf, scripts_the_font_lacks_are_still_found_as_text) {
    static const char name[] = "衿 ياقة";
    example_square(&pattern, 150, name);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "qpdf --check %s", &said), 0, "%s", said.data);
    cr_expect_eq(reader_run(&drawing, "pdftotext -raw %s -", &said), 0);
    cr_expect_geq(text_count(said.data, "衿"), 1, "%s", said.data);
}

// Reads a line of straight parts out of an SVG, from after its M to the next one: its numbers, through the
// matrix of the element where there is one.
static bool read_box(const char *at, const double m[6], double *width, double *height) {
    double least[2] = {INFINITY, INFINITY}, most[2] = {-INFINITY, -INFINITY};
    int points = 0;
    while (*at != '"' && *at != 'M') {
        char *next;
        double x = strtod(at, &next);
        if (next == at) {
            if (*at == 'C')
                return false;
            at++;
            continue;
        }
        double y = strtod(next, &next);
        double p[2] = {m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]};
        for (int k = 0; k < 2; k++) {
            least[k] = fmin(least[k], p[k]);
            most[k] = fmax(most[k], p[k]);
        }
        points++;
        at = next;
    }
    *width = (most[0] - least[0]) * 25.4 / 72;
    *height = (most[1] - least[1]) * 25.4 / 72;
    return points >= 4;
}

static bool square_in(const char *element, double side) {
    const char *end = strstr(element, "/>"), *d = strstr(element, " d=\"");
    if (end == NULL || d == NULL || d > end)
        return false;
    const char *matrix = strstr(element, "matrix(");
    double m[6] = {1, 0, 0, 1, 0, 0};
    if (matrix != NULL && matrix < end) {
        char *at = (char *)matrix + 7;
        for (int i = 0; i < 6; i++) {
            m[i] = strtod(at, &at);
            at += *at == ',';
        }
    }
    for (const char *at = strchr(d + 4, 'M'); at != NULL && at < end; at = strchr(at + 1, 'M')) {
        double width, height;
        if (read_box(at + 1, m, &width, &height) && fabs(width - side) < 0.01 && fabs(height - side) < 0.01)
            return true;
    }
    return false;
}

static bool square_there(const char *svg, double side) {
    for (const char *at = strstr(svg, "<path"); at != NULL; at = strstr(at + 1, "<path"))
        if (square_in(at, side))
            return true;
    return false;
}

Test(pdf, the_test_squares_measure_100_mm_and_4_inches_within_a_hundredth) {
    example_funnel(&pattern);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "pdftocairo -svg -noshrink -nocenter -f 1 -l 1 %s -", &said),
                 0); // poppler
    cr_expect(square_there(said.data, 100));
    cr_expect(square_there(said.data, 101.6));
    cr_expect_not(square_there(said.data, 99.9));
}

Test(pdf, at_a_quarter_scale_the_squares_are_a_quarter_and_the_page_says_so) {
    example_funnel(&pattern);
    SheetOptions options = example_options(SHEET_PDF);
    options.scale = 0.25;
    drawing_make(&drawing, &pattern, &options);
    cr_expect_eq(reader_run(&drawing, "pdftocairo -svg -noshrink -nocenter -f 1 -l 1 %s -", &said), 0);
    cr_expect(square_there(said.data, 25));
    cr_expect(square_there(said.data, 25.4));
    cr_expect_not(square_there(said.data, 100));
    cr_expect_eq(reader_run(&drawing, "pdftotext %s -", &said), 0);
    cr_expect_geq(text_count(said.data, "measures 25 mm"), 1);
    cr_expect_geq(text_count(said.data, "scale 1:4"), drawing.pages - 1); // each but a page of figures alone
}

Test(pdf, a_piece_has_its_true_size) {
    example_square(&pattern, 150, "Square");
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "pdftocairo -svg -noshrink -nocenter -f 2 -l 2 %s -", &said), 0);
    cr_expect(square_there(said.data, 150));
}

Test(pdf, what_is_not_proven_is_said_on_the_plan_and_on_the_piece) {
    example_unproven(&pattern);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "pdftotext -f 1 -l 1 %s -", &said), 0);
    cr_expect_eq(text_count(said.data, "NOT PROVEN: 2 of 3 proofs fail"), 1, "%s", said.data);
    cr_expect_eq(reader_run(&drawing, "pdftotext -f 2 %s -", &said), 0);
    cr_expect_geq(text_count(said.data, "NOT PROVEN: neck seam"), 1);
}

Test(pdf, an_accepted_failure_is_listed_without_a_flag) {
    example_unproven(&pattern);
    for (int i = 0; i < pattern.proofs.count; i++)
        pattern.proofs.items[i].accepted = !pattern.proofs.items[i].holds;
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "pdftotext %s -", &said), 0);
    cr_expect_eq(text_count(said.data, "NOT PROVEN"), 0);
    cr_expect_eq(text_count(said.data, "Accepted as it is"), 2);
    cr_expect_eq(text_count(said.data, "(accepted)"), 0); // said once
}

Test(pdf, one_whole_sheet_is_one_page_with_everything_on_it) {
    example_large(&pattern);
    draw_on("whole");
    cr_expect_eq(drawing.pages, 1);
    cr_expect_eq(reader_run(&drawing, "pdftotext %s -", &said), 0);
    for (int i = 0; i < pattern.pieces.count; i++)
        cr_expect_geq(text_count(said.data, pattern.pieces.items[i].name), 2);
}

Test(pdf, a_measurement_that_is_missing_is_left_out) {
    example_funnel(&pattern);
    ARRAY_ADD(&pattern.inputs,
              ((Input){.name = "waist_girth", .optional = true, .missing = true, .measure = MEASURE_LENGTH}));
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "pdftotext %s -", &said), 0);
    cr_expect_eq(text_count(said.data, "waist girth"), 0);
    cr_expect_geq(text_count(said.data, "head girth"), 1);
}

Test(pdf, a_measurement_is_written_as_finely_as_it_was_given) {
    for (int units = UNITS_CM; units <= UNITS_INCH; units++) {
        example_funnel(&pattern);
        ARRAY_ADD(&pattern.inputs, ((Input){.name = "arm_girth", .measure = MEASURE_LENGTH, .value = 322.5}));
        ARRAY_ADD(&pattern.inputs,
                  ((Input){.name = "wrist", .measure = MEASURE_LENGTH, .value = (6 + 5 / 32.0) * 25.4}));
        SheetOptions options = example_options(SHEET_PDF);
        options.units = (Units)units;
        drawing_make(&drawing, &pattern, &options);
        cr_expect_eq(reader_run(&drawing, "pdftotext %s -", &said), 0);
        cr_expect_geq(text_count(said.data, units == UNITS_CM ? "32.25 cm" : "12 11/16 in"), 1);
        cr_expect_geq(text_count(said.data, units == UNITS_CM ? "15.64 cm" : "6 5/32 in"), 1); // 156.37 mm
        cr_expect_geq(text_count(said.data, units == UNITS_CM ? "56.0 cm" : "22 1/16 in"), 1); // head girth
        drawing_finish(&drawing);
        pattern_finish(&pattern);
    }
}

Test(pdf, the_list_of_pieces_says_which_are_cut_on_the_fold) {
    example_funnel(&pattern);
    draw_on("a4");
    cr_expect_eq(reader_run(&drawing, "pdftotext -f 1 -l 1 -layout %s -", &said), 0);
    cr_expect_eq(text_count(said.data, "cut 2 on the fold, self and interfacing"), 1, "%s", said.data);
    cr_expect_eq(text_count(said.data, "on the fold"), 1, "%s", said.data); // of four pieces the stand alone
}

Test(pdf, inches_are_written_where_inches_are_asked_for) {
    example_funnel(&pattern);
    SheetOptions options = example_options(SHEET_PDF);
    options.units = UNITS_INCH;
    drawing_make(&drawing, &pattern, &options);
    cr_expect_eq(reader_run(&drawing, "pdftotext %s -", &said), 0);
    cr_expect_geq(text_count(said.data, "5 1/2 in"), 1);   // the dimension of 140 mm
    cr_expect_geq(text_count(said.data, "22 1/16 in"), 1); // head girth, 560 mm
}
