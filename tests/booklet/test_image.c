#include "booklet/image.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/buffer.h"
#include "base/fault.h"
#include "base/file.h"

// Written by ImageMagick.
#define PICTURES TESTS_DIR "/booklet/recipes/pictures/"
#define RECIPE TESTS_DIR "/booklet/recipes/hostile.md"

static void bytes_of(const char *name, Buffer *out) {
    char path[1024];
    Fault fault;
    snprintf(path, sizeof path, PICTURES "%s", name);
    buffer_init(out);
    fault_init(&fault);
    cr_assert(file_read(path, 1 << 20, out, &fault), "%s", path);
}

static ImageError check(const Buffer *bytes, size_t length, BookImage *out) {
    // In memory of just that length, so that the sanitizer sees what is read past it.
    unsigned char *exact = malloc(length ? length : 1);
    memcpy(exact, bytes->data, length);
    const ImageError error = image_check(exact, length, out);
    free(exact);
    return error;
}

static void is_fine(const char *name, int kind) {
    Buffer bytes;
    BookImage image = {0};
    bytes_of(name, &bytes);
    cr_expect_eq(check(&bytes, bytes.length, &image), IMAGE_OK, "%s", name);
    cr_expect_eq((int)image.kind, kind);
    cr_expect_eq(image.width, 24);
    cr_expect_eq(image.height, 18);
    buffer_finish(&bytes);
}

Test(image, png_and_jpeg_are_known_with_their_sizes) {
    is_fine("stand.png", IMAGE_PNG);
    is_fine("stand.jpg", IMAGE_JPEG);
    is_fine("stand-progressive.jpg", IMAGE_JPEG);
}

Test(image, a_file_cut_short_or_with_something_behind_it_is_refused) {
    static const char *const names[] = {"stand.png", "stand.jpg", "stand-progressive.jpg"};
    for (int i = 0; i < 3; i++) {
        Buffer bytes;
        BookImage image = {0};
        bytes_of(names[i], &bytes);
        for (size_t length = 0; length < bytes.length; length++)
            cr_expect_neq(check(&bytes, length, &image), IMAGE_OK, "%s, %zu bytes", names[i], length);
        buffer_add_text(&bytes, "<script>");
        cr_expect_eq(check(&bytes, bytes.length, &image), IMAGE_BROKEN, "%s and more", names[i]);
        buffer_finish(&bytes);
    }
}

Test(image, every_changed_byte_of_a_png_is_found) {
    Buffer bytes;
    BookImage image = {0};
    bytes_of("stand.png", &bytes);
    for (size_t i = 0; i < bytes.length; i++) {
        bytes.data[i] = (char)(bytes.data[i] ^ 0x10);
        cr_expect_neq(check(&bytes, bytes.length, &image), IMAGE_OK, "byte %zu", i);
        bytes.data[i] = (char)(bytes.data[i] ^ 0x10);
    }
    buffer_finish(&bytes);
}

Test(image, no_changed_byte_of_a_jpeg_reads_past_its_end) {
    Buffer bytes;
    BookImage image = {0};
    bytes_of("stand.jpg", &bytes);
    for (size_t i = 0; i < bytes.length; i++)
        for (int k = 0; k < 8; k++) {
            const char before = bytes.data[i];
            bytes.data[i] = (char)(before ^ (1 << k));
            if (check(&bytes, bytes.length, &image) == IMAGE_OK)
                cr_expect(image.width > 0 && image.width <= IMAGE_SIDE_MOST && image.height > 0 &&
                          image.height <= IMAGE_SIDE_MOST);
            bytes.data[i] = before;
        }
    buffer_finish(&bytes);
}

static void reads(const char *recipe, const char *path, ImageError wanted) {
    Arena arena;
    BookImage image = {0};
    ImageRoom room = {.bytes = IMAGES_BYTES_MOST, .pixels = IMAGES_PIXELS_MOST};
    arena_init(&arena);
    const ImageError error = image_read(recipe, path, &room, &arena, &image);
    cr_expect_eq(error, wanted, "%s: %s, not: %s", path, image_error_text(error), image_error_text(wanted));
    arena_finish(&arena);
}

// pictures/stand.png has 24 by 18 pixels.
Test(image, all_pictures_of_a_booklet_share_their_room) {
    Arena arena;
    BookImage image = {0};
    arena_init(&arena);
    ImageRoom room = {.bytes = IMAGES_BYTES_MOST, .pixels = 2 * 24 * 18 + 1};
    cr_expect_eq(image_read(RECIPE, "pictures/stand.png", &room, &arena, &image), IMAGE_OK);
    cr_expect_eq(room.pixels, 24 * 18 + 1);
    cr_expect_eq(room.bytes, IMAGES_BYTES_MOST - image.length);
    cr_expect_eq(image_read(RECIPE, "pictures/stand.png", &room, &arena, &image), IMAGE_OK);
    cr_expect_eq(image_read(RECIPE, "pictures/stand.png", &room, &arena, &image), IMAGE_TOO_WIDE);
    room = (ImageRoom){.bytes = image.length + 1, .pixels = IMAGES_PIXELS_MOST};
    cr_expect_eq(image_read(RECIPE, "pictures/stand.png", &room, &arena, &image), IMAGE_OK);
    cr_expect_eq(image_read(RECIPE, "pictures/stand.png", &room, &arena, &image), IMAGE_TOO_LONG);
    arena_finish(&arena);
}

