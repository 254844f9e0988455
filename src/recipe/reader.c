// One walk over the nodes that cmark gives, in the order of the file, tells blocks, steps, values and fences
// apart and writes the chunk as it goes. Nothing is looked at twice, so the work is in proportion to the
// text. What never changes: line N of the chunk is line N of the file, and the chunk has come to chunk_line.
#include "recipe/reader.h"

#include <assert.h>
#include <cmark.h>
#include <string.h>

#include "base/memory.h"
#include "recipe/source.h"

void reader_init(Reader *reader, const char *name, const char *file, Fault *fault) {
    *reader = (Reader){.fault = fault, .chunk_line = 1};
    buffer_init(&reader->chunk);
    arena_init(&reader->recipe.arena);
    reader->recipe.name = arena_text(&reader->recipe.arena, name);
    reader->recipe.file = arena_text(&reader->recipe.arena, file);
}

void reader_finish(Reader *reader) {
    mem_free(reader->lines.items);
    mem_free(reader->blocks.items);
    mem_free(reader->steps.items);
    mem_free(reader->values.items);
    mem_free(reader->fences.items);
    buffer_finish(&reader->chunk);
}

static bool refuse(const Reader *reader, int line, const char *what, const char *hint) {
    fault_set(reader->fault, reader->recipe.file, line, "%s", what);
    fault_set_hint(reader->fault, "%s", hint);
    fault_set_step(reader->fault,
                   reader->steps.count ? reader->steps.items[reader->steps.count - 1].title : NULL);
    return false;
}

// The text of a node without its marks, on one line.
static const char *plain_text(Reader *reader, cmark_node *node) {
    Buffer text;
    buffer_init(&text);
    cmark_iter *iter = cmark_iter_new(node);
    while (cmark_iter_next(iter) != CMARK_EVENT_DONE) {
        cmark_node *at = cmark_iter_get_node(iter);
        cmark_node_type type = cmark_node_get_type(at);
        if (type == CMARK_NODE_TEXT || type == CMARK_NODE_CODE)
            buffer_add_text(&text, cmark_node_get_literal(at));
        else if (type == CMARK_NODE_SOFTBREAK || type == CMARK_NODE_LINEBREAK)
            buffer_add_char(&text, ' ');
    }
    cmark_iter_free(iter);
    const char *kept = arena_text(&reader->recipe.arena, text.data);
    buffer_finish(&text);
    return kept;
}

static void find_lines(Reader *reader) {
    const char *source = reader->recipe.source;
    const size_t length = reader->recipe.source_length;
    ARRAY_ADD(&reader->lines, (size_t)0);
    for (size_t i = 0; i < length; i++)
        if (source[i] == '\n')
            ARRAY_ADD(&reader->lines, i + 1);
    if (length == 0 || source[length - 1] != '\n')
        ARRAY_ADD(&reader->lines, length);
}

static void chunk_to_line(Reader *reader, int line) {
    assert(line >= reader->chunk_line);
    for (; reader->chunk_line < line; reader->chunk_line++)
        buffer_add_char(&reader->chunk, '\n');
}

// Calls for the values of the section that ends, then for what begins.
static void chunk_glue(Reader *reader, int line, int begins) {
    chunk_to_line(reader, line);
    for (; reader->called_values < reader->values.count; reader->called_values++) {
        const RecipeValue *value = &reader->values.items[reader->called_values];
        buffer_add_format(&reader->chunk, ";(...)(-%d, function() return (%s) end)", value->id,
                          value->expression);
    }
    buffer_add_format(&reader->chunk, ";(...)(%d);", begins);
}

static bool begin_step(Reader *reader, cmark_node *heading) {
    int line = cmark_node_get_start_line(heading);
    if (reader->steps.count == RECIPE_STEPS_MOST)
        return refuse(reader, line, "there are more than 200 steps",
                      "tell the recipe apart into several files");
    if (reader->steps.count)
        reader->steps.items[reader->steps.count - 1].last_line = line - 1;
    RecipeStep step = {.title = plain_text(reader, heading), .first_line = line};
    ARRAY_ADD(&reader->steps, step);
    chunk_glue(reader, line, reader->steps.count);
    return true;
}

