#include "base/buffer.h"

#include <criterion/criterion.h>
#include <string.h>

#include "base/memory.h"

Test(buffer, what_is_added_stands_in_order_and_ends_with_a_nul) {
    Buffer buffer;
    buffer_init(&buffer);
    cr_assert_str_eq(buffer.data, "");
    buffer_add_text(&buffer, "stand ");
    buffer_add_char(&buffer, '+');
    buffer_add(&buffer, " fallen", 5);
    buffer_add_format(&buffer, ": %d %s", 42, "mm");
    cr_assert_str_eq(buffer.data, "stand + fall: 42 mm");
    cr_assert_eq(buffer.length, strlen(buffer.data));
    buffer_clear(&buffer);
    cr_assert_str_eq(buffer.data, "");
    buffer_finish(&buffer);
    buffer_finish(&buffer);
}

Test(buffer, it_grows_as_far_as_it_must) {
    Buffer buffer;
    buffer_init(&buffer);
    for (int i = 0; i < 100000; i++)
        buffer_add_format(&buffer, "%d", i % 10);
    cr_assert_eq(buffer.length, 100000u);
    for (int i = 0; i < 100000; i++)
        cr_assert_eq(buffer.data[i], '0' + i % 10);
    buffer_finish(&buffer);
}

Test(buffer, zero_bytes_are_bytes) {
    Buffer buffer;
    buffer_init(&buffer);
    buffer_add(&buffer, "a\0b", 3);
    cr_assert_eq(buffer.length, 3u);
    cr_assert_eq(memcmp(buffer.data, "a\0b", 4), 0);
    buffer_finish(&buffer);
}

Test(memory, what_is_new_is_zeroed_and_texts_are_copies) {
    unsigned char *bytes = mem_new(1000);
    for (int i = 0; i < 1000; i++)
        cr_assert_eq(bytes[i], 0);
    mem_free(bytes);
    char text[] = "nape";
    char *copy = mem_text(text);
    text[0] = 'x';
    cr_assert_str_eq(copy, "nape");
    mem_free(copy);
    cr_assert_null(mem_text(NULL));
    mem_free(NULL);
}

Test(memory, arrays_grow_one_by_one) {
    struct {
        int *items;
        int count, capacity;
    } array = {0};
    for (int i = 0; i < 1000; i++)
        ARRAY_ADD(&array, i * i);
    cr_assert_eq(array.count, 1000);
    for (int i = 0; i < 1000; i++)
        cr_assert_eq(array.items[i], i * i);
    mem_free(array.items);
}

#ifndef __SANITIZE_ADDRESS__ // which has its own way to refuse
Test(memory, no_memory_ends_the_program, .exit_code = 1) {
    mem_new((size_t)-1 / 2);
}
#endif

Test(buffer, words_are_filled_in_at_their_places) {
    static const char *const filled[] = {"Collar", "Front"};
    Buffer buffer;
    buffer_init(&buffer);
    buffer_fill(&buffer, "{2} and {1}, {1} {x} {", filled, 2);
    cr_assert_str_eq(buffer.data, "Front and Collar, Collar {x} {");
    buffer_finish(&buffer);
}