Test(image, only_pictures_below_the_folder_of_the_recipe_are_read) {
    reads(RECIPE, "pictures/stand.png", IMAGE_OK);
    reads(RECIPE, "./pictures/stand%2Epng", IMAGE_OUTSIDE);
    reads(RECIPE, "pictures/none.png", IMAGE_MISSING);
    reads(RECIPE, "../../cli/said.c", IMAGE_OUTSIDE);
    reads(RECIPE, "pictures/../../booked.c", IMAGE_OUTSIDE);
    reads(RECIPE, "%2e%2e/booked.c", IMAGE_OUTSIDE);
    reads(RECIPE, "/etc/passwd", IMAGE_OUTSIDE);
    reads(RECIPE, "file:pictures/stand.png", IMAGE_OUTSIDE);
    reads(RECIPE, "https://example.org/stand.png", IMAGE_OUTSIDE);
    reads(RECIPE, "", IMAGE_OUTSIDE);
    reads(NULL, "pictures/stand.png", IMAGE_OUTSIDE);
}

Test(image, what_is_no_picture_or_too_large_is_refused) {
    reads(RECIPE, "pictures/vector.svg", IMAGE_UNKNOWN);
    reads(RECIPE, "hostile.md", IMAGE_UNKNOWN);
    reads(RECIPE, "pictures/wide.png", IMAGE_TOO_WIDE);
}

static void add_part(Buffer *out, const char *name, const char *bytes, size_t length) {
    const size_t start = out->length + 4;
    for (int shift = 24; shift >= 0; shift -= 8)
        buffer_add_char(out, (char)(length >> shift));
    buffer_add_text(out, name);
    buffer_add(out, bytes, length);
    unsigned long crc = 0xFFFFFFFFul; // ISO/IEC 15948, annex D
    for (size_t i = start; i < out->length; i++) {
        crc ^= (unsigned char)out->data[i];
        for (int k = 0; k < 8; k++)
            crc = crc & 1 ? 0xEDB88320ul ^ crc >> 1 : crc >> 1;
    }
    crc = ~crc;
    for (int shift = 24; shift >= 0; shift -= 8)
        buffer_add_char(out, (char)(crc >> shift));
}

// 4 by 4 grey pixels, every part with its right sum, and in the data what no decoder opens.
Test(image, a_png_whose_parts_add_up_but_hold_no_picture_is_damaged) {
    char folder[] = "/tmp/rebato-image-XXXXXX", path[128], recipe[128];
    Buffer bytes;
    Fault fault;
    BookImage image = {0};
    fault_init(&fault);
    buffer_init(&bytes);
    buffer_add(&bytes, "\x89PNG\r\n\x1A\n", 8);
    add_part(&bytes, "IHDR", "\0\0\0\4\0\0\0\4\10\0\0\0\0", 13);
    add_part(&bytes, "IDAT", "no picture at all", 17);
    add_part(&bytes, "IEND", "", 0);
    cr_expect_eq(check(&bytes, bytes.length, &image), IMAGE_OK);
    cr_assert_not_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/grey.png", folder);
    snprintf(recipe, sizeof recipe, "%s/recipe.md", folder);
    cr_assert(file_write(path, bytes.data, bytes.length, &fault), "%s", fault.message);
    reads(recipe, "grey.png", IMAGE_BROKEN);
    unlink(path);
    rmdir(folder);
    buffer_finish(&bytes);
    fault_finish(&fault);
}

Test(image, a_link_that_leads_out_of_the_folder_is_not_followed) {
    char folder[] = "/tmp/rebato-image-XXXXXX", path[128], recipe[128];
    cr_assert_not_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/out.png", folder);
    snprintf(recipe, sizeof recipe, "%s/recipe.md", folder);
    cr_assert_eq(symlink(PICTURES "stand.png", path), 0);
    reads(recipe, "out.png", IMAGE_OUTSIDE);
    unlink(path);
    rmdir(folder);
}

Test(image, every_error_has_a_sentence) {
    for (int i = 0; i < IMAGE_ERROR_COUNT; i++)
        cr_expect(image_error_text((ImageError)i) && strlen(image_error_text((ImageError)i)) > 5);
}
