#include <criterion/criterion.h>

#include <stdio.h>
#include <string.h>

#include "example.h"
#include "reader.h"
#include "sheet/catalog.h"

Test(catalog, bytes_that_are_no_pdf_of_cairos_are_left_alone) {
    static const char *const files[] = {
        "",
        "%PDF-1.4\n",
        "trailer\n<< >>\nstartxref\n9\n%%EOF\n",
        "%PDF-1.4\nxref\n0 9\ntrailer\n<< /Size 9 /Root 8 0 R /Info 7 0 R >>\nstartxref\n9\n%%EOF\n",
        "%PDF-1.4\nxref\n0 2\n0000000000 65535 f \n0000000009 00000 n \n"
        "trailer\n<< /Size 2 /Root 99999999 0 R /Info 1 0 R >>\nstartxref\n9\n%%EOF\n",
        "%PDF-1.5\n1 0 obj\n<< /Type /XRef >>\nendobj\nstartxref\n9\n%%EOF\n"};
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        Buffer pdf;
        buffer_init(&pdf);
        buffer_add_text(&pdf, files[i]);
        cr_expect_not(catalog_add_true_scale(&pdf), "%zu", i);
        cr_expect_str_eq(pdf.data, files[i]);
        buffer_finish(&pdf);
    }
}

// ISO 32000-1, 7.5.6: what was written stays as it was; what changed is added behind it.
Test(catalog, the_addition_stands_behind_a_file_that_is_whole_without_it) {
    Pattern pattern;
    Drawing drawing;
    Buffer said;
    buffer_init(&said);
    example_square(&pattern, 150, "Square");
    SheetOptions options = example_options(SHEET_PDF);
    drawing_make(&drawing, &pattern, &options);
    cr_expect_eq(text_count(drawing.bytes.data, "%PDF-"), 1);
    size_t whole = 0;
    while (whole + 6 < drawing.bytes.length && memcmp(drawing.bytes.data + whole, "%%EOF\n", 6) != 0)
        whole++;
    cr_assert_lt(whole + 6, drawing.bytes.length);
    FILE *file = fopen(drawing.path, "wb");
    cr_assert_not_null(file);
    cr_assert_eq(fwrite(drawing.bytes.data, 1, whole + 6, file), whole + 6);
    fclose(file);
    cr_expect_eq(reader_run(&drawing, "qpdf --check %s", &said), 0, "%s", said.data);
    cr_expect_eq(text_count(said.data, "WARNING"), 0, "%s", said.data);
    cr_expect_eq(reader_run(&drawing, "qpdf --json %s", &said), 0);
    cr_expect_eq(text_count(said.data, "/PrintScaling"), 0);
    drawing_finish(&drawing);
    buffer_finish(&said);
    pattern_finish(&pattern);
}
