#include "pattern/number.h"

#include <criterion/criterion.h>
#include <string.h>

static bool read_text(const char *text, double *out) {
    return number_read(text, text + strlen(text), out);
}

Test(number, what_was_written_reads_back_and_is_written_the_same) {
    Buffer first, second;
    buffer_init(&first);
    buffer_init(&second);
    double value = 1.0 / 3;
    for (int i = 0; i < 20000; i++) {
        value = fmod(value * 1103.515245 + 12345.678901, 2e6) * (i % 2 ? 1 : -1) * pow(10, i % 13 - 6);
        for (int way = 0; way < 2; way++) {
            double back;
            buffer_clear(&first);
            buffer_clear(&second);
            if (way == 0)
                number_add(&first, value);
            else
                number_add_fixed(&first, value);
            cr_assert(read_text(first.data, &back), "%s", first.data);
            if (way == 0)
                number_add(&second, back);
            else
                number_add_fixed(&second, back);
            cr_assert_str_eq(second.data, first.data);
            if (way == 0)
                cr_assert_float_eq(back, value, 1e-9 + 1e-9 * fabs(value));
            else if (fabs(value) < 1e8)
                cr_assert_eq(back, number_fixed(value));
        }
    }
    buffer_finish(&first);
    buffer_finish(&second);
}

Test(number, only_numbers_are_read) {
    static const char *const not_numbers[] = {"",    "-",   ".",   "1.",  ".5.",   "1e",  "e5",   "nan",
                                              "inf", "0x1", "1 2", "--1", "1e999", "1,5", "-.e1", "1-2"};
    double value = 7;
    for (size_t i = 0; i < sizeof not_numbers / sizeof not_numbers[0]; i++) {
        cr_assert(!read_text(not_numbers[i], &value), "%s", not_numbers[i]);
        cr_assert_eq(value, 7);
    }
    cr_assert(read_text("-12.3456", &value));
    cr_assert_eq(value, -12.3456);
    cr_assert(read_text("99999999999999999999", &value));
    cr_assert_eq(value, 99999999999999999999.0);
    cr_assert(read_text("1.5e-7", &value));
    cr_assert_eq(value, 1.5e-7);
}
