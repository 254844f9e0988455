#include "cli/listing.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "script/script.h"

#define BODIES "bodies"

void listing_finish(Listing *listing) {
    for (int i = 0; i < listing->count; i++) {
        pattern_finish(&listing->items[i].survey);
        measures_finish(&listing->items[i].body);
    }
    mem_free(listing->items);
    shelf_finish(&listing->shelf);
}

static bool has_word(const char *text, const char *word) {
    size_t length = strlen(word);
    for (; *text; text++) {
        size_t i = 0;
        while (i < length && tolower((unsigned char)text[i]) == tolower((unsigned char)word[i]))
            i++;
        if (i == length)
            return true;
    }
    return false;
}

// A family, "recipes" or "bodies" stands for all of it; any other word is looked for.
static bool is_wanted(const Entry *entry, const char *word) {
    if (!word || strcmp(word, entry->family) == 0 || (entry->recipe && strcmp(word, "recipes") == 0))
        return true;
    if (has_word(entry->name, word))
        return true;
    return entry->recipe && (has_word(entry->recipe->title, word) || has_word(entry->recipe->summary, word));
}

static bool survey(Listing *listing, Entry *entry, Fault *fault) {
    const char *name = entry->recipe->name;
    const ScriptJob job = {.shelf = &listing->shelf, .chain = &name, .chain_count = 1};
    return script_survey(&job, &entry->survey, fault);
}

static bool add_entry(Listing *listing, Entry entry, const char *word, bool ask, Fault *fault) {
    bool body = strcmp(entry.family, BODIES) == 0;
    if (!body && !shelf_find(&listing->shelf, entry.name, &entry.recipe, fault))
        return false;
    if (!is_wanted(&entry, word))
        return true;
    bool fine = !ask || (body ? shelf_measures(&listing->shelf, entry.name, &entry.body, fault)
                              : survey(listing, &entry, fault));
    ARRAY_ADD(listing, entry);
    return fine;
}

// Recipes by name, then bodies, the small sizes first.
static int entry_order(const void *one, const void *other) {
    const Entry *a = one, *b = other;
    if (!a->recipe != !b->recipe)
        return !a->recipe - !b->recipe;
    size_t long_a = a->recipe ? 0 : strlen(a->name), long_b = b->recipe ? 0 : strlen(b->name);
    return long_a != long_b ? (long_a > long_b) - (long_a < long_b) : strcmp(a->name, b->name);
}

bool listing_fill(Listing *listing, const Options *options, Fault *fault) {
    *listing = (Listing){0};
    shelf_init(&listing->shelf);
    const char *word = options->argument;
    bool ask = options->json || !options->names;
    if (word && text_ends(word, ".md")) // a recipe of one's own
        return add_entry(listing, (Entry){.name = word, .family = "own"}, NULL, ask, fault);
    int count;
    const BuiltIn *all = shelf_built_in(&count);
    TextList names = {0};
    bool fine = true;
    for (int i = 0; fine && i < count; i++) {
        Entry entry = {.name = all[i].name, .family = all[i].family};
        const char *slash = strrchr(entry.name, '/');
        const char *last = slash ? slash + 1 : entry.name;
        ARRAY_ADD(&names, last);
        fine = add_entry(listing, entry, word, ask, fault);
    }
    if (fine && listing->count == 0) {
        const char *nearest = word ? text_nearest(word, names.items, names.count) : NULL;
        fault_set(fault, NULL, 0, "nothing in the list has %s in it", word ? word : "a name");
        if (nearest)
            fault_set_hint(fault, "did you mean %s?", nearest);
        else
            fault_set_hint(fault, "rebato list prints it all");
        fine = false;
    }
    mem_free(names.items);
    if (listing->count > 1)
        qsort(listing->items, (size_t)listing->count, sizeof *listing->items, entry_order);
    return fine;
}

bool listing_is_kind(const char *word) {
    int count;
    const BuiltIn *all = shelf_built_in(&count);
    if (!word || strcmp(word, "recipes") == 0)
        return word != NULL;
    for (int i = 0; i < count; i++)
        if (strcmp(all[i].family, word) == 0)
            return true;
    return false;
}

static bool in_kind(const BuiltIn *built_in, const char *word) {
    bool body = strcmp(built_in->family, BODIES) == 0;
    return strcmp(word, "recipes") == 0 ? !body : strcmp(word, built_in->family) == 0;
}

void listing_names(const char *word, Buffer *out) {
    int count;
    const BuiltIn *all = shelf_built_in(&count);
    for (int i = 0; i < count; i++)
        if (in_kind(&all[i], word))
            buffer_add_format(out, "%s\n", all[i].name);
}
