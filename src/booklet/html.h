// Writes the booklet as one HTML file that needs nothing else: no script, no request, pictures inside.
#ifndef REBATO_BOOKLET_HTML_H
#define REBATO_BOOKLET_HTML_H

#include "base/buffer.h"
#include "base/fault.h"
#include "booklet/document.h"

// On failure (a picture that cannot be drawn) fills fault and leaves out untouched.
bool html_write(const Book *book, Buffer *out, Fault *fault);

#endif
