// Life of a name: it is looked for on disk and among the built-ins (place.c); the text found there is read
// once, however many names lead to it (load); then the same is done for each name the recipe uses
// (load_uses), so that all a run can ask for is in memory before it begins.
#include "recipe/shelf.h"

#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"
#include "recipe/place.h"

typedef struct ShelfRecipe {
    Recipe recipe; // first, so that a recipe leads to its place on the shelf
    char *folder;  // the folder of its file, "" for the current one; NULL when built in
    bool linked;   // all that it uses is on the shelf
} ShelfRecipe;

void shelf_init(Shelf *shelf) {
    *shelf = (Shelf){0};
    buffer_init(&shelf->notes);
    buffer_init(&shelf->refused);
}

void shelf_finish(Shelf *shelf) {
    for (int i = 0; i < shelf->recipes.count; i++) {
        recipe_finish(&shelf->recipes.items[i]->recipe);
        mem_free(shelf->recipes.items[i]->folder);
        mem_free(shelf->recipes.items[i]);
    }
    mem_free(shelf->recipes.items);
    mem_free(shelf->links.items);
    mem_free(shelf->refused_file);
    buffer_finish(&shelf->notes);
    buffer_finish(&shelf->refused);
    *shelf = (Shelf){0};
}

const BuiltIn *shelf_built_in(int *count) {
    return place_built_in(count);
}

// A file on disk stands before a built-in of its name, and that is said once.
static void note_once(Shelf *shelf, const Place *place) {
    Buffer note;
    buffer_init(&note);
    buffer_add_format(&note, "%s on disk is used, not the built-in %s.\n", place->path,
                      place->built_in->name);
    if (!strstr(shelf->notes.data, note.data))
        buffer_add_text(&shelf->notes, note.data);
    buffer_finish(&note);
}

// Keeps a refused text, so that its fault can be shown with its lines.
static void keep_refused(Shelf *shelf, const char *file, const char *text, size_t length) {
    mem_free(shelf->refused_file);
    shelf->refused_file = mem_text(file);
    buffer_clear(&shelf->refused);
    if (text_is_utf8(text, length) && !memchr(text, '\0', length))
        buffer_add(&shelf->refused, text, length);
}

// Everything up to the last slash, that included.
static char *folder_of(const char *path) {
    char *folder = mem_text(path);
    folder[place_last_part(path) - path] = '\0';
    return folder;
}

static ShelfRecipe *find_loaded(const Shelf *shelf, const Place *place) {
    for (int i = 0; i < shelf->recipes.count; i++) {
        ShelfRecipe *entry = shelf->recipes.items[i];
        bool same = place->path ? entry->folder && place_same_file(entry->recipe.file, place->path)
                                : !entry->folder && strcmp(entry->recipe.file, place->built_in->file) == 0;
        if (same)
            return entry;
    }
    return NULL;
}

static const char *file_of(const Place *place) {
    return place->path ? place->path : place->built_in->file;
}

static bool read_text(const Place *place, size_t limit, Buffer *out, Fault *fault) {
    if (place->path)
        return file_read(place->path, limit, out, fault);
    buffer_add(out, place->built_in->text, place->built_in->length);
    return true;
}

static bool add_recipe(Shelf *shelf, const char *name, const Place *place, ShelfRecipe **out, Fault *fault) {
    Buffer text;
    buffer_init(&text);
    Recipe recipe = {0};
    bool fine = read_text(place, RECIPE_BYTES_MOST, &text, fault);
    if (fine && !recipe_read(name, file_of(place), text.data, text.length, &recipe, fault)) {
        keep_refused(shelf, file_of(place), text.data, text.length);
        fine = false;
    }
    buffer_finish(&text);
    if (!fine)
        return false;
    ShelfRecipe *entry = mem_new(sizeof *entry);
    *entry = (ShelfRecipe){.recipe = recipe, .folder = place->path ? folder_of(place->path) : NULL};
    ARRAY_ADD(&shelf->recipes, entry);
    *out = entry;
    return true;
}

static bool load(Shelf *shelf, const Search *search, ShelfRecipe **out, Fault *fault) {
    Place place;
    if (!place_find(search, &place, fault))
        return false;
    if (place.path && place.built_in)
        note_once(shelf, &place);
    ShelfRecipe *entry = find_loaded(shelf, &place);
    const char *name = place.path ? search->name : place.built_in->name;
    bool fine = entry || add_recipe(shelf, name, &place, &entry, fault);
    mem_free(place.path);
    if (fine)
        *out = entry;
    return fine;
}

