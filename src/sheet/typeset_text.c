// A paragraph is laid out twice where words may be broken: first with a soft hyphen at every place a break
// may be, then with a hyphen where a line ends. Breaking is the same, and no word holds a character that is
// not seen, which would keep it from being found in the text of the PDF. Nor is the hyphen there a soft one:
// both have one glyph, which has one meaning in a PDF, and "half-way" would be read with a soft one too.
#include <string.h>

#include "base/memory.h"
#include "sheet/hyphens.h"
#include "sheet/typesetting.h"

#define FAMILY "Open Sans, DejaVu Sans, Noto Sans, sans-serif"
#define MONO_FAMILY "DejaVu Sans Mono, Noto Sans Mono, monospace"
#define MONO_SIZE 0.92 // its letters look larger
#define SOFT_HYPHEN "\xC2\xAD"
#define HYPHEN "-"
#define VALUE_MOST 24    // bytes of a number that is kept on one line
#define SHORTEST_MM 35.0 // narrower paragraphs break no words but those too long for a line

static const TypeLookStyle looks[TYPE_LOOK_COUNT] = {
    [TYPE_TITLE] = {.size = 26, .bold = true},
    [TYPE_PART] = {.size = 16, .bold = true},
    [TYPE_STEP] = {.size = 12, .bold = true},
    [TYPE_SUB] = {.size = 10, .bold = true},
    [TYPE_BODY] = {.size = 9.6},
    [TYPE_SMALL] = {.size = 8.6},
    [TYPE_CAPTION] = {.size = 8.2, .grey = true},
    [TYPE_CODE] = {.size = 8.2},
    [TYPE_CODE_FINE] = {.size = 6.4},
    [TYPE_PALE] = {.size = 8, .grey = true},
};

const TypeLookStyle *type_look(TypeLook look) {
    return &looks[look];
}

typedef struct Break {
    size_t at; // byte of the plain text
    bool used;
} Break;

typedef struct Making {
    Typeset *set;
    const TypeAsk *ask;
    Buffer plain;
    struct {
        Break *items;
        int count, capacity;
    } breaks;
    size_t span_start;
} Making;

static void add_break(void *context, size_t at) {
    Making *making = context;
    ARRAY_ADD(&making->breaks, ((Break){.at = making->span_start + at, .used = true}));
}

static void find_breaks(Making *making, bool broken) {
    const TypeAsk *ask = making->ask;
    buffer_clear(&making->plain);
    const char *language = ask->language != NULL ? ask->language : making->set->options.language;
    for (int i = 0; i < ask->count; i++) {
        making->span_start = making->plain.length;
        buffer_add_text(&making->plain, ask->spans[i].text);
        const bool may =
            broken && ask->spans[i].link == NULL && (ask->spans[i].style & (TYPE_MONO | TYPE_VALUE)) == 0;
        if (may)
            hyphens_find(language, ask->spans[i].text, strlen(ask->spans[i].text), add_break, making);
    }
}

