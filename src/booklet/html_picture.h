// A picture of the booklet as it stands in HTML: a drawing as <svg>, a picture of the author's as <img>.
#ifndef REBATO_BOOKLET_HTML_PICTURE_H
#define REBATO_BOOKLET_HTML_PICTURE_H

#include "base/buffer.h"
#include "booklet/document.h"

// number: which picture of the file it is, so that no name inside it comes twice. Where nothing can be drawn,
// its words stand instead.
void html_picture(const Book *book, const BookPicture *picture, int number, Buffer *out);

#endif
