#include <criterion/criterion.h>

#include <string.h>

#include "said.h"
#include "script/words.h"

Test(words, the_reference_has_every_row_under_its_subject) {
    int count;
    const WordRow *rows = words_all(&count);
    Said s = said("rebato words");
    said_code(&s, 0);
    for (int i = 0; i < count; i++) {
        said_out(&s, rows[i].usage);
        said_out(&s, rows[i].about);
    }
    said_finish(&s);
}

Test(words, one_word_is_told_with_its_example) {
    const WordRow *row = words_find("curve");
    cr_assert_not_null(row);
    Said s = said("rebato words curve");
    said_code(&s, 0);
    said_out(&s, row->about);
    said_finish(&s);
}

Test(words, a_subject_is_told_alone) {
    Said s = said("rebato words points");
    said_code(&s, 0);
    cr_expect(strncmp(s.out.data, "points\n", 7) == 0, "%s", s.out.data);
    cr_expect_null(strstr(s.out.data, "seams and proofs\n"));
    said_finish(&s);
}
