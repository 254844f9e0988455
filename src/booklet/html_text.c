#include "booklet/html_text.h"

#include <string.h>

#include "base/text.h"
#include "booklet/number_unit.h"

// The characters HTML allows: no controls but the blanks, no surrogates, no noncharacters (WHATWG
// HTML, 13.1.1).
static bool is_allowed(uint32_t c) {
    if (c < 0x20)
        return c == '\t' || c == '\n';
    return !(c >= 0x7F && c <= 0x9F) && !(c >= 0xD800 && c <= 0xDFFF) && !(c >= 0xFDD0 && c <= 0xFDEF) &&
           (c & 0xFFFE) != 0xFFFE;
}

static void add_bytes(Buffer *out, const char *text, size_t length) {
    for (const char *at = text; at < text + length;) {
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

void html_add_text(Buffer *out, const char *text) {
    add_bytes(out, text, strlen(text));
}

// A number stays on one line with its unit.
static void add_words(Buffer *out, const char *text) {
    size_t done = 0, from, to;
    while (number_unit_find(text, done, &from, &to)) {
        add_bytes(out, text + done, from - done);
        for (size_t i = from; i < to; i++)
            buffer_add(out, text[i] == ' ' ? "\u00A0" : text + i, text[i] == ' ' ? strlen("\u00A0") : 1);
        done = to;
    }
    html_add_text(out, text + done);
}

// A value stays on one line; longer ones are words, and break.
#define NUMBER_MOST 20

static void add_styled(Buffer *out, const Span *span) {
    const struct {
        unsigned style;
        const char *open, *close;
    } tags[] = {{SPAN_STRONG, "<strong>", "</strong>"},
                {SPAN_EMPHASIS, "<em>", "</em>"},
                {SPAN_CODE, "<code>", "</code>"},
                {SPAN_VALUE,
                 strlen(span->text) > NUMBER_MOST ? "<span class=\"value long\">" : "<span class=\"value\">",
                 "</span>"}};
    enum { COUNT = sizeof tags / sizeof *tags };
    for (int i = 0; i < COUNT; i++)
        if (span->style & tags[i].style)
            buffer_add_text(out, tags[i].open);
    if (span->style & SPAN_CODE)
        html_add_text(out, span->text);
    else
        add_words(out, span->text);
    for (int i = COUNT - 1; i >= 0; i--)
        if (span->style & tags[i].style)
            buffer_add_text(out, tags[i].close);
}

static bool same_link(const char *one, const char *other) {
    return one == other || (one && other && strcmp(one, other) == 0);
}

void html_add_spans(Buffer *out, SpanList spans) {
    const char *link = NULL;
    for (int i = 0; i < spans.count; i++) {
        const Span *span = &spans.items[i];
        if (!same_link(span->link, link)) {
            if (link)
                buffer_add_text(out, "</a>");
            link = span->link;
            if (link) {
                buffer_add_text(out, "<a href=\"");
                html_add_text(out, link);
                buffer_add_text(out, link[0] == '#' ? "\">" : "\" rel=\"noopener noreferrer\">");
            }
        }
        if (strcmp(span->text, "\n") == 0)
            buffer_add_text(out, "<br>");
        else
            add_styled(out, span);
    }
    if (link)
        buffer_add_text(out, "</a>");
}
