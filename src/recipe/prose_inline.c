// Inline marks may nest without end, so they are counted on the way along and nothing recurses. Values come
// in the order in which reader.c met them, which is how each one's place is known.
#include "recipe/prose_inline.h"

#include <string.h>

#include "base/memory.h"
#include "base/text.h"

#define LINK_BYTES_MOST 2048
#define CELLS_MOST 100000 // of one table, those left out in short rows counted: what is larger stays prose

typedef struct Spans {
    Span *items;
    int count, capacity;
} Spans;

// Where a cell of a table ends, among the spans.
typedef struct Cut {
    int span;
    bool row; // the row ends too
} Cut;

typedef struct Cuts {
    Cut *items;
    int count, capacity;
} Cuts;

// The inline content of one block on its way into spans.
typedef struct Inline {
    Reading *reading;
    Spans spans;
    ProseList pictures;
    Buffer text; // of the span that grows
    unsigned style;
    const char *link;
    int emphasis, strong; // marks that are open
    bool bars;            // of a table: a bar ends a cell, a line end a row
    Cuts cuts;
    Buffer shown; // what the picture that is open shows
    int picture;  // pictures that are open
} Inline;

// Only where a reader is led by her own click, to a page, a letter or a place in the booklet. NULL for all
// else.
static const char *safe_link(Arena *arena, const char *url) {
    static const char *const schemes[] = {"http://", "https://", "mailto:"};
    const size_t length = strlen(url);
    if (length > LINK_BYTES_MOST)
        return NULL;
    for (const unsigned char *at = (const unsigned char *)url; *at; at++)
        if (*at <= 0x20 || *at == 0x7F || strchr("\"<>\\^`{|}", *at))
            return NULL;
    if (url[0] == '#' && url[1])
        return arena_text(arena, url);
    for (size_t i = 0; i < sizeof schemes / sizeof *schemes; i++)
        if (text_starts_any_case(url, schemes[i]) && url[strlen(schemes[i])])
            return arena_text(arena, url);
    return NULL;
}

static void end_span(Inline *in) {
    if (in->text.length == 0)
        return;
    Span span = {.style = in->style,
                 .text = arena_text_n(in->reading->arena, in->text.data, in->text.length),
                 .link = in->link};
    ARRAY_ADD(&in->spans, span);
    buffer_clear(&in->text);
}

static void add_cut(Inline *in, bool row) {
    end_span(in);
    Cut cut = {.span = in->spans.count, .row = row};
    ARRAY_ADD(&in->cuts, cut);
}

static void add_text(Inline *in, unsigned extra, const char *text) {
    if (in->picture) {
        buffer_add_text(&in->shown, text);
        return;
    }
    const unsigned style = (in->emphasis ? SPAN_EMPHASIS : 0u) | (in->strong ? SPAN_STRONG : 0u) | extra;
    if (style != in->style)
        end_span(in);
    in->style = style;
    for (; *text; text++)
        if (in->bars && *text == '|' && !(style & (SPAN_CODE | SPAN_VALUE)))
            add_cut(in, false);
        else
            buffer_add_char(&in->text, *text == '\n' ? ' ' : *text);
}

static void add_break(Inline *in) {
    if (in->picture) {
        buffer_add_char(&in->shown, ' ');
        return;
    }
    end_span(in);
    Span span = {.text = "\n"};
    ARRAY_ADD(&in->spans, span);
}

// An inline code that begins with one equals sign is a value; reader.c has the same rule.
static bool is_value(const char *literal) {
    return literal[0] == '=' && literal[1] != '=' && literal[1] != '>';
}

static void add_code(Inline *in, const char *literal) {
    Reading *reading = in->reading;
    if (!is_value(literal) || reading->values >= reading->recipe->value_count) {
        add_text(in, SPAN_CODE, literal);
        return;
    }
    const RecipeValue *value = &reading->recipe->values[reading->values++];
    const char *text = reading->fill ? reading->fill(reading->context, value->line, value->column) : NULL;
    add_text(in, text ? SPAN_VALUE : SPAN_VALUE | SPAN_CODE, text ? text : value->expression);
}

