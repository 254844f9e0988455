// PNG: the ISO/IEC 15948 signature, then parts of length, name, bytes and CRC-32, IHDR first and IEND last.
// JPEG: ITU-T T.81 annex B, segments from SOI to EOI, the size in the frame header. A PNG is decoded as
// well, since its parts may add up and hold no picture. A picture whose parts do not add up is refused, and
// so is one that would fill the memory of who opens it.
#include "booklet/image.h"

#include <limits.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/buffer.h"
#include "base/fault.h"
#include "base/file.h"
#include "sheet/typeset.h"

static const char *const error_texts[IMAGE_ERROR_COUNT] = {
    [IMAGE_OK] = "the picture is fine",
    [IMAGE_OUTSIDE] = "it does not stand beside the recipe or below it",
    [IMAGE_MISSING] = "there is no such file",
    [IMAGE_TOO_LONG] = "it is longer than 4 MB, or all pictures together than 24 MB",
    [IMAGE_TOO_WIDE] = "it has more than 8000 pixels on a side or 24 million in all, or all pictures "
                       "together more than 48 million",
    [IMAGE_UNKNOWN] = "it is neither PNG nor JPEG",
    [IMAGE_BROKEN] = "the file is damaged",
};

const char *image_error_text(ImageError error) {
    return error_texts[error];
}

static uint32_t big_endian(const unsigned char *at, int bytes) {
    uint32_t value = 0;
    for (int i = 0; i < bytes; i++)
        value = value << 8 | at[i];
    return value;
}

// CRC-32 of ISO/IEC 15948 annex D, bit by bit.
static uint32_t crc_of(const unsigned char *bytes, size_t length) {
    static uint32_t table[256];
    if (!table[1])
        for (uint32_t i = 0; i < 256; i++) {
            uint32_t value = i;
            for (int k = 0; k < 8; k++)
                value = value & 1 ? 0xEDB88320u ^ value >> 1 : value >> 1;
            table[i] = value;
        }
    uint32_t crc = 0xFFFFFFFFu;
    for (size_t i = 0; i < length; i++)
        crc = table[(crc ^ bytes[i]) & 0xFF] ^ crc >> 8;
    return ~crc;
}

static ImageError check_size(uint32_t width, uint32_t height, BookImage *out) {
    if (width == 0 || height == 0)
        return IMAGE_BROKEN;
    if (width > IMAGE_SIDE_MOST || height > IMAGE_SIDE_MOST || (uint64_t)width * height > IMAGE_PIXELS_MOST)
        return IMAGE_TOO_WIDE;
    out->width = (int)width;
    out->height = (int)height;
    return IMAGE_OK;
}

static ImageError check_png(const unsigned char *bytes, size_t length, BookImage *out) {
    size_t at = 8;
    bool data = false;
    for (int part = 0;; part++) {
        if (length - at < 12)
            return IMAGE_BROKEN;
        const uint32_t size = big_endian(bytes + at, 4);
        if (size > length - at - 12)
            return IMAGE_BROKEN;
        const unsigned char *name = bytes + at + 4;
        if (crc_of(name, 4 + (size_t)size) != big_endian(name + 4 + size, 4))
            return IMAGE_BROKEN;
        if ((part == 0) != (memcmp(name, "IHDR", 4) == 0) || (part == 0 && size != 13))
            return IMAGE_BROKEN;
        if (part == 0) {
            const ImageError error = check_size(big_endian(name + 4, 4), big_endian(name + 8, 4), out);
            if (error != IMAGE_OK)
                return error;
        }
        data = data || memcmp(name, "IDAT", 4) == 0;
        at += 12 + (size_t)size;
        if (memcmp(name, "IEND", 4) == 0)
            return data && at == length ? IMAGE_OK : IMAGE_BROKEN;
    }
}