static bool is_lua(cmark_node *node) {
    if (cmark_node_get_type(node) != CMARK_NODE_CODE_BLOCK)
        return false;
    const char *info = cmark_node_get_fence_info(node);
    return strcspn(info, " \t{") == 3 && (info[0] | 0x20) == 'l' && (info[1] | 0x20) == 'u' &&
           (info[2] | 0x20) == 'a';
}

static BlockKind block_kind(cmark_node *node) {
    switch (cmark_node_get_type(node)) {
    case CMARK_NODE_HEADING:
        return BLOCK_HEADING;
    case CMARK_NODE_PARAGRAPH:
        return BLOCK_PROSE;
    default:
        return is_lua(node) ? BLOCK_CODE : BLOCK_OTHER;
    }
}

static bool begin_block(Reader *reader, cmark_node *node) {
    Recipe *recipe = &reader->recipe;
    BlockKind kind = block_kind(node);
    int level = kind == BLOCK_HEADING ? cmark_node_get_heading_level(node) : 0;
    if (level == 1 && !recipe->title)
        recipe->title = plain_text(reader, node);
    if (level == 2 && !begin_step(reader, node))
        return false;
    if (kind == BLOCK_PROSE && !recipe->summary && !reader->steps.count)
        recipe->summary = plain_text(reader, node);

    int first = cmark_node_get_start_line(node), last = cmark_node_get_end_line(node);
    last = last < first ? first : last > recipe->line_count ? recipe->line_count : last;
    const size_t *lines = reader->lines.items;
    size_t from = lines[first - 1], to = lines[last];
    while (to > from && recipe->source[to - 1] == '\n')
        to--;
    while (last > first && lines[last - 1] >= to)
        last--;
    RecipeBlock block = {.kind = kind,
                         .level = level,
                         .first_line = first,
                         .last_line = last,
                         .step = reader->steps.count,
                         .text = recipe->source + from,
                         .length = to - from};
    ARRAY_ADD(&reader->blocks, block);
    return true;
}

// A fence is closed when its last line is one of marks, and not the last line of its code: an open one runs
// on to the end of the file, of the list or of the quote.
static bool is_closed(const Reader *reader, cmark_node *node, int code_lines) {
    int first = cmark_node_get_start_line(node), last = first + code_lines + 1;
    if (last > reader->recipe.line_count)
        return false;
    const char *at = reader->recipe.source + reader->lines.items[last - 1];
    at += strspn(at, " \t>");
    size_t marks = strspn(at, "`") + strspn(at, "~");
    at += marks;
    at += strspn(at, " \t");
    return marks >= 3 && (*at == '\n' || *at == '\0');
}

static bool add_fence(Reader *reader, cmark_node *node) {
    const char *code = cmark_node_get_literal(node);
    size_t length = strlen(code);
    int line = cmark_node_get_start_line(node), code_lines = 0;
    for (size_t i = 0; i < length; i++)
        code_lines += code[i] == '\n';
    if (!is_closed(reader, node, code_lines))
        return refuse(reader, line, "the code block that opens here is not closed",
                      "close it with a line of the same marks, ``` or ~~~");
    reader->code_bytes += length;
    if (reader->code_bytes > RECIPE_CODE_MOST)
        return refuse(reader, line, "there is more than 64 KB of code up to here",
                      "tell the recipe apart into several files, joined by use");
    RecipeFence fence = {.line = line,
                         .first_line = line + 1,
                         .step = reader->steps.count,
                         .code = arena_text_n(&reader->recipe.arena, code, length)};
    ARRAY_ADD(&reader->fences, fence);
    chunk_to_line(reader, fence.first_line);
    buffer_add(&reader->chunk, code, length);
    reader->chunk_line += code_lines;
    return true;
}

// The line that holds a byte of the source, by halving.
static int line_at(const Reader *reader, size_t offset) {
    int from = 1, to = reader->recipe.line_count;
    while (from < to) {
        int middle = from + (to - from + 1) / 2;
        if (reader->lines.items[middle - 1] <= offset)
            from = middle;
        else
            to = middle - 1;
    }
    return from;
}

// cmark's places of inline code go astray behind a code span that runs over a line end, so the span is looked
// for in its paragraph. NULL when it is not written on one line.
static const char *find_span(const Reader *reader, const char *literal) {
    const char *from = reader->recipe.source + reader->value_from;
    const char *to = reader->recipe.source + reader->value_to;
    size_t length = strlen(literal);
    while (from < to) {
        const char *at = strstr(from, literal);
        if (!at || at >= to)
            return NULL;
        const char *before = at - (at > reader->recipe.source && at[-1] == ' ');
        const char *behind = at + length + (at[length] == ' ');
        if (before > reader->recipe.source && before[-1] == '`' && *behind == '`')
            return at;
        from = at + 1;
    }
    return NULL;
}

