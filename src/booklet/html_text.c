#include "base/text.h"
#include "booklet/html.h"

// The characters HTML allows: no controls but the blanks, no surrogates, no noncharacters (WHATWG
// HTML, 13.1.1).
static bool is_allowed(uint32_t c) {
    if (c < 0x20)
        return c == '\t' || c == '\n';
    return !(c >= 0x7F && c <= 0x9F) && !(c >= 0xD800 && c <= 0xDFFF) && !(c >= 0xFDD0 && c <= 0xFDEF) &&
           (c & 0xFFFE) != 0xFFFE;
}

void html_add_text(Buffer *out, const char *text) {
    for (const char *at = text; *at;) {
        const char *from = at;
        const uint32_t c = text_next(&at);
        if (!is_allowed(c))
            continue;
        switch (c) {
        case '&':
            buffer_add_text(out, "&amp;");
            break;
        case '<':
            buffer_add_text(out, "&lt;");
            break;
        case '>':
            buffer_add_text(out, "&gt;");
            break;
        case '"':
            buffer_add_text(out, "&quot;");
            break;
        case '\'':
            buffer_add_text(out, "&#39;");
            break;
        case 0xFFFD: // where the bytes were no UTF-8
            buffer_add_text(out, "\uFFFD");
            break;
        default:
            buffer_add(out, from, (size_t)(at - from));
        }
    }
}
