#include "cli/asked.h"

#include <string.h>

#include "base/memory.h"

static bool holds_name(const TextList *names, const char *name) {
    for (int i = 0; i < names->count; i++)
        if (strcmp(names->items[i], name) == 0)
            return true;
    return false;
}

// The keys are read in the recipe, and the names must outlive them: they are copied.
static void add_name(TextList *names, const char *name) {
    if (strcmp(name, "bodice") == 0 || holds_name(names, name))
        return;
    const char *copy = mem_text(name);
    ARRAY_ADD(names, copy);
}

static void add_needs(const Recipe *recipe, TextList *names) {
    for (int i = 0; i < recipe->key_count; i++) {
        char *key = mem_text(recipe->keys[i].name);
        key[recipe->keys[i].length] = '\0';
        if (recipe_needs(recipe, key))
            add_name(names, key);
        mem_free(key);
    }
}

// With the recipes it uses, and theirs; seen holds those already read, since two may use one.
static void add_recipe(const Shelf *shelf, const Recipe *recipe, TextList *seen, TextList *names) {
    if (!recipe || holds_name(seen, recipe->name))
        return;
    ARRAY_ADD(seen, recipe->name);
    add_needs(recipe, names);
    for (int i = 0; i < recipe->use_count; i++)
        add_recipe(shelf, shelf_used(shelf, recipe, recipe->uses[i].name), seen, names);
}

static void add_list(const char *before, const TextList *names, Buffer *out) {
    for (int i = 0; i < names->count; i++)
        buffer_add_format(out, "%s%s", i == 0 ? before : ", ", names->items[i]);
}

void asked_note(const Shelf *shelf, const TextList *chain, const Pattern *pattern, const Measures *body,
                Buffer *out) {
    TextList odd = {0}, asked = {0}, seen = {0};
    for (int i = 0; i < body->count; i++)
        if (!measure_known(body->items[i].name))
            ARRAY_ADD(&odd, body->items[i].name);
    for (int i = 0; odd.count > 0 && i < chain->count; i++)
        add_recipe(shelf, shelf_held(shelf, chain->items[i]), &seen, &asked);
    for (int i = 0; odd.count > 0 && i < pattern->inputs.count; i++)
        if (!pattern->inputs.items[i].choice)
            add_name(&asked, pattern->inputs.items[i].name);
    int kept = 0;
    for (int i = 0; i < odd.count; i++)
        if (!holds_name(&asked, odd.items[i]))
            odd.items[kept++] = odd.items[i];
    odd.count = kept;
    add_list("not used: ", &odd, out);
    if (odd.count > 0) {
        add_list("; what is drafted asks for: ", &asked, out);
        buffer_add_char(out, '\n');
    }
    for (int i = 0; i < asked.count; i++)
        mem_free((char *)asked.items[i]);
    mem_free(odd.items);
    mem_free(asked.items);
    mem_free(seen.items);
}
