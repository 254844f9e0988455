#include "cli/listing.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "script/script.h"

#define BODIES "bodies"
#define OWN "own" // a file

// In the order of the list; a family that is not among them comes, in alphabetical order, where the empty
// name stands. On a collar family one may go without a block.
static const struct {
    const char *name, *heading;
    bool collars;
} families[] = {
    {"guide", "the manual, as recipes that run", false},
    {"blocks", "bodices to draft on", false},
    {"necklines", "necklines with their facings", false},
    {"bands", "bands and stands", true},
    {"flat", "flat and rolled collars", true},
    {"", NULL, true},
    {"pieces", "parts that recipes use", false},
    {BODIES, "sets of measurements", false},
};
enum { FAMILY_COUNT = sizeof families / sizeof *families };

static int family_place(const char *family) {
    int other = 0;
    for (int i = 0; i < FAMILY_COUNT; i++) {
        if (strcmp(families[i].name, family) == 0)
            return i;
        if (!*families[i].name)
            other = i;
    }
    return other;
}

const char *family_heading(const char *family) {
    return families[family_place(family)].heading;
}

bool entry_without_block(const Entry *entry) {
    if (!entry->recipe || !families[family_place(entry->family)].collars)
        return false;
    for (int i = 0; i < entry->survey.inputs.count; i++) {
        const Input *input = &entry->survey.inputs.items[i];
        if (!input->choice && input->optional && strcmp(input->name, "bodice") == 0)
            return true;
    }
    return false;
}

static void entry_finish(Entry *entry) {
    pattern_finish(&entry->survey);
    measures_finish(&entry->body);
}

void listing_finish(Listing *listing) {
    for (int i = 0; i < listing->count; i++)
        entry_finish(&listing->items[i]);
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

// By family, then by name; of bodies the small sizes first.
static int entry_order(const void *one, const void *other) {
    const Entry *a = one, *b = other;
    const int place_a = family_place(a->family), place_b = family_place(b->family);
    if (place_a != place_b)
        return (place_a > place_b) - (place_a < place_b);
    if (strcmp(a->family, b->family) != 0)
        return strcmp(a->family, b->family);
    size_t long_a = a->recipe ? 0 : strlen(a->name), long_b = b->recipe ? 0 : strlen(b->name);
    return long_a != long_b ? (long_a > long_b) - (long_a < long_b) : strcmp(a->name, b->name);
}

// Whole, or its last part.
static bool has_name(const Entry *entry, const char *word) {
    const char *slash = strrchr(entry->name, '/');
    return strcmp(entry->name, word) == 0 || (slash && strcmp(slash + 1, word) == 0);
}

// Of what a word finds, the one that is called so is meant, if it is one.
static void keep_named(Listing *listing, const char *word) {
    int named = 0, at = 0;
    for (int i = 0; i < listing->count; i++) {
        if (!has_name(&listing->items[i], word))
            continue;
        named++;
        at = i;
    }
    if (named != 1)
        return;
    const Entry kept = listing->items[at];
    listing->items[at] = listing->items[0];
    listing->items[0] = kept;
    for (int i = 1; i < listing->count; i++)
        entry_finish(&listing->items[i]);
    listing->count = 1;
}

bool listing_fill(Listing *listing, const Options *options, Fault *fault) {
    *listing = (Listing){0};
    shelf_init(&listing->shelf);
    const char *word = options->argument;
    bool ask = options->json || !options->names;
    if (word && text_ends(word, ".md")) { // a recipe of one's own
        listing->full = true;
        return add_entry(listing, (Entry){.name = word, .family = OWN}, NULL, ask, fault);
    }
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
    if (fine && ask && word && !listing_is_kind(word)) {
        keep_named(listing, word);
        listing->full = listing->count == 1;
    }
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
