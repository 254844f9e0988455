#include <string.h>

#include "base/memory.h"
#include "booklet/number_unit.h"
#include "booklet/paging.h"

#define LONG_WORD 100

static bool leads_somewhere(const Paging *p, const char *link) {
    if (link == NULL || *link != '#')
        return link != NULL;
    for (int i = 0; i < p->places.count; i++)
        if (strcmp(p->places.items[i], link + 1) == 0)
            return true;
    return false;
}

const char *page_language(const Paging *p, const Column *column, bool authored, const char *language) {
    if (!authored)
        return column->language;
    return language != NULL ? language : p->book->prose_language;
}

// Blanks; and letters of scripts that are broken without them.
static bool ends_run(char c) {
    return c == ' ' || c == '\n' || (unsigned char)c >= 0xE0;
}

// A word of thousands of letters takes pango long to break: it may be broken at every LONG_WORD bytes.
static const char *soften(Paging *p, const char *text) {
    size_t run = 0, longest = 0;
    for (const char *at = text; *at != '\0'; at++) {
        run = ends_run(*at) ? 0 : run + 1;
        longest = run > longest ? run : longest;
    }
    if (longest < 2 * LONG_WORD)
        return text;
    Buffer soft;
    buffer_init(&soft);
    run = 0;
    for (const char *at = text; *at != '\0'; at++) {
        const bool starts = ((unsigned char)*at & 0xC0) != 0x80; // a character
        if (run >= LONG_WORD && starts) {
            buffer_add_text(&soft, "\xE2\x80\x8B"); // a space of no width
            run = 0;
        }
        run = ends_run(*at) ? 0 : run + 1;
        buffer_add_char(&soft, *at);
    }
    const char *kept = arena_text(&p->arena, soft.data);
    buffer_finish(&soft);
    return kept;
}

typedef struct SpanMaking {
    Paging *p;
    TypeSpan *items;
    int count, capacity;
} SpanMaking;

static void add_part(SpanMaking *making, TypeSpan span, size_t from, size_t to) {
    if (from >= to)
        return;
    span.text = arena_text_n(&making->p->arena, span.text + from, to - from);
    ARRAY_ADD(making, span);
}

// A number is not parted from its unit.
static void add_words(SpanMaking *making, TypeSpan span) {
    size_t done = 0, from, to;
    while ((span.style & TYPE_MONO) == 0 && number_unit_find(span.text, done, &from, &to)) {
        add_part(making, span, done, from);
        TypeSpan value = span;
        value.style |= TYPE_TOGETHER;
        add_part(making, value, from, to);
        done = to;
    }
    if (done == 0)
        ARRAY_ADD(making, span);
    else
        add_part(making, span, done, strlen(span.text));
}

TypeText *page_text(Paging *p, TypeLook look, SpanList spans, double width, const char *language,
                    Align align) {
    SpanMaking making = {.p = p};
    for (int i = 0; i < spans.count; i++) {
        const Span *span = &spans.items[i];
        const TypeSpan own = {.style = ((span->style & SPAN_EMPHASIS) ? TYPE_EMPHASIS : 0u) |
                                       ((span->style & SPAN_STRONG) ? TYPE_STRONG : 0u) |
                                       ((span->style & SPAN_CODE) ? TYPE_MONO : 0u) |
                                       ((span->style & SPAN_VALUE) ? TYPE_VALUE : 0u),
                              .text = soften(p, span->text),
                              .link = leads_somewhere(p, span->link) ? span->link : NULL};
        if (*own.text == '\0')
            ARRAY_ADD(&making, own);
        else
            add_words(&making, own);
    }
    const bool running = look == TYPE_BODY || look == TYPE_SMALL;
    const TypeAsk ask = {.look = look,
                         .width = width,
                         .language = language,
                         .spans = making.items,
                         .count = making.count,
                         .align = align,
                         .hyphens = running && align == ALIGN_LEFT,
                         .quiet = p->quiet_links};
    TypeText *text = type_text_new(p->set, &ask);
    mem_free(making.items);
    ARRAY_ADD(&p->texts, text);
    return text;
}
