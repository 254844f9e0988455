// The author's prose as blocks of the booklet. Headings below the steps keep their order but no level is left
// out; links to a heading of the same recipe lead to its section here; code that runs is left out unless
// asked for.
#include <string.h>

#include "base/memory.h"
#include "booklet/anchor.h"
#include "booklet/composing.h"
#include "booklet/image.h"

#define LEVEL_MOST 6
#define COLUMN_WEIGHT_MOST 6

typedef struct Telling {
    Composing *c;
    const Lesson *lesson;
    int level; // of the heading these blocks stand under
    int from_level, last_level;
} Telling;

// The step of the recipe whose heading has that anchor, or NULL: the link is then left out.
static const char *link_in_book(const Telling *telling, const char *link) {
    if (link[0] != '#')
        return link;
    const Composing *c = telling->c;
    const Lesson *lesson = telling->lesson;
    char wanted[ANCHOR_MAX];
    anchor_of(link + 1, wanted);
    for (int i = 0; *wanted && i < lesson->step_count; i++)
        if (strcmp(lesson->titles[i], wanted) == 0 && c->anchors[lesson->first_step + i])
            return arena_format(c->arena, "#%s", c->anchors[lesson->first_step + i]);
    return NULL;
}

// In prose that runs from right to left a number and its unit would change places: U+2066 and U+2069 set them
// apart (Unicode Standard Annex 9, isolates).
static const char *value_in_prose(Composing *c, const char *language, const char *text) {
    text = say_filled(c, language, text);
    if (!language_tag_is_rtl(language ? language : c->book->prose_language))
        return text;
    return arena_format(c->arena, "\u2066%s\u2069", text);
}

static bool begins_with_number(const char *text) {
    return text[strspn(text, "+-")] >= '0' && text[strspn(text, "+-")] <= '9';
}

static SpanList tell_spans(const Telling *telling, SpanList spans) {
    Composing *c = telling->c;
    if (spans.count == 0)
        return spans;
    Span *items = arena_take(c->arena, sizeof *items * (size_t)spans.count);
    for (int i = 0; i < spans.count; i++) {
        items[i] = spans.items[i];
        if (items[i].link)
            items[i].link = link_in_book(telling, items[i].link);
        if (!(items[i].style & SPAN_VALUE))
            continue;
        items[i].text = value_in_prose(c, telling->lesson->language, items[i].text);
        if (!(items[i].style & SPAN_CODE) && !begins_with_number(spans.items[i].text))
            items[i].style &= ~SPAN_VALUE; // words that were chosen are part of the sentence
    }
    return (SpanList){.items = items, .count = spans.count};
}

static const char *plain_of(Composing *c, SpanList spans) {
    Buffer text;
    buffer_init(&text);
    for (int i = 0; i < spans.count; i++)
        buffer_add_text(&text, spans.items[i].text);
    return keep(c, &text);
}

// Where it cannot be shown its words stand instead, and a note says why.
static void tell_picture(const Telling *telling, const Prose *prose, BlockList *out) {
    Composing *c = telling->c;
    const char *shown = plain_of(c, prose->spans);
    const Recipe *recipe = telling->lesson->recipe;
    const bool built_in = !shelf_is_on_disk(c->shelf, recipe);
    BookImage image = {0};
    ImageError error =
        image_read(built_in ? NULL : recipe->file, prose->text, &c->image_room, c->arena, &image);
    if (error != IMAGE_OK) {
        buffer_add_format(c->notes, "the picture %s of %s, line %d, is not shown: %s\n", prose->text,
                          recipe->file, prose->line, image_error_text(error));
        BookBlock words = block_paragraph(
            span_styled(c, SPAN_EMPHASIS, say(c, "picture.missing", *shown ? shown : prose->text, NULL)));
        words.authored = true;
        words.language = telling->lesson->language;
        add_block(out, words);
        return;
    }
    BookPicture *picture = add_figure(c, out, 1, (SpanList){0});
    *picture = (BookPicture){
        .kind = BOOK_PICTURE_IMAGE, .image = image, .alt = *shown ? shown : say(c, "picture.unnamed", NULL)};
}

