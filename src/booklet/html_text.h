// Words as they stand in HTML.
#ifndef REBATO_BOOKLET_HTML_TEXT_H
#define REBATO_BOOKLET_HTML_TEXT_H

#include "base/buffer.h"
#include "recipe/prose.h"

// Escapes what HTML takes for itself and leaves out what no text may hold.
void html_add_text(Buffer *out, const char *text);

// Styled words with their links.
void html_add_spans(Buffer *out, SpanList spans);

#endif