static void end_picture(Inline *in, cmark_node *node) {
    if (--in->picture > 0)
        return;
    Reading *reading = in->reading;
    Prose picture = {.kind = PROSE_PICTURE, .step = reading->step};
    picture.text = arena_text(reading->arena, cmark_node_get_url(node));
    Span *shown = arena_take(reading->arena, sizeof *shown);
    shown->text = arena_text(reading->arena, in->shown.data);
    picture.spans = (SpanList){.items = shown, .count = *shown->text ? 1 : 0};
    ARRAY_ADD(&in->pictures, picture);
    buffer_clear(&in->shown);
}

static void leave_inline(Inline *in, cmark_node *node) {
    switch (cmark_node_get_type(node)) {
    case CMARK_NODE_EMPH:
        in->emphasis--;
        break;
    case CMARK_NODE_STRONG:
        in->strong--;
        break;
    case CMARK_NODE_LINK:
        end_span(in);
        in->link = NULL;
        break;
    case CMARK_NODE_IMAGE:
        end_picture(in, node);
        break;
    default:
        break;
    }
}

static void enter_inline(Inline *in, cmark_node *node) {
    switch (cmark_node_get_type(node)) {
    case CMARK_NODE_TEXT:
        add_text(in, 0, cmark_node_get_literal(node));
        break;
    case CMARK_NODE_CODE:
        add_code(in, cmark_node_get_literal(node));
        break;
    case CMARK_NODE_HTML_INLINE:
        if (!text_starts(cmark_node_get_literal(node), "<!--"))
            add_text(in, SPAN_CODE, cmark_node_get_literal(node));
        break;
    case CMARK_NODE_SOFTBREAK:
        if (in->bars && !in->picture)
            add_cut(in, true);
        else
            add_text(in, 0, " ");
        break;
    case CMARK_NODE_LINEBREAK:
        add_break(in);
        break;
    case CMARK_NODE_EMPH:
        in->emphasis++;
        break;
    case CMARK_NODE_STRONG:
        in->strong++;
        break;
    case CMARK_NODE_LINK:
        end_span(in);
        in->link = safe_link(in->reading->arena, cmark_node_get_url(node));
        break;
    case CMARK_NODE_IMAGE:
        in->picture++;
        break;
    default:
        break;
    }
}

static SpanList kept_spans(Arena *arena, const Spans *spans) {
    if (spans->count == 0)
        return (SpanList){0};
    Span *items = arena_take(arena, sizeof *items * (size_t)spans->count);
    memcpy(items, spans->items, sizeof *items * (size_t)spans->count);
    return (SpanList){.items = items, .count = spans->count};
}

static bool is_blank(SpanList spans) {
    for (int i = 0; i < spans.count; i++)
        if (spans.items[i].text[strspn(spans.items[i].text, " \n")])
            return false;
    return true;
}

// A paragraph is a table when its first line has a bar and its second is made of bars, hyphens and colons, as
// GitHub Flavored Markdown has it (section 4.10); cmark itself knows no tables.
static bool is_table(cmark_node *paragraph) {
    int line = 1, columns = 1;
    bool bar[3] = {false, false, false}, rule = false;
    for (cmark_node *at = cmark_node_first_child(paragraph); at; at = cmark_node_next(at)) {
        const cmark_node_type type = cmark_node_get_type(at);
        line += type == CMARK_NODE_SOFTBREAK;
        if (type == CMARK_NODE_SOFTBREAK || line > 2)
            continue;
        const char *text = type == CMARK_NODE_TEXT ? cmark_node_get_literal(at) : "";
        for (const char *c = line == 1 ? strchr(text, '|') : NULL; c; c = strchr(c + 1, '|'))
            columns++;
        bar[line] = bar[line] || strchr(text, '|');
        if (line == 2 && (type != CMARK_NODE_TEXT || text[strspn(text, "|-: \t")]))
            return false;
        rule = rule || (line == 2 && strchr(text, '-'));
    }
    return bar[1] && bar[2] && rule && columns <= CELLS_MOST / line;
}

static bool is_blank_text(const char *text) {
    return text[strspn(text, " ")] == '\0';
}

// The spans from .. to, without the blanks at both ends.
static SpanList trimmed(Arena *arena, Span *spans, int from, int to) {
    while (from < to && is_blank_text(spans[from].text))
        from++;
    while (to > from && is_blank_text(spans[to - 1].text))
        to--;
    if (from == to)
        return (SpanList){0};
    spans[from].text += strspn(spans[from].text, " ");
    const char *last = spans[to - 1].text;
    size_t length = strlen(last);
    while (length > 0 && last[length - 1] == ' ')
        length--;
    spans[to - 1].text = arena_text_n(arena, last, length);
    const Spans part = {.items = spans + from, .count = to - from};
    return kept_spans(arena, &part);
}

