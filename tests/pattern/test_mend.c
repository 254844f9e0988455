#include "pattern/mend.h"

#include <criterion/criterion.h>
#include <string.h>

Test(mend, every_key_has_words_and_stands_once) {
    for (int i = 0; mend_key(i); i++) {
        cr_expect(mend_words(mend_key(i)) && *mend_words(mend_key(i)), "%s", mend_key(i));
        for (int k = 0; k < i; k++)
            cr_expect_str_neq(mend_key(i), mend_key(k));
    }
    cr_expect_null(mend_words("mend.everything"));
}

Test(mend, a_proof_says_how_it_is_mended_and_keeps_the_parts) {
    Pattern pattern;
    pattern_init(&pattern);
    Proof proof = {.what = "notches: neck"};
    const MendPart parts[] = {{.mm = 34}, {.name = "Collar"}};
    proof_mend(&pattern, &proof, "mend.notch", parts, 2);
    cr_expect_str_eq(proof.way_out,
                     "the notch 3.4 cm along the seam on Collar has no partner there: notch the seam anew");
    cr_assert_not_null(proof.mend);
    cr_expect_str_eq(proof.mend->key, "mend.notch");
    cr_expect_eq(proof.mend->count, 2);
    cr_expect_null(proof.mend->parts[0].name);
    cr_expect_eq(proof.mend->parts[0].mm, 34);
    cr_expect_str_eq(proof.mend->parts[1].name, "Collar");
    pattern_finish(&pattern);
}