static PangoFontDescription *font_of(const PangoReady *pango, TypeLook look, unsigned style) {
    PangoFontDescription *font = pango->pango_font_description_new();
    const bool code = look == TYPE_CODE || look == TYPE_CODE_FINE;
    const bool mono = code || (style & TYPE_MONO) != 0;
    const bool bold = looks[look].bold || (style & (TYPE_STRONG | TYPE_VALUE)) != 0;
    pango->pango_font_description_set_family_static(font, mono ? MONO_FAMILY : FAMILY);
    pango->pango_font_description_set_weight(font,
                                             bold && !mono ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
    pango->pango_font_description_set_style(font, (style & TYPE_EMPHASIS) != 0 ? PANGO_STYLE_ITALIC
                                                                               : PANGO_STYLE_NORMAL);
    const double size = looks[look].size * (mono && !code ? MONO_SIZE : 1);
    pango->pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
    return font;
}

static void add_attribute(const PangoReady *pango, PangoAttrList *list, PangoAttribute *attribute, int from,
                          int to) {
    attribute->start_index = (guint)from;
    attribute->end_index = (guint)to;
    pango->pango_attr_list_insert(list, attribute);
}

// The text with a hyphen at the breaks in use, and the spans where they come to lie in it.
static void fill_layout(Making *making, const char *hyphen, TypeText *text) {
    const TypeAsk *ask = making->ask;
    const PangoReady *pango = making->set->pango;
    PangoAttrList *list = pango->pango_attr_list_new();
    Buffer words;
    buffer_init(&words);
    size_t plain = 0;
    int next = 0, link = 0;
    for (int i = 0; i < ask->count; i++) {
        const TypeSpan *span = &ask->spans[i];
        const int from = (int)words.length;
        for (size_t k = 0; span->text[k] != '\0'; k++, plain++) {
            for (; next < making->breaks.count && making->breaks.items[next].at == plain; next++)
                if (making->breaks.items[next].used)
                    buffer_add_text(&words, hyphen);
            if (span->text[k] == '\n')
                buffer_add_text(&words, "\xE2\x80\xA8"); // a line end within the paragraph
            else
                buffer_add_char(&words, span->text[k]);
        }
        const int to = (int)words.length;
        PangoFontDescription *font = font_of(pango, ask->look, span->style);
        add_attribute(pango, list, pango->pango_attr_font_desc_new(font), from, to);
        pango->pango_font_description_free(font);
        if ((span->style & (TYPE_VALUE | TYPE_TOGETHER)) != 0 &&
            strlen(span->text) <= VALUE_MOST) // "7 5/16 in" on one line
            add_attribute(pango, list, pango->pango_attr_allow_breaks_new(FALSE), from, to);
        if (span->link != NULL) {
            if (!ask->quiet)
                add_attribute(pango, list, pango->pango_attr_foreground_new(0x1F00, 0x3D00, 0x8500), from,
                              to);
            text->links[link].from = from;
            text->links[link].to = to;
            link++;
        }
    }
    // Letters drawn as one, as "fl", would be found by few readers that search the text.
    add_attribute(pango, list, pango->pango_attr_font_features_new("liga=0, clig=0"), 0, (int)words.length);
    pango->pango_layout_set_text(text->layout, words.data, (int)words.length);
    pango->pango_layout_set_attributes(text->layout, list);
    pango->pango_attr_list_unref(list);
    buffer_finish(&words);
}

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}

// Whether a line ends within a word, which pango does where the word is longer than the line.
static bool cuts_a_word(const Making *making, const TypeText *text) {
    const PangoReady *pango = making->set->pango;
    const int lines = pango->pango_layout_get_line_count(text->layout);
    size_t plain = 0, laid = 0;
    for (int i = 0; i + 1 < lines; i++) {
        const PangoLayoutLine *line = pango->pango_layout_get_line_readonly(text->layout, i);
        const size_t end = (size_t)(line->start_index + line->length);
        for (; laid < end && plain < making->plain.length; plain++)
            laid += making->plain.data[plain] == '\n' ? 3 : 1; // a line end is a character of three bytes
        if (plain > 0 && is_letter(making->plain.data[plain - 1]) && is_letter(making->plain.data[plain]))
            return true;
    }
    return false;
}

static bool keep_used_breaks(Making *making, const TypeText *text) {
    const PangoReady *pango = making->set->pango;
    if (making->breaks.count == 0)
        return false;
    size_t *at = mem_new(sizeof *at * (size_t)making->breaks.count); // in the text of the layout
    size_t plain = 0, more = 0;
    for (int i = 0; i < making->breaks.count; i++) {
        for (; plain < making->breaks.items[i].at; plain++)
            more += making->plain.data[plain] == '\n' ? 2 : 0; // bytes that a line end took beyond its own
        at[i] = plain + more + strlen(SOFT_HYPHEN) * (size_t)(i + 1);
        making->breaks.items[i].used = false;
    }
    const int lines = pango->pango_layout_get_line_count(text->layout);
    int next = 0;
    for (int i = 0; i + 1 < lines; i++) {
        const PangoLayoutLine *line = pango->pango_layout_get_line_readonly(text->layout, i);
        const size_t end = (size_t)(line->start_index + line->length);
        for (; next < making->breaks.count && at[next] <= end; next++)
            making->breaks.items[next].used = at[next] == end;
    }
    mem_free(at);
    return true;
}

