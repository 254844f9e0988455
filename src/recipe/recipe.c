// Life of a recipe: the text is made fit (source.c), the walk over its Markdown gives its lists and the chunk
// (reader.c), and the words of the chunk the names it uses (words.c). All is kept in the recipe's arena.
#include "recipe/recipe.h"

#include <string.h>

#include "base/memory.h"
#include "recipe/reader.h"
#include "recipe/source.h"
#include "recipe/words.h"

typedef struct Uses {
    RecipeUse *items;
    int count, capacity;
} Uses;

static bool is_new_use(const Uses *uses, const Word *word) {
    for (int i = 0; i < uses->count; i++) {
        const char *name = uses->items[i].name;
        if (strlen(name) == word->length && memcmp(name, word->text, word->length) == 0)
            return false;
    }
    return true;
}

// Looks for use "name" and use("name", ...), where use is not the field of something.
static void find_uses(Recipe *recipe, Uses *uses) {
    Words words = words_of(recipe->chunk);
    Word word = {0};
    bool field = false, called = false;
    while (words_next(&words, &word)) {
        if (called && word.kind == WORD_STRING) {
            RecipeUse use = {.name = arena_text_n(&recipe->arena, word.text, word.length), .line = word.line};
            if (!word.escapes && is_new_use(uses, &word))
                ARRAY_ADD(uses, use);
        }
        called = (called && word_is(&word, "(")) || (!field && word_is(&word, "use"));
        field = word_is(&word, ".") || word_is(&word, ":");
    }
}

typedef struct Keys {
    RecipeKey *items;
    int count, capacity;
} Keys;

// Looks for name = and ["name"] =, once, so that a run need not read the chunk for each.
static void find_keys(const Recipe *recipe, Keys *keys) {
    Words words = words_of(recipe->chunk);
    Word word = {0};
    RecipeKey key = {0}; // one that may turn out to be a key; its name is NULL where there is none
    bool quoted = false;
    while (words_next(&words, &word)) {
        if (key.name && word_is(&word, "="))
            ARRAY_ADD(keys, key);
        if (key.name && quoted && word_is(&word, "]")) { // ["name"] =
            quoted = false;
            continue;
        }
        bool fits = word.kind == WORD_NAME || word.kind == WORD_STRING;
        key =
            fits ? (RecipeKey){.name = word.text, .length = word.length, .line = word.line} : (RecipeKey){0};
        quoted = fits && word.kind == WORD_STRING;
    }
}

static const void *kept(Arena *arena, const void *items, size_t size, int count) {
    return count ? memcpy(arena_take(arena, size * (size_t)count), items, size * (size_t)count) : NULL;
}

// Moves what has grown into the recipe's arena.
static void keep(Reader *reader) {
    Recipe *recipe = &reader->recipe;
    Arena *arena = &recipe->arena;
    recipe->chunk = arena_text_n(arena, reader->chunk.data, reader->chunk.length);
    recipe->chunk_length = reader->chunk.length;
    recipe->steps = kept(arena, reader->steps.items, sizeof(RecipeStep), reader->steps.count);
    recipe->step_count = reader->steps.count;
    recipe->blocks = kept(arena, reader->blocks.items, sizeof(RecipeBlock), reader->blocks.count);
    recipe->block_count = reader->blocks.count;
    recipe->values = kept(arena, reader->values.items, sizeof(RecipeValue), reader->values.count);
    recipe->value_count = reader->values.count;
    recipe->fences = kept(arena, reader->fences.items, sizeof(RecipeFence), reader->fences.count);
    recipe->fence_count = reader->fences.count;
    if (!recipe->title || !*recipe->title)
        recipe->title = recipe->name;
    if (!recipe->summary)
        recipe->summary = "";

    Uses uses = {0};
    find_uses(recipe, &uses);
    recipe->uses = kept(arena, uses.items, sizeof(RecipeUse), uses.count);
    recipe->use_count = uses.count;
    mem_free(uses.items);

    Keys keys = {0};
    find_keys(recipe, &keys);
    recipe->keys = kept(arena, keys.items, sizeof(RecipeKey), keys.count);
    recipe->key_count = keys.count;
    mem_free(keys.items);
}

