// Writes the booklet as one HTML file that needs nothing else: no script, no request, pictures inside.
#ifndef REBATO_BOOKLET_HTML_H
#define REBATO_BOOKLET_HTML_H

#include "base/buffer.h"
#include "booklet/document.h"

void html_write(const Book *book, Buffer *out);

#endif
