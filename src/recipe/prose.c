// The tree of cmark is walked once. Blocks nest no deeper than source.c lets them, so they are read by
// recursion; what stands inside a paragraph is read by prose_inline.c.
#include "recipe/prose.h"

#include <cmark.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "recipe/prose_inline.h"

static bool runs(cmark_node *node) {
    const char *info = cmark_node_get_fence_info(node);
    return strcspn(info, " \t{") == 3 && text_starts_any_case(info, "lua");
}

// What an author hides from her readers in <!-- -->, and nothing behind it.
static bool is_comment(const char *html) {
    const char *end = strstr(html, "-->");
    return text_starts(html, "<!--") && end && end[3 + strspn(end + 3, " \t\n")] == '\0';
}

static void read_blocks(Reading *reading, cmark_node *parent, ProseList *out);

static void add_container(Reading *reading, cmark_node *node, Prose block, ProseList *out) {
    ProseList inner = {0};
    read_blocks(reading, node, &inner);
    block = prose_holding(reading->arena, block, &inner);
    ARRAY_ADD(out, block);
}

static void add_code_block(Reading *reading, Prose block, const char *text, ProseList *out) {
    block.kind = PROSE_CODE;
    block.text = arena_text(reading->arena, text);
    ARRAY_ADD(out, block);
}

static void add_list(Reading *reading, cmark_node *node, Prose block, ProseList *out) {
    block.kind = PROSE_LIST;
    block.ordered = cmark_node_get_list_type(node) == CMARK_ORDERED_LIST;
    block.start = block.ordered ? cmark_node_get_list_start(node) : 1;
    block.tight = cmark_node_get_list_tight(node);
    add_container(reading, node, block, out);
}

static void add_block(Reading *reading, cmark_node *node, ProseList *out) {
    Prose block = {.line = cmark_node_get_start_line(node), .step = reading->step};
    switch (cmark_node_get_type(node)) {
    case CMARK_NODE_HEADING:
        block.kind = PROSE_HEADING;
        block.level = cmark_node_get_heading_level(node);
        prose_add_leaf(reading, node, block, out);
        return;
    case CMARK_NODE_PARAGRAPH:
        block.kind = PROSE_PARAGRAPH;
        prose_add_leaf(reading, node, block, out);
        return;
    case CMARK_NODE_LIST:
        add_list(reading, node, block, out);
        return;
    case CMARK_NODE_ITEM:
        block.kind = PROSE_ITEM;
        add_container(reading, node, block, out);
        return;
    case CMARK_NODE_BLOCK_QUOTE:
        block.kind = PROSE_QUOTE;
        add_container(reading, node, block, out);
        return;
    case CMARK_NODE_CODE_BLOCK:
        block.runs = runs(node);
        add_code_block(reading, block, cmark_node_get_literal(node), out);
        return;
    case CMARK_NODE_HTML_BLOCK:
        if (!is_comment(cmark_node_get_literal(node)))
            add_code_block(reading, block, cmark_node_get_literal(node), out);
        return;
    case CMARK_NODE_THEMATIC_BREAK:
        block.kind = PROSE_RULE;
        ARRAY_ADD(out, block);
        return;
    default:
        return;
    }
}

static void read_blocks(Reading *reading, cmark_node *parent, ProseList *out) {
    const bool top = cmark_node_get_type(parent) == CMARK_NODE_DOCUMENT;
    for (cmark_node *node = cmark_node_first_child(parent); node; node = cmark_node_next(node)) {
        if (top && cmark_node_get_type(node) == CMARK_NODE_HEADING && cmark_node_get_heading_level(node) == 2)
            reading->step++;
        add_block(reading, node, out);
    }
}

int prose_read(const Recipe *recipe, ProseFill fill, void *context, Arena *arena, const Prose **out) {
    Reading reading = {.recipe = recipe, .fill = fill, .context = context, .arena = arena};
    cmark_node *document = cmark_parse_document(recipe->source, recipe->source_length, CMARK_OPT_DEFAULT);
    ProseList list = {0};
    read_blocks(&reading, document, &list);
    cmark_node_free(document);
    Prose *kept = arena_take(arena, sizeof *kept * (size_t)(list.count ? list.count : 1));
    if (list.count)
        memcpy(kept, list.items, sizeof *kept * (size_t)list.count);
    const int count = list.count;
    mem_free(list.items);
    *out = kept;
    return count;
}

const char *prose_stated(const Recipe *recipe, const char *name, Arena *arena) {
    static const char begins[] = "<!--";
    const size_t named = strlen(name);
    for (int i = 0; i < recipe->block_count; i++) {
        const RecipeBlock *block = &recipe->blocks[i];
        if (block->kind != BLOCK_OTHER || block->length < sizeof begins || !text_starts(block->text, begins))
            continue;
        const char *at = block->text + sizeof begins - 1;
        at += strspn(at, " ");
        if (!text_starts(at, name) || at[named] != ':')
            continue;
        at += named + 1;
        at += strspn(at, " ");
        size_t length = strspn(at, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-");
        if (length > 2 && text_starts(at + length - 2, "-->")) // "de-->"
            length -= 2;
        if (length > 0 && text_starts(at + length + strspn(at + length, " "), "-->"))
            return arena_text_n(arena, at, length);
    }
    return NULL;
}
