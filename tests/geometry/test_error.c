#include <criterion/criterion.h>

#include <string.h>

#include "geometry/error.h"

Test(error, every_code_has_one_sentence_of_its_own) {
    for (int i = 0; i < GEOM_ERROR_COUNT; i++) {
        const char *text = geom_error_text((GeomError)i);
        cr_assert_not_null(text, "code %d has no text", i);
        cr_assert(strlen(text) > 10 && text[strlen(text) - 1] != '.', "code %d: \"%s\"", i, text);
        for (int j = 0; j < i; j++)
            cr_assert_str_neq(text, geom_error_text((GeomError)j));
    }
}
