#include "booklet/html_picture.h"

#include <stdio.h>

#include "booklet/html_text.h"
#include "sheet/picture.h"

// RFC 4648, section 4.
static void add_base64(Buffer *out, const unsigned char *bytes, size_t length) {
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    for (size_t i = 0; i < length; i += 3) {
        const size_t left = length - i;
        const unsigned group = (unsigned)bytes[i] << 16 | (left > 1 ? (unsigned)bytes[i + 1] << 8 : 0u) |
                               (left > 2 ? bytes[i + 2] : 0u);
        buffer_add_char(out, digits[group >> 18]);
        buffer_add_char(out, digits[group >> 12 & 63]);
        buffer_add_char(out, left > 1 ? digits[group >> 6 & 63] : '=');
        buffer_add_char(out, left > 2 ? digits[group & 63] : '=');
    }
}

static void add_image(const BookPicture *picture, Buffer *out) {
    const BookImage *image = &picture->image;
    buffer_add_text(out, "<img alt=\"");
    html_add_text(out, picture->alt);
    buffer_add_format(out, "\" width=\"%d\" height=\"%d\" src=\"data:image/%s;base64,", image->width,
                      image->height, image->kind == IMAGE_PNG ? "png" : "jpeg");
    add_base64(out, image->bytes, image->length);
    buffer_add_text(out, "\">\n");
}

// The room a drawing is given, mm. Words in it are 2.7 mm high type: on a phone (360 CSS pixels less the
// margins), which makes a drawing as wide as its page at most, they are 10 pixels in the widest of a step and
// more than 12 in a seam. A print has room for all at their true scale.
#define WIDE 92.0
#define SEAM_WIDE 72.0
#define SEAM_TALL 90.0

static PictureAsk ask_of(const Book *book, const BookPicture *picture) {
    const NumberMarks marks = language_marks(book->language);
    switch (picture->kind) {
    case BOOK_PICTURE_STEP:
    case BOOK_PICTURE_DRAFT:
        return (PictureAsk){.kind = picture->kind == BOOK_PICTURE_STEP ? PICTURE_STEP : PICTURE_DRAFT,
                            .step = picture->step,
                            .draft = picture->draft,
                            .width = WIDE,
                            .height = 120,
                            .marks = marks};
    case BOOK_PICTURE_PIECE:
        return (PictureAsk){.kind = PICTURE_PIECE, .piece = picture->piece, .width = 34, .height = 26};
    case BOOK_PICTURE_SEAM:
        return (PictureAsk){.kind = PICTURE_SEAM,
                            .seam = picture->seam,
                            .width = SEAM_WIDE,
                            .height = SEAM_TALL,
                            .marks = marks,
                            .colon = language_word(book->language, "figure.colon")};
    default:
        return (PictureAsk){.kind = PICTURE_ALL, .width = WIDE, .height = 110};
    }
}

void html_picture(const Book *book, const BookPicture *picture, int number, Buffer *out) {
    if (picture->kind == BOOK_PICTURE_IMAGE) {
        add_image(picture, out);
        return;
    }
    const PictureAsk ask = ask_of(book, picture);
    char prefix[24];
    snprintf(prefix, sizeof prefix, "p%d-", number);
    if (picture_svg(book->pictures, &ask, prefix, picture->alt, out))
        return;
    buffer_add_text(out, "<em>");
    html_add_text(out, picture->alt);
    buffer_add_text(out, "</em>\n");
}
