// One walk over the blocks. Whatever a recipe's author wrote passes html_add_text, whatever leads away passed
// prose_inline.c, and pictures are bytes that image.c checked: nothing of a stranger's reaches the file as
// markup. The policy in the head says so to the browser once more.
#include "booklet/html.h"

#include <string.h>

#include "base/embedded.h"
#include "booklet/html_picture.h"
#include "booklet/html_text.h"

#define CONTENTS_DEPTH_MOST 3
#define PROSE_WEIGHT 5 // of a column that holds whole sentences
#define COLUMNS_MOST 5 // of a table on a phone; where there are more, each row becomes a card of its own

extern const Embedded booklet_style[]; // written by scripts/embed.py

typedef struct Html {
    const Book *book;
    Buffer *out;
    const char *language; // of what surrounds
    int pictures;         // drawn so far
} Html;

static void add(Html *html, const char *markup) {
    buffer_add_text(html->out, markup);
}

static void add_text(Html *html, const char *text) {
    html_add_text(html->out, text);
}

static void add_attribute(Html *html, const char *name, const char *value) {
    if (!value)
        return;
    buffer_add_format(html->out, " %s=\"", name);
    add_text(html, value);
    add(html, "\"");
}

// The author's language on the outermost block of what she wrote, where it is not that of what surrounds it.
// Gives the language to go back to.
static const char *begin_authored(Html *html, bool authored, const char *language) {
    const char *before = html->language;
    const char *tag = language ? language : html->book->prose_language;
    if (!authored || strcmp(tag, before) == 0)
        return before;
    add_attribute(html, "lang", tag);
    if (language_tag_is_rtl(tag) != language_tag_is_rtl(before))
        add(html, language_tag_is_rtl(tag) ? " dir=\"rtl\"" : " dir=\"ltr\"");
    html->language = tag;
    return before;
}

static void add_spans(Html *html, SpanList spans) {
    html_add_spans(html->out, spans);
}

static void add_picture(Html *html, const BookPicture *picture) {
    html_picture(html->book, picture, ++html->pictures, html->out);
}

static void add_blocks(Html *html, const BookBlock *blocks, int count);

static void add_heading(Html *html, const BookBlock *block) {
    buffer_add_format(html->out, "<h%d", block->level);
    const char *before = begin_authored(html, block->authored, block->language);
    add(html, ">");
    if (block->number) {
        add(html, "<span class=\"number\">");
        add_text(html, block->number);
        add(html, "</span>");
    }
    add_spans(html, block->spans);
    buffer_add_format(html->out, "</h%d>\n", block->level);
    html->language = before;
}

static void add_paragraph(Html *html, const BookBlock *block) {
    add(html, "<p");
    const char *before = begin_authored(html, block->authored, block->language);
    add(html, ">");
    add_spans(html, block->spans);
    add(html, "</p>\n");
    html->language = before;
}

static void add_list(Html *html, const BookBlock *block) {
    const char *tag = block->ordered ? "ol" : "ul";
    buffer_add_format(html->out, "<%s", tag);
    if (block->ordered && block->start != 1)
        buffer_add_format(html->out, " start=\"%d\"", block->start);
    const char *before = begin_authored(html, block->authored, block->language);
    add(html, ">\n");
    for (int i = 0; i < block->count; i++) {
        const BookBlock *item = &block->items[i];
        add(html, "<li>");
        for (int k = 0; k < item->count; k++)
            if (block->tight && item->items[k].kind == BOOK_PARAGRAPH)
                add_spans(html, item->items[k].spans);
            else
                add_blocks(html, &item->items[k], 1);
        add(html, "</li>\n");
    }
    buffer_add_format(html->out, "</%s>\n", tag);
    html->language = before;
}

static void add_quote(Html *html, const BookBlock *block) {
    add(html, "<blockquote");
    const char *before = begin_authored(html, block->authored, block->language);
    add(html, ">\n");
    add_blocks(html, block->items, block->count);
    add(html, "</blockquote>\n");
    html->language = before;
}

static bool is_cards(const BookTable *table) {
    return table->header && table->names_first && table->column_count > COLUMNS_MOST;
}

// On a card each cell says what it is.
static void add_card_label(Html *html, SpanList heading) {
    add(html, " data-label=\"");
    for (int i = 0; i < heading.count; i++)
        add_text(html, heading.items[i].text);
    add(html, "\"");
}