static void tell_blocks(Telling *telling, const Prose *prose, int count, BlockList *out);

static void tell_heading(Telling *telling, const Prose *prose, BlockList *out) {
    const int below = prose->level - telling->from_level > 1 ? prose->level - telling->from_level : 1;
    int level = telling->level + below;
    if (level > telling->last_level + 1)
        level = telling->last_level + 1;
    level = level > LEVEL_MOST ? LEVEL_MOST : level;
    telling->last_level = level;
    BookBlock heading = block_heading(level, NULL, tell_spans(telling, prose->spans));
    heading.authored = true;
    heading.language = telling->lesson->language;
    add_block(out, heading);
}

static void tell_holding(Telling *telling, const Prose *prose, BookKind kind, BlockList *out) {
    BlockList inner = {0};
    tell_blocks(telling, prose->items, prose->count, &inner);
    if (inner.count == 0 && kind != BOOK_ITEM)
        return;
    add_holding(telling->c, out,
                (BookBlock){.kind = kind,
                            .authored = true,
                            .language = telling->lesson->language,
                            .ordered = prose->ordered,
                            .tight = prose->tight,
                            .start = prose->start},
                &inner);
}

static int letters_in(SpanList spans) {
    size_t letters = 0;
    for (int i = 0; i < spans.count; i++)
        letters += strlen(spans.items[i].text);
    return letters > 1000 ? 1000 : (int)letters;
}

typedef struct Spans {
    Span *items;
    int count, capacity;
} Spans;

// A row of a table that is told without columns: what each is named, and what the row has there.
static SpanList row_spans(const Telling *telling, const Prose *names, const Prose *row) {
    Composing *c = telling->c;
    Spans spans = {0};
    for (int k = 0; k < names->count; k++) {
        const SpanList words = tell_spans(telling, row->items[k].spans);
        const char *name = plain_of(c, tell_spans(telling, names->items[k].spans));
        if (words.count == 0)
            continue;
        if (spans.count > 0)
            ARRAY_ADD(&spans, ((Span){.text = "\n"}));
        if (*name)
            ARRAY_ADD(&spans, ((Span){.style = SPAN_STRONG, .text = arena_format(c->arena, "%s: ", name)}));
        for (int i = 0; i < words.count; i++)
            ARRAY_ADD(&spans, words.items[i]);
    }
    Span *kept = arena_take(c->arena, sizeof *kept * (size_t)(spans.count + 1));
    memcpy(kept, spans.items, sizeof *kept * (size_t)spans.count);
    mem_free(spans.items);
    return (SpanList){.items = kept, .count = spans.count};
}

// A table too wide for a page, as a list of its rows, and a note says so.
static void tell_rows(const Telling *telling, const Prose *table, BlockList *out) {
    Composing *c = telling->c;
    const BookBlock own = {.authored = true, .language = telling->lesson->language};
    BlockList rows = {0};
    buffer_add_format(
        c->notes,
        "the table of %s, line %d, has %d columns, and a page has room for %d: its rows are a list\n",
        telling->lesson->recipe->file, table->line, table->items[0].count, BOOK_COLUMNS_MOST);
    for (int i = 1; i < table->count; i++) {
        BlockList words = {0};
        BookBlock row = own, item = own;
        row.kind = BOOK_PARAGRAPH;
        row.spans = row_spans(telling, &table->items[0], &table->items[i]);
        add_block(&words, row);
        item.kind = BOOK_ITEM;
        add_holding(c, &rows, item, &words);
    }
    BookBlock list = own;
    list.kind = BOOK_LIST;
    list.ordered = true;
    list.start = 1;
    if (rows.count > 0)
        add_holding(c, out, list, &rows);
}