// The cells of one row: what stands before its first bar and behind its last one is a cell only where there
// is something.
static void read_row(Inline *in, int from_span, int first_cut, int last_cut, ProseList *cells) {
    Arena *arena = in->reading->arena;
    for (int i = first_cut; i <= last_cut; i++) {
        const int from = i == first_cut ? from_span : in->cuts.items[i - 1].span;
        Prose cell = {.kind = PROSE_CELL, .step = in->reading->step};
        cell.spans = trimmed(arena, in->spans.items, from, in->cuts.items[i].span);
        if (cell.spans.count > 0 || (i != first_cut && i != last_cut))
            ARRAY_ADD(cells, cell);
    }
}

Prose prose_holding(Arena *arena, Prose block, ProseList *inner) {
    block.count = inner->count;
    block.items = arena_take(arena, sizeof *block.items * (size_t)(inner->count ? inner->count : 1));
    if (inner->count)
        memcpy(block.items, inner->items, sizeof *block.items * (size_t)inner->count);
    mem_free(inner->items);
    *inner = (ProseList){0};
    return block;
}

// "---:" aligns to the right; ":---:" to the middle, which is left as it is.
static bool is_right(const Prose *cell) {
    const char *text = cell->spans.count ? cell->spans.items[0].text : "";
    const size_t length = strlen(text);
    return length > 1 && text[0] == '-' && text[length - 1] == ':';
}

static void add_table(Inline *in, Prose table, ProseList *out) {
    Reading *reading = in->reading;
    ProseList rows = {0}, rule = {0};
    int from_span = 0, first_cut = 0, columns = 0;
    add_cut(in, true);
    for (int i = 0, row = 0; i < in->cuts.count; i++) {
        if (!in->cuts.items[i].row)
            continue;
        ProseList cells = {0};
        read_row(in, from_span, first_cut, i, &cells);
        from_span = in->cuts.items[i].span;
        first_cut = i + 1;
        if (row++ == 1) {
            rule = cells;
            continue;
        }
        if (row == 1)
            columns = cells.count;
        while (cells.count < columns)
            ARRAY_ADD(&cells, ((Prose){.kind = PROSE_CELL, .step = reading->step}));
        cells.count = columns;
        Prose line = {.kind = PROSE_ROW, .step = reading->step};
        line = prose_holding(reading->arena, line, &cells);
        ARRAY_ADD(&rows, line);
    }
    for (int i = 0; i < rows.count; i++)
        for (int k = 0; k < columns; k++)
            rows.items[i].items[k].number = k < rule.count && is_right(&rule.items[k]);
    mem_free(rule.items);
    table.kind = PROSE_TABLE;
    table = prose_holding(reading->arena, table, &rows);
    ARRAY_ADD(out, table);
}

void prose_add_leaf(Reading *reading, cmark_node *node, Prose leaf, ProseList *out) {
    Inline in = {.reading = reading};
    buffer_init(&in.text);
    buffer_init(&in.shown);
    in.bars = leaf.kind == PROSE_PARAGRAPH && is_table(node);
    cmark_iter *iter = cmark_iter_new(node);
    for (cmark_event_type event; (event = cmark_iter_next(iter)) != CMARK_EVENT_DONE;) {
        cmark_node *at = cmark_iter_get_node(iter);
        if (event == CMARK_EVENT_ENTER)
            enter_inline(&in, at);
        else
            leave_inline(&in, at);
    }
    cmark_iter_free(iter);
    end_span(&in);
    if (in.bars)
        add_table(&in, leaf, out);
    else
        leaf.spans = kept_spans(reading->arena, &in.spans);
    if (!is_blank(leaf.spans))
        ARRAY_ADD(out, leaf);
    for (int i = 0; i < in.pictures.count; i++) {
        in.pictures.items[i].line = leaf.line;
        ARRAY_ADD(out, in.pictures.items[i]);
    }
    mem_free(in.spans.items);
    mem_free(in.cuts.items);
    mem_free(in.pictures.items);
    buffer_finish(&in.text);
    buffer_finish(&in.shown);
}
