// Writes the booklet as a PDF: paragraphs broken into lines and pages, figures beside or below the step they
// belong to, contents, outline and links.
#ifndef REBATO_BOOKLET_PAGES_H
#define REBATO_BOOKLET_PAGES_H

#include "base/buffer.h"
#include "base/fault.h"
#include "booklet/document.h"

// On pages of book->paper_width by paper_height. pages (may be NULL) gets their number. On failure fills
// fault and leaves out untouched.
bool pages_write(const Book *book, Buffer *out, int *pages, Fault *fault);

#endif