// A column is as wide as its longest cell wants, within reason.
static void tell_table(const Telling *telling, const Prose *prose, BlockList *out) {
    Composing *c = telling->c;
    const int count = prose->count > 0 ? prose->items[0].count : 0;
    if (count == 0)
        return;
    if (count > BOOK_COLUMNS_MOST) {
        tell_rows(telling, prose, out);
        return;
    }
    BookColumn *columns = arena_take(c->arena, sizeof *columns * (size_t)count);
    TableMaking table = table_begin(columns, count, prose->count > 1, false);
    for (int row = 0; row < prose->count; row++)
        for (int k = 0; k < count; k++) {
            const Prose *cell = &prose->items[row].items[k];
            const int weight = 1 + letters_in(cell->spans) / 8;
            columns[k].number = cell->number;
            if (weight > columns[k].weight)
                columns[k].weight = weight > COLUMN_WEIGHT_MOST ? COLUMN_WEIGHT_MOST : weight;
            table_add(&table, (BookCell){.spans = tell_spans(telling, cell->spans),
                                         .authored = true,
                                         .language = telling->lesson->language});
        }
    table_end(c, &table, say(c, "table.title", NULL), out);
}

static void tell_block(Telling *telling, const Prose *prose, BlockList *out) {
    BookBlock block = {.authored = true, .language = telling->lesson->language};
    switch (prose->kind) {
    case PROSE_HEADING:
        tell_heading(telling, prose, out);
        return;
    case PROSE_PARAGRAPH:
        block.kind = BOOK_PARAGRAPH;
        block.spans = tell_spans(telling, prose->spans);
        break;
    case PROSE_LIST:
        tell_holding(telling, prose, BOOK_LIST, out);
        return;
    case PROSE_ITEM:
        tell_holding(telling, prose, BOOK_ITEM, out);
        return;
    case PROSE_QUOTE:
        tell_holding(telling, prose, BOOK_QUOTE, out);
        return;
    case PROSE_CODE:
        if (prose->runs && !telling->lesson->shows_code)
            return;
        block.kind = BOOK_CODE;
        block.text = prose->text;
        break;
    case PROSE_RULE:
        block.kind = BOOK_RULE;
        break;
    case PROSE_PICTURE:
        tell_picture(telling, prose, out);
        return;
    case PROSE_TABLE:
        tell_table(telling, prose, out);
        return;
    case PROSE_ROW:
    case PROSE_CELL:
        return;
    }
    add_block(out, block);
}

static void tell_blocks(Telling *telling, const Prose *prose, int count, BlockList *out) {
    for (int i = 0; i < count; i++)
        tell_block(telling, &prose[i], out);
}

SpanList prose_spans(Composing *c, const Lesson *lesson, SpanList spans) {
    const Telling telling = {.c = c, .lesson = lesson};
    return tell_spans(&telling, spans);
}

void add_prose(Composing *c, const Lesson *lesson, int step, int level, ProsePart part, BlockList *out) {
    Telling telling = {.c = c, .lesson = lesson, .level = level, .from_level = 2, .last_level = level};
    bool titled = false, summed = false;
    for (int i = 0; i < lesson->prose_count; i++) {
        const Prose *prose = &lesson->prose[i];
        if (prose->step != step)
            continue;
        const bool heading = prose->kind == PROSE_HEADING;
        if (heading && step == 0 && prose->level == 1 && !titled) {
            titled = true;
            continue;
        }
        if (heading && prose->level == 2)
            continue;
        const bool sums = step == 0 && !summed && prose->kind == PROSE_PARAGRAPH;
        summed = summed || sums;
        if (part == PROSE_UNLISTED ? prose->kind != PROSE_LIST
                                   : part == PROSE_ALL || (part == PROSE_SUMMARY) == sums)
            tell_block(&telling, prose, out);
    }
}
