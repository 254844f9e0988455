#include "near.h"

#include "geometry/solve.h"

static int tries;

static int cosine_less_x(void *context, double x, double *out) {
    (void)context;
    tries++;
    *out = cos(x) - x;
    return 1;
}

static int flat_power(void *context, double x, double *out) {
    (void)context;
    *out = pow(x - 0.3, 9);
    return 1;
}

static int jump(void *context, double x, double *out) {
    (void)context;
    *out = x < 0.3 ? -1 : 1;
    return 1;
}

static int gives_up_past(void *context, double x, double *out) {
    if (x > 0 && x < *(double *)context)
        return 0;
    *out = x - 0.5;
    return 1;
}

static int not_a_number(void *context, double x, double *out) {
    (void)context;
    *out = sqrt(x - 1);
    return 1;
}

// The Dottie number, 0.7390851332151607 (OEIS A003957).
Test(solve, the_fixed_point_of_the_cosine_is_found_in_few_tries) {
    double x;
    Bracket ends;
    tries = 0;
    cr_assert_eq(solve_between(cosine_less_x, NULL, 0, 2, 1e-15, &x, &ends), GEOM_OK);
    NEAR(x, 0.7390851332151607, 1e-15);
    cr_assert_lt(tries, 14);
    NEAR(ends.at_from, 1, 0);
    NEAR(ends.at_to, cos(2) - 2, 0);
    cr_assert_eq(solve_between(cosine_less_x, NULL, 2, 0, 1e-15, &x, NULL), GEOM_OK);
    NEAR(x, 0.7390851332151607, 1e-15);
}

Test(solve, a_flat_function_still_converges) {
    double x;
    cr_assert_eq(solve_between(flat_power, NULL, -1, 4, 1e-20, &x, NULL), GEOM_OK);
    NEAR(x, 0.3, 0.01);
}

Test(solve, an_end_that_fits_is_the_answer) {
    double x;
    cr_assert_eq(solve_between(flat_power, NULL, 0.3, 1, 1e-12, &x, NULL), GEOM_OK);
    NEAR(x, 0.3, 1e-15);
}

Test(solve, a_wanted_value_outside_is_reported_with_both_ends) {
    double x = 42;
    Bracket ends = {0};
    cr_assert_eq(solve_between(cosine_less_x, NULL, 1, 3, 1e-9, &x, &ends), GEOM_NOT_BRACKETED);
    NEAR(ends.from, 1, 0);
    NEAR(ends.to, 3, 0);
    NEAR(ends.at_from, cos(1) - 1, 0);
    NEAR(ends.at_to, cos(3) - 3, 0);
    NEAR(x, 42, 0);
}

Test(solve, a_jump_a_refusal_and_no_number_do_not_converge) {
    double x = 42, limit = 0.9;
    cr_assert_eq(solve_between(jump, NULL, 0, 1, 1e-9, &x, NULL), GEOM_NO_CONVERGENCE);
    cr_assert_eq(solve_between(gives_up_past, &limit, 0, 1, 1e-9, &x, NULL), GEOM_NO_CONVERGENCE);
    cr_assert_eq(solve_between(not_a_number, NULL, 0, 2, 1e-9, &x, NULL), GEOM_NO_CONVERGENCE);
    cr_assert_eq(solve_between(jump, NULL, 0, INFINITY, 1e-9, &x, NULL), GEOM_NOT_FINITE);
    NEAR(x, 42, 0);
}