static void read_lines(TypeText *text) {
    const PangoReady *pango = text->set->pango;
    text->count = pango->pango_layout_get_line_count(text->layout);
    text->lines = mem_new(sizeof *text->lines * (size_t)text->count);
    PangoLayoutIter *at = pango->pango_layout_get_iter(text->layout);
    for (int i = 0; i < text->count; i++, pango->pango_layout_iter_next_line(at)) {
        int from, to;
        PangoRectangle box;
        pango->pango_layout_iter_get_line_yrange(at, &from, &to);
        pango->pango_layout_iter_get_line_extents(at, NULL, &box);
        const PangoLayoutLine *line = pango->pango_layout_iter_get_line_readonly(at);
        text->lines[i] =
            (TypeLine){.top = (double)from / PANGO_SCALE,
                       .height = (double)(to - from) / PANGO_SCALE,
                       .baseline = (double)(pango->pango_layout_iter_get_baseline(at) - from) / PANGO_SCALE,
                       .left = (double)box.x / PANGO_SCALE,
                       .right = (double)(box.x + box.width) / PANGO_SCALE};
        if (i == 0)
            text->rtl = line->resolved_dir == PANGO_DIRECTION_RTL;
    }
    pango->pango_layout_iter_free(at);
}

TypeText *type_text_new(Typeset *set, const TypeAsk *ask) {
    const PangoReady *pango = set->pango;
    TypeText *text = mem_new(sizeof *text);
    *text = (TypeText){.set = set, .look = ask->look};
    pango->pango_context_set_language(
        set->context,
        pango->pango_language_from_string(ask->language != NULL ? ask->language : set->options.language));
    text->layout = pango->pango_layout_new(set->context);
    text->links = mem_new(sizeof *text->links * (size_t)(ask->count + 1));
    for (int i = 0; i < ask->count; i++)
        if (ask->spans[i].link != NULL)
            text->links[text->link_count++].link = mem_text(ask->spans[i].link);
    pango->pango_layout_set_width(text->layout, (int)(ask->width / POINT_MM * PANGO_SCALE));
    pango->pango_layout_set_wrap(text->layout, PANGO_WRAP_WORD_CHAR);
    pango->pango_layout_set_alignment(text->layout, ask->align == ALIGN_LEFT     ? PANGO_ALIGN_LEFT
                                                    : ask->align == ALIGN_MIDDLE ? PANGO_ALIGN_CENTER
                                                                                 : PANGO_ALIGN_RIGHT);
    PangoFontDescription *font = font_of(pango, ask->look, 0);
    pango->pango_layout_set_font_description(text->layout, font);
    pango->pango_font_description_free(font);
    Making making = {.set = set, .ask = ask};
    buffer_init(&making.plain);
    const bool wide = ask->width >= SHORTEST_MM;
    find_breaks(&making, ask->hyphens && wide);
    fill_layout(&making, SOFT_HYPHEN, text);
    if (ask->hyphens && !wide && cuts_a_word(&making, text)) {
        find_breaks(&making, true);
        fill_layout(&making, SOFT_HYPHEN, text);
    }
    if (keep_used_breaks(&making, text))
        fill_layout(&making, HYPHEN, text);
    read_lines(text);
    buffer_finish(&making.plain);
    mem_free(making.breaks.items);
    return text;
}

void type_text_free(TypeText *text) {
    if (text == NULL)
        return;
    text->set->pango->g_object_unref(text->layout);
    for (int i = 0; i < text->link_count; i++)
        mem_free(text->links[i].link);
    mem_free(text->links);
    mem_free(text->lines);
    mem_free(text);
}

int type_text_lines(const TypeText *text) {
    return text->count;
}

double type_text_line_height(const TypeText *text, int line) {
    return text->lines[line].height * POINT_MM;
}

double type_text_height(const TypeText *text) {
    double height = 0;
    for (int i = 0; i < text->count; i++)
        height += type_text_line_height(text, i);
    return height;
}

void type_text_extent(const TypeText *text, int line, double *from, double *to) {
    *from = text->lines[line].left * POINT_MM;
    *to = text->lines[line].right * POINT_MM;
}

double type_text_baseline(const TypeText *text, int line) {
    return text->lines[line].baseline * POINT_MM;
}

bool type_text_is_rtl(const TypeText *text) {
    return text->rtl;
}