// Frame headers are C0 to CF, but for C4 (tables), C8 (reserved) and CC (arithmetic conditioning).
static bool is_frame(unsigned char marker) {
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

// Past the coded data that follows a scan header: up to a marker that is no restart and no stuffed byte.
static size_t scan_end(const unsigned char *bytes, size_t length, size_t at) {
    while (at + 1 < length &&
           !(bytes[at] == 0xFF && bytes[at + 1] != 0 && (bytes[at + 1] < 0xD0 || bytes[at + 1] > 0xD7)))
        at++;
    return at;
}

static ImageError check_jpeg(const unsigned char *bytes, size_t length, BookImage *out) {
    size_t at = 2;
    bool framed = false, scanned = false;
    for (;;) {
        while (at < length && bytes[at] == 0xFF && at + 1 < length && bytes[at + 1] == 0xFF)
            at++; // fill bytes
        if (length - at < 2 || bytes[at] != 0xFF)
            return IMAGE_BROKEN;
        const unsigned char marker = bytes[at + 1];
        at += 2;
        if (marker == 0xD9)
            return framed && scanned && at == length ? IMAGE_OK : IMAGE_BROKEN;
        if (length - at < 2)
            return IMAGE_BROKEN;
        const size_t size = big_endian(bytes + at, 2);
        if (size < 2 || size > length - at)
            return IMAGE_BROKEN;
        if (is_frame(marker)) {
            if (size < 8)
                return IMAGE_BROKEN;
            const ImageError error =
                check_size(big_endian(bytes + at + 5, 2), big_endian(bytes + at + 3, 2), out);
            if (error != IMAGE_OK)
                return error;
            framed = true;
        }
        at += size;
        if (marker == 0xDA) {
            at = scan_end(bytes, length, at);
            scanned = true;
        }
    }
}

ImageError image_check(const unsigned char *bytes, size_t length, BookImage *out) {
    static const unsigned char png[8] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
    BookImage image = {.bytes = bytes, .length = length};
    ImageError error = IMAGE_UNKNOWN;
    if (length > sizeof png && memcmp(bytes, png, sizeof png) == 0) {
        image.kind = IMAGE_PNG;
        error = check_png(bytes, length, &image);
    } else if (length > 3 && bytes[0] == 0xFF && bytes[1] == 0xD8 && bytes[2] == 0xFF) {
        image.kind = IMAGE_JPEG;
        error = check_jpeg(bytes, length, &image);
    }
    if (error == IMAGE_OK)
        *out = image;
    return error;
}

static int hex(char c) {
    return c >= '0' && c <= '9'                     ? c - '0'
           : (c | 0x20) >= 'a' && (c | 0x20) <= 'f' ? (c | 0x20) - 'a' + 10
                                                    : -1;
}

// The folder of the recipe and the path, "%20" read as a blank. False for an address and for what names the
// way out itself.
static bool join_path(const char *recipe_file, const char *path, Buffer *out) {
    if (!*path || *path == '/' || strchr(path, ':') || strchr(path, '\\') || strstr(path, ".."))
        return false;
    const char *slash = strrchr(recipe_file, '/');
    if (slash)
        buffer_add(out, recipe_file, (size_t)(slash + 1 - recipe_file));
    for (const char *at = path; *at; at++) {
        const bool coded = *at == '%' && hex(at[1]) >= 0 && hex(at[2]) >= 0;
        const int byte = coded ? hex(at[1]) * 16 + hex(at[2]) : (unsigned char)*at;
        if (byte < 0x20 || (coded && (byte == '/' || byte == '.')))
            return false;
        buffer_add_char(out, (char)byte);
        at += coded ? 2 : 0;
    }
    return true;
}

// Whether a file, its links followed, lies in the folder of the recipe, or below.
static bool lies_below(const char *recipe_file, const char *file) {
    const char *slash = strrchr(recipe_file, '/');
    Buffer folder;
    buffer_init(&folder);
    buffer_add(&folder, slash ? recipe_file : ".", slash ? (size_t)(slash + 1 - recipe_file) : 1);
    char *top = realpath(folder.data, NULL), *real = realpath(file, NULL);
    buffer_finish(&folder);
    const size_t length = top ? strlen(top) : 0;
    const bool below = top && real && strncmp(real, top, length) == 0 &&
                       (real[length] == '/' || (length > 0 && top[length - 1] == '/'));
    free(top);
    free(real);
    return below;
}

static ImageError take_room(ImageRoom *room, const BookImage *image) {
    const long pixels = (long)image->width * image->height;
    if (pixels > room->pixels)
        return IMAGE_TOO_WIDE;
    room->pixels -= pixels;
    room->bytes -= image->length;
    return IMAGE_OK;
}

ImageError image_read(const char *recipe_file, const char *path, ImageRoom *room, Arena *arena,
                      BookImage *out) {
    Buffer file, bytes;
    BookImage image = {0};
    Fault fault;
    buffer_init(&file);
    buffer_init(&bytes);
    fault_init(&fault);
    ImageError error = IMAGE_OK;
    if (!recipe_file || !join_path(recipe_file, path, &file))
        error = IMAGE_OUTSIDE;
    else if (!file_exists(file.data))
        error = IMAGE_MISSING;
    else if (!lies_below(recipe_file, file.data))
        error = IMAGE_OUTSIDE;
    else if (!file_read(file.data, room->bytes < IMAGE_BYTES_MOST ? room->bytes : IMAGE_BYTES_MOST, &bytes,
                        &fault))
        error = IMAGE_TOO_LONG;
    else
        error = image_check((const unsigned char *)bytes.data, bytes.length, &image);
    if (error == IMAGE_OK)
        error = take_room(room, &image); // before it is opened, so that all take no longer than that
    if (error == IMAGE_OK && !type_image_opens(&(TypeImage){.bytes = image.bytes,
                                                            .length = image.length,
                                                            .jpeg = image.kind == IMAGE_JPEG,
                                                            .width = image.width,
                                                            .height = image.height}))
        error = IMAGE_BROKEN;
    if (error == IMAGE_OK) {
        *out = image;
        out->bytes = (const unsigned char *)arena_text_n(arena, bytes.data, bytes.length);
    }
    buffer_finish(&file);
    buffer_finish(&bytes);
    fault_finish(&fault);
    return error;
}