static const ShelfLink *find_link(const Shelf *shelf, const Recipe *from, const char *name) {
    for (int i = 0; i < shelf->links.count; i++)
        if (shelf->links.items[i].from == from && strcmp(shelf->links.items[i].name, name) == 0)
            return &shelf->links.items[i];
    return NULL;
}

static bool refuse_many(const Search *search, Fault *fault) {
    place_refuse(search, fault, "more than 64 recipes are used in all");
    fault_set_hint(fault, "put what belongs together into one recipe");
    return false;
}

// Recipes may use one another in a ring: one that is on its way counts as linked. No deeper than there are
// recipes.
static bool load_uses(Shelf *shelf, ShelfRecipe *from, int limit, Fault *fault) {
    if (from->linked)
        return true;
    from->linked = true;
    for (int i = 0; i < from->recipe.use_count; i++) {
        const RecipeUse *use = &from->recipe.uses[i];
        const Search search = {
            .name = use->name, .from = &from->recipe, .folder = from->folder, .line = use->line};
        ShelfRecipe *to = NULL;
        bool fine = load(shelf, &search, &to, fault) &&
                    (shelf->recipes.count <= limit || refuse_many(&search, fault)) &&
                    load_uses(shelf, to, limit, fault);
        if (!fine) {
            from->linked = false;
            return false;
        }
        ShelfLink link = {.from = &from->recipe, .name = use->name, .to = &to->recipe};
        if (!find_link(shelf, link.from, link.name))
            ARRAY_ADD(&shelf->links, link);
    }
    return true;
}

bool shelf_find(Shelf *shelf, const char *name, const Recipe **out, Fault *fault) {
    const Search search = {.name = name};
    ShelfRecipe *entry = NULL;
    int limit = shelf->recipes.count + SHELF_RECIPES_MOST;
    if (!load(shelf, &search, &entry, fault) || !load_uses(shelf, entry, limit, fault))
        return false;
    *out = &entry->recipe;
    return true;
}

bool shelf_put(Shelf *shelf, const char *name, const char *text, const Recipe **out, Fault *fault) {
    const Embedded given = {.name = name, .file = name, .text = text, .length = strlen(text)};
    const Place place = {.built_in = &given};
    ShelfRecipe *entry = NULL;
    int limit = shelf->recipes.count + SHELF_RECIPES_MOST;
    if (!add_recipe(shelf, name, &place, &entry, fault) || !load_uses(shelf, entry, limit, fault))
        return false;
    *out = &entry->recipe;
    return true;
}

const Recipe *shelf_held(const Shelf *shelf, const char *name) {
    for (int i = 0; i < shelf->recipes.count; i++)
        if (strcmp(shelf->recipes.items[i]->recipe.name, name) == 0)
            return &shelf->recipes.items[i]->recipe;
    return NULL;
}

const Recipe *shelf_used(const Shelf *shelf, const Recipe *from, const char *name) {
    const ShelfLink *link = find_link(shelf, from, name);
    return link ? link->to : NULL;
}

bool shelf_is_on_disk(const Shelf *shelf, const Recipe *recipe) {
    for (int i = 0; i < shelf->recipes.count; i++)
        if (&shelf->recipes.items[i]->recipe == recipe)
            return shelf->recipes.items[i]->folder != NULL;
    return false;
}

const char *shelf_source(const Shelf *shelf, const char *file) {
    if (!file)
        return NULL;
    for (int i = 0; i < shelf->recipes.count; i++)
        if (strcmp(shelf->recipes.items[i]->recipe.file, file) == 0)
            return shelf->recipes.items[i]->recipe.source;
    bool refused = shelf->refused_file && strcmp(shelf->refused_file, file) == 0;
    return refused ? shelf->refused.data : NULL;
}

bool shelf_measures(Shelf *shelf, const char *name, Measures *out, Fault *fault) {
    const Search search = {.name = name, .body = true};
    Place place;
    if (!place_find(&search, &place, fault))
        return false;
    if (place.path && place.built_in)
        note_once(shelf, &place);
    Buffer text;
    buffer_init(&text);
    bool fine = read_text(&place, MEASURES_BYTES_MOST, &text, fault);
    if (fine && !measures_read(text.data, text.length, file_of(&place), out, fault)) {
        keep_refused(shelf, file_of(&place), text.data, text.length);
        fine = false;
    }
    buffer_finish(&text);
    mem_free(place.path);
    return fine;
}