static void add_cell(Html *html, const BookTable *table, int row, int column) {
    const BookCell *cell = &table->cells[row * table->column_count + column];
    const bool head = table->header && row == 0, name = table->names_first && column == 0;
    const char *tag = head || name ? "th" : "td";
    buffer_add_format(html->out, "<%s", tag);
    if (head || name)
        add_attribute(html, "scope", head ? "col" : "row");
    if (table->columns[column].number)
        add(html, " class=\"n\"");
    else if (table->columns[column].weight >= PROSE_WEIGHT)
        add(html, " class=\"prose\"");
    if (is_cards(table) && row > 0 && column > 0)
        add_card_label(html, table->cells[column].spans);
    const char *before = begin_authored(html, cell->authored, cell->language);
    add(html, ">");
    if (cell->picture)
        add_picture(html, cell->picture);
    add_spans(html, cell->spans);
    buffer_add_format(html->out, "</%s>", tag);
    html->language = before;
}

// What is too wide for a phone moves sideways, by finger or by key.
static void add_table(Html *html, const BookTable *table) {
    add(html, "<section class=\"table");
    add(html, is_cards(table) ? " cards\" tabindex=\"0\"" : "\" tabindex=\"0\"");
    add_attribute(html, "aria-label", table->title);
    add(html, "><table>\n");
    for (int row = 0; row < table->row_count; row++) {
        const bool head = table->header && row == 0, first = row == (table->header ? 1 : 0);
        add(html, head ? "<thead><tr>" : first ? "<tbody>\n<tr>" : "<tr>");
        for (int column = 0; column < table->column_count; column++)
            add_cell(html, table, row, column);
        add(html, head ? "</tr></thead>\n" : "</tr>\n");
    }
    add(html, "</tbody></table></section>\n");
}

static void add_figure(Html *html, const BookBlock *block) {
    add(html, "<figure>\n");
    for (int i = 0; i < block->picture_count; i++)
        add_picture(html, &block->pictures[i]);
    if (block->spans.count > 0) {
        add(html, "<figcaption>");
        add_spans(html, block->spans);
        add(html, "</figcaption>\n");
    }
    add(html, "</figure>\n");
}

static void add_notice(Html *html, const BookBlock *block) {
    static const char *const names[] = {[TONE_NOTE] = "note",
                                        [TONE_CAUTION] = "caution",
                                        [TONE_WARNING] = "warning",
                                        [TONE_FAILED] = "failed"};
    buffer_add_format(html->out, "<div class=\"notice %s\" role=\"note\">\n", names[block->tone]);
    add_blocks(html, block->items, block->count);
    add(html, "</div>\n");
}

static void add_code(Html *html, const BookBlock *block) {
    add(html, "<pre><code>");
    add_text(html, block->text);
    add(html, "</code></pre>\n");
}

static void add_entry(Html *html, const BookEntry *entry) {
    add(html, "<li><a");
    buffer_add_format(html->out, " href=\"#%s\"", entry->anchor);
    const char *before = begin_authored(html, entry->authored, entry->language);
    add(html, ">");
    if (entry->number) {
        add(html, "<span class=\"number\">");
        add_text(html, entry->number);
        add(html, "</span>");
    }
    add_text(html, entry->title);
    add(html, "</a>");
    html->language = before;
}

static void add_contents(Html *html) {
    const Book *book = html->book;
    int depth = -1;
    for (int i = 0; i < book->entry_count; i++) {
        const BookEntry *entry = &book->entries[i];
        if (entry->depth >= CONTENTS_DEPTH_MOST)
            continue;
        if (entry->depth > depth)
            add(html, depth < 0 ? "<ol>\n" : "\n<ol>\n");
        for (; depth > entry->depth; depth--)
            add(html, "</li>\n</ol>\n");
        if (i > 0 && depth == entry->depth)
            add(html, "</li>\n");
        depth = entry->depth;
        add_entry(html, entry);
    }
    for (; depth >= 0; depth--)
        add(html, "</li>\n</ol>\n");
}

static bool stands_beside(const BookBlock *block) {
    return block->kind == BOOK_FIGURE && block->picture_count > 0 &&
           (block->pictures[0].kind == BOOK_PICTURE_STEP || block->pictures[0].kind == BOOK_PICTURE_SEAM);
}

// The words of a step, its figures beside them where there is room, and then what it used.
static void add_step(Html *html, const BookBlock *block) {
    bool words = false, figures = false;
    for (int i = 1; i < block->count; i++) {
        words = words || (!stands_beside(&block->items[i]) && block->items[i].kind != BOOK_SECTION);
        figures = figures || stands_beside(&block->items[i]);
    }
    add_blocks(html, block->items, 1);
    add(html, words && figures ? "<div class=\"beside\">\n<div>\n" : "");
    for (int i = 1; i < block->count; i++)
        if (!stands_beside(&block->items[i]) && block->items[i].kind != BOOK_SECTION)
            add_blocks(html, &block->items[i], 1);
    add(html, words && figures ? "</div>\n<div>\n" : "");
    for (int i = 1; i < block->count; i++)
        if (stands_beside(&block->items[i]))
            add_blocks(html, &block->items[i], 1);
    add(html, words && figures ? "</div>\n</div>\n" : "");
    for (int i = 1; i < block->count; i++)
        if (block->items[i].kind == BOOK_SECTION)
            add_blocks(html, &block->items[i], 1);
}

