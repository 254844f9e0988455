#include "base/arena.h"

#include <criterion/criterion.h>
#include <stdalign.h>
#include <stdint.h>
#include <string.h>

Test(arena, what_is_taken_is_zeroed_aligned_and_apart) {
    Arena arena;
    arena_init(&arena);
    unsigned char *before = NULL;
    for (size_t size = 1; size < 40000; size = size * 3 / 2 + 1) {
        unsigned char *taken = arena_take(&arena, size);
        cr_assert_eq((uintptr_t)taken % alignof(max_align_t), 0u);
        for (size_t i = 0; i < size; i++)
            cr_assert_eq(taken[i], 0);
        memset(taken, 0xAA, size);
        cr_assert_neq(taken, before);
        before = taken;
    }
    arena_finish(&arena);
    cr_assert_eq(arena.bytes, 0u);
}

Test(arena, texts_keep_what_they_were) {
    Arena arena;
    arena_init(&arena);
    const char *half = arena_text_n(&arena, "collarband", 6);
    const char *whole = arena_text(&arena, "stand");
    const char *made = arena_format(&arena, "%s %d", "fall", 42);
    for (int i = 0; i < 5000; i++)
        arena_take(&arena, 64);
    cr_assert_str_eq(half, "collar");
    cr_assert_str_eq(whole, "stand");
    cr_assert_str_eq(made, "fall 42");
    cr_assert_null(arena_text(&arena, NULL));
    arena_finish(&arena);
}

Test(arena, a_zeroed_arena_can_be_finished_and_used) {
    Arena arena = {0};
    arena_finish(&arena);
    cr_assert_not_null(arena_take(&arena, 8));
    arena_finish(&arena);
}