static bool add_value(Reader *reader, cmark_node *node) {
    const char *literal = cmark_node_get_literal(node);
    if (literal[0] != '=' || literal[1] == '=' || literal[1] == '>')
        return true;
    const char *at = find_span(reader, literal);
    if (!at)
        return refuse(reader, line_at(reader, reader->value_from),
                      "a value, `= ...`, runs over the end of a line",
                      "write a value on one line; compute what is long in a code block");
    size_t offset = (size_t)(at - reader->recipe.source);
    int line = line_at(reader, offset);
    reader->value_from = offset + strlen(literal);

    const char *expression = literal + 1 + strspn(literal + 1, " \t");
    size_t length = strlen(expression);
    while (length > 0 && strchr(" \t", expression[length - 1]))
        length--;
    if (length == 0)
        return refuse(reader, line, "a value, `=`, has nothing to show",
                      "write what to show, such as `= quarter`");
    if (strstr(expression, "--"))
        return refuse(reader, line, "a value, `= ...`, has \"--\" in it, which begins a comment",
                      "write one minus, or brackets between two");
    if (reader->values.count == RECIPE_VALUES_MOST)
        return refuse(reader, line, "there are more than 1000 values, `= ...`",
                      "tell the recipe apart into several files");
    RecipeValue value = {.id = reader->values.count + 1,
                         .step = reader->steps.count,
                         .block = reader->blocks.count - 1,
                         .line = line,
                         .column = (int)(offset - reader->lines.items[line - 1]) + 1,
                         .expression = arena_text_n(&reader->recipe.arena, expression, length)};
    ARRAY_ADD(&reader->values, value);
    return true;
}

static bool enter(Reader *reader, cmark_node *node) {
    cmark_node *parent = cmark_node_parent(node);
    cmark_node_type type = cmark_node_get_type(node);
    if (parent && cmark_node_get_type(parent) == CMARK_NODE_DOCUMENT && !begin_block(reader, node))
        return false;
    if (type == CMARK_NODE_PARAGRAPH || type == CMARK_NODE_HEADING) {
        int last = cmark_node_get_end_line(node);
        reader->value_from = reader->lines.items[cmark_node_get_start_line(node) - 1];
        reader->value_to =
            reader->lines.items[last > reader->recipe.line_count ? reader->recipe.line_count : last];
    }
    if (type == CMARK_NODE_CODE)
        return add_value(reader, node);
    return !is_lua(node) || add_fence(reader, node);
}

static bool walk(Reader *reader, cmark_node *document) {
    bool fine = true;
    cmark_iter *iter = cmark_iter_new(document);
    for (cmark_event_type event; fine && (event = cmark_iter_next(iter)) != CMARK_EVENT_DONE;)
        if (event == CMARK_EVENT_ENTER)
            fine = enter(reader, cmark_iter_get_node(iter));
    cmark_iter_free(iter);
    return fine;
}

static bool finish_walk(Reader *reader) {
    if (reader->fences.count == 0) {
        reader->steps.count = 0;
        return refuse(reader, 0, "the recipe has no code to run",
                      "open a code block with ```lua and close it with ```");
    }
    if (reader->steps.count)
        reader->steps.items[reader->steps.count - 1].last_line = reader->recipe.line_count;
    chunk_glue(reader, reader->recipe.line_count + 1, reader->steps.count + 1);
    buffer_add_char(&reader->chunk, '\n');
    return true;
}

bool reader_walk(Reader *reader, const Buffer *source) {
    Recipe *recipe = &reader->recipe;
    recipe->source = arena_text_n(&recipe->arena, source->data, source->length);
    recipe->source_length = source->length;
    recipe->hash = source_hash(source->data, source->length);
    find_lines(reader);
    recipe->line_count = reader->lines.count - 1;
    cmark_node *document = cmark_parse_document(source->data, source->length, CMARK_OPT_DEFAULT);
    bool fine = walk(reader, document) && finish_walk(reader);
    cmark_node_free(document);
    return fine;
}
