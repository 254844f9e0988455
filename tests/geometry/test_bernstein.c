#include "near.h"

#include "geometry/bernstein.h"

// (t - 0.1)(t - 0.4)(t - 0.7) by its values in the blossom.
static void cubic_with_zeros(double a, double b, double c, double *out) {
    const double sum = a + b + c, pairs = a * b + b * c + c * a, all = a * b * c;
    out[0] = -all; // t^3 - sum t^2 + pairs t - all
    out[1] = -all + pairs / 3;
    out[2] = -all + pairs * 2 / 3 - sum / 3;
    out[3] = 1 - sum + pairs - all;
}

Test(bernstein, the_value_is_that_of_the_polynomial) {
    double c[4];
    cubic_with_zeros(0.1, 0.4, 0.7, c);
    NEAR(bernstein_value(c, 3, 0.9), 0.8 * 0.5 * 0.2, 1e-15);
    NEAR(bernstein_value(c, 3, 0), -0.028, 1e-15);
}

Test(bernstein, all_zeros_are_found_in_order) {
    uint64_t seed = 5;
    for (int i = 0; i < 2000; i++) {
        double want[3] = {random_from(&seed, -0.5, 1.5), 0, 0};
        want[1] = want[0] + random_from(&seed, 0.01, 0.5);
        want[2] = want[1] + random_from(&seed, 0.01, 0.5);
        double c[4], got[BERNSTEIN_ZEROS_MAX];
        cubic_with_zeros(want[0], want[1], want[2], c);
        const int count = bernstein_zeros(c, 3, 0, got);
        int k = 0;
        for (int j = 0; j < 3; j++) {
            if (want[j] < 0 || want[j] > 1)
                continue;
            cr_assert_lt(k, count, "zero %.6f of case %d is missing", want[j], i);
            NEAR(got[k], want[j], 1e-11);
            k++;
        }
        cr_assert_eq(k, count);
    }
}

Test(bernstein, zeros_at_the_ends_and_double_zeros_are_found) {
    double c[4], got[BERNSTEIN_ZEROS_MAX];
    cubic_with_zeros(0, 0.5, 1, c);
    cr_assert_eq(bernstein_zeros(c, 3, 1e-15, got), 3);
    NEAR(got[0], 0, 1e-12);
    NEAR(got[1], 0.5, 1e-12);
    NEAR(got[2], 1, 1e-12);
    cubic_with_zeros(0.3, 0.3, 2, c);
    cr_assert_geq(bernstein_zeros(c, 3, 1e-14, got), 1);
    NEAR(got[0], 0.3, 1e-6);
}

Test(bernstein, nothing_and_not_a_number_end_in_time) {
    double got[BERNSTEIN_ZEROS_MAX];
    const double zero[6] = {0}, odd[6] = {NAN, 1, -1, 1, -1, 1}, none[3] = {1, -0.9, 1};
    const double shaky[6] = {1e-17, -1e-17, 1e-17, -1e-17, 1e-17, -1e-17};
    cr_assert_eq(bernstein_zeros(zero, 5, 0, got), 1);
    cr_assert_eq(bernstein_zeros(odd, 5, 0, got), 0);
    cr_assert_eq(bernstein_zeros(none, 2, 0, got), 0);
    cr_assert_eq(bernstein_zeros(shaky, 5, 1e-15, got), 1);
}
