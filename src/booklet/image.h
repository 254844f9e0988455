// Pictures beside a recipe: found below its folder only, and checked to be what they say before they are
// shown.
#ifndef REBATO_BOOKLET_IMAGE_H
#define REBATO_BOOKLET_IMAGE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "booklet/document.h"

#define IMAGE_BYTES_MOST (4u * 1024u * 1024u)
#define IMAGES_BYTES_MOST (24u * 1024u * 1024u) // of all in one booklet
#define IMAGE_SIDE_MOST 8000                    // pixels
#define IMAGE_PIXELS_MOST (24 * 1000 * 1000)
#define IMAGES_PIXELS_MOST (48 * 1000 * 1000) // of all: each is opened anew where it is shown

// What is left for the pictures of one booklet.
typedef struct ImageRoom {
    size_t bytes;
    long pixels;
} ImageRoom;

typedef enum ImageError {
    IMAGE_OK,
    IMAGE_OUTSIDE, // an address, or a path that leads out of the recipe's folder
    IMAGE_MISSING,
    IMAGE_TOO_LONG, // in bytes
    IMAGE_TOO_WIDE, // in pixels
    IMAGE_UNKNOWN,  // neither PNG nor JPEG; a vector picture may carry a script, so it is not taken
    IMAGE_BROKEN,
    IMAGE_ERROR_COUNT
} ImageError;

const char *image_error_text(ImageError error); // one sentence, no full stop

// Reads and opens the file that path names, as written in the recipe of that file on disk (NULL for a
// built-in, which has no pictures), and takes its part of the room, whether it opens or not. The bytes live
// in the arena.
ImageError image_read(const char *recipe_file, const char *path, ImageRoom *room, Arena *arena,
                      BookImage *out);

// Tells what the bytes are, and how many pixels: every part of the file is walked to its end.
ImageError image_check(const unsigned char *bytes, size_t length, BookImage *out);

#endif