bool recipe_read(const char *name, const char *file, const char *text, size_t length, Recipe *out,
                 Fault *fault) {
    Buffer source;
    Reader reader;
    buffer_init(&source);
    reader_init(&reader, name, file, fault);
    bool fine = source_clean(text, length, file, &source, fault) && reader_walk(&reader, &source);
    if (fine) {
        keep(&reader);
        *out = reader.recipe;
    } else {
        arena_finish(&reader.recipe.arena);
    }
    reader_finish(&reader);
    buffer_finish(&source);
    return fine;
}

void recipe_finish(Recipe *recipe) {
    arena_finish(&recipe->arena);
    *recipe = (Recipe){0};
}

const char *recipe_step_title(const Recipe *recipe, int step) {
    return step >= 1 && step <= recipe->step_count ? recipe->steps[step - 1].title : NULL;
}

int recipe_step_at(const Recipe *recipe, int line) {
    int step = 0;
    while (step < recipe->step_count && recipe->steps[step].first_line <= line)
        step++;
    return step;
}

// Every "end" closes a function, an if or a do (that of a while or a for), every "until" a repeat. What may
// reach past the end of the fence, a long bracket or "\\z", is left to Lua.
bool recipe_fence_is_whole(const RecipeFence *fence) {
    if (strstr(fence->code, "[[") || strstr(fence->code, "[=") || strstr(fence->code, "\\z"))
        return false;
    Words words = words_of(fence->code);
    Word word = {0};
    int blocks = 0, brackets = 0;
    while (words_next(&words, &word)) {
        if (word.kind == WORD_NAME) {
            blocks += word_is(&word, "function") || word_is(&word, "if") || word_is(&word, "do") ||
                      word_is(&word, "repeat");
            blocks -= word_is(&word, "end") || word_is(&word, "until");
        } else if (word.kind == WORD_SIGN && word.length == 1) {
            brackets += strchr("([{", *word.text) != NULL;
            brackets -= strchr(")]}", *word.text) != NULL;
        }
        if (blocks < 0 || brackets < 0)
            return false;
    }
    return blocks == 0 && brackets == 0;
}

// Whether a table given to the function holds the name as a key.
static bool asks(const Recipe *recipe, const char *function, const char *name) {
    Words words = words_of(recipe->chunk);
    Word word = {0};
    bool field = false, called = false, named = false;
    int depth = 0; // of brackets inside its { }
    while (words_next(&words, &word)) {
        if (depth == 1 && named && word_is(&word, "="))
            return true;
        if (depth > 0 && word_is(&word, "{"))
            depth++;
        if (depth > 0 && word_is(&word, "}"))
            depth--;
        if (called && depth == 0 && word_is(&word, "{"))
            depth = 1;
        named = word_is(&word, name);
        called = (called && word_is(&word, "(")) || (!field && word_is(&word, function));
        field = word_is(&word, ".") || word_is(&word, ":");
    }
    return false;
}

bool recipe_needs(const Recipe *recipe, const char *name) {
    return asks(recipe, "needs", name);
}

bool recipe_chooses(const Recipe *recipe, const char *name) {
    return asks(recipe, "choose", name);
}

static const RecipeKey *find_key(const Recipe *recipe, int line, const char *name) {
    size_t length = strlen(name);
    for (int i = 0; i < recipe->key_count; i++) {
        const RecipeKey *key = &recipe->keys[i];
        if (key->line >= line && key->length == length && memcmp(key->name, name, length) == 0)
            return key;
    }
    return NULL;
}

long recipe_name_order(const Recipe *recipe, int line, const char *name) {
    const RecipeKey *key = find_key(recipe, line, name);
    return key ? (long)(key->name - recipe->chunk) : -1;
}

int recipe_name_line(const Recipe *recipe, int line, const char *name) {
    const RecipeKey *key = find_key(recipe, line, name);
    return key ? key->line : 0;
}