// A section headed by its author from right to left, so that its figures stand on the other side too.
static bool runs_other_way(const Html *html, const BookBlock *section) {
    const BookBlock *heading = section->count > 0 ? &section->items[0] : NULL;
    if (!heading || heading->kind != BOOK_HEADING || !heading->authored || section->role == ROLE_FRONT)
        return false;
    return language_tag_is_rtl(heading->language ? heading->language : html->book->prose_language);
}

static void add_section(Html *html, const BookBlock *block) {
    static const char *const classes[] = {
        [ROLE_FRONT] = "front", [ROLE_CONTENTS] = "contents", [ROLE_STEP] = "step",
        [ROLE_USED] = "used",   [ROLE_PART] = "part",         [ROLE_VERSION] = "version"};
    enum { COUNT = sizeof classes / sizeof *classes };
    const bool nav = block->role == ROLE_CONTENTS;
    add(html, nav ? "<nav" : "<section");
    if ((int)block->role < COUNT)
        add_attribute(html, "class", classes[block->role]);
    if (nav)
        add_attribute(html, "aria-label", book_word(html->book, "contents"));
    add_attribute(html, "id", block->anchor);
    if (runs_other_way(html, block))
        add(html, " dir=\"rtl\"");
    add(html, ">\n");
    if (block->role == ROLE_STEP)
        add_step(html, block);
    else
        add_blocks(html, block->items, block->count);
    add(html, nav ? "</nav>\n" : "</section>\n");
}

static void add_block(Html *html, const BookBlock *block) {
    switch (block->kind) {
    case BOOK_SECTION:
        add_section(html, block);
        return;
    case BOOK_HEADING:
        add_heading(html, block);
        return;
    case BOOK_PARAGRAPH:
        add_paragraph(html, block);
        return;
    case BOOK_LIST:
        add_list(html, block);
        return;
    case BOOK_ITEM:
        add_blocks(html, block->items, block->count);
        return;
    case BOOK_QUOTE:
        add_quote(html, block);
        return;
    case BOOK_CODE:
        add_code(html, block);
        return;
    case BOOK_RULE:
        add(html, "<hr>\n");
        return;
    case BOOK_TABLE:
        add_table(html, block->table);
        return;
    case BOOK_FIGURE:
        add_figure(html, block);
        return;
    case BOOK_NOTICE:
        add_notice(html, block);
        return;
    case BOOK_CONTENTS:
        add_contents(html);
        return;
    }
}

static void add_blocks(Html *html, const BookBlock *blocks, int count) {
    for (int i = 0; i < count; i++)
        add_block(html, &blocks[i]);
}

static void add_head(Html *html) {
    const Book *book = html->book;
    add(html, "<!DOCTYPE html>\n<html");
    add_attribute(html, "lang", language_tag(book->language));
    add(html, ">\n<head>\n<meta charset=\"utf-8\">\n"
              "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
              "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; "
              "style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n<meta name=\"referrer\" "
              "content=\"no-referrer\">\n<title>");
    add_text(html, book->title);
    add(html, "</title>\n<meta name=\"description\"");
    add_attribute(html, "content", book->subject);
    add(html, ">\n<style>\n");
    add(html, booklet_style[0].text);
    add(html, "</style>\n</head>\n<body>\n<main>\n");
}

// One touch back to the contents from wherever she reads.
static void add_jump(Html *html) {
    for (int i = 0; i < html->book->count; i++) {
        const BookBlock *block = &html->book->blocks[i];
        if (block->role != ROLE_CONTENTS || !block->anchor)
            continue;
        buffer_add_format(html->out, "<footer class=\"jump\"><a href=\"#%s\">", block->anchor);
        add_text(html, book_word(html->book, "contents"));
        add(html, "</a></footer>\n");
        return;
    }
}

void html_write(const Book *book, Buffer *out) {
    Html html = {.book = book, .out = out, .language = language_tag(book->language)};
    add_head(&html);
    add_blocks(&html, book->blocks, book->count);
    add(&html, "</main>\n");
    add_jump(&html);
    add(&html, "</body>\n</html>\n");
}
