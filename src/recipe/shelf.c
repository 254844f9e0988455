// Life of a name: it is looked for on disk and among the built-ins (locate); the text found there is read
// once, however many names lead to it (load); then the same is done for each name the recipe uses
// (load_uses), so that all a run can ask for is in memory before it begins.
#include "recipe/shelf.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"

#define NAME_MOST 1024
#define NEAREST_MOST 6

extern const Embedded built_in[]; // written by scripts/embed.py
extern const int built_in_count;

typedef struct ShelfRecipe {
    Recipe recipe; // first, so that a recipe leads to its place on the shelf
    char *folder;  // the folder of its file, "" for the current one; NULL when built in
    bool linked;   // all that it uses is on the shelf
} ShelfRecipe;

// What is looked for, and where from.
typedef struct Search {
    const char *name;
    const ShelfRecipe *from; // the recipe that uses it, or NULL
    int line;                // of that use
    bool body;               // a set of measurements, not a recipe
} Search;

typedef struct Place {
    char *path; // on disk, owned; or NULL
    const BuiltIn *built_in;
} Place;

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
    *count = built_in_count;
    return built_in;
}

static const char *kind_of(const Search *search) {
    return search->body ? "set of measurements" : "recipe";
}

static const char *extension_of(const Search *search) {
    return search->body ? ".txt" : ".md";
}

static bool is_kind(const BuiltIn *entry, bool body) {
    return (strcmp(entry->family, "bodies") == 0) == body;
}

static const char *last_part(const char *name) {
    const char *slash = strrchr(name, '/');
    return slash ? slash + 1 : name;
}

// Says what is wrong with a name, at the line that uses it.
static bool refuse(const Search *search, Fault *fault, const char *says) {
    const Recipe *from = search->from ? &search->from->recipe : NULL;
    fault_set(fault, from ? from->file : NULL, search->line, "%s", says);
    if (from)
        fault_set_step(fault, recipe_step_title(from, recipe_step_at(from, search->line)));
    return false;
}

static bool leads_out(const char *name) {
    if (*name == '/')
        return true;
    for (const char *part = name; part; part = strchr(part, '/') ? strchr(part, '/') + 1 : NULL)
        if (strncmp(part, "..", 2) == 0 && (part[2] == '/' || part[2] == '\0'))
            return true;
    return false;
}

static bool check_name(const Search *search, Fault *fault) {
    if (*search->name == '\0' || strlen(search->name) > NAME_MOST) {
        refuse(search, fault, *search->name ? "the name is too long" : "the name is empty");
        fault_set_hint(fault, "name a file or one of those that `rebato list` shows");
        return false;
    }
    if (!search->from || !leads_out(search->name))
        return true;
    refuse(search, fault, "a recipe cannot use one outside its own folder");
    fault_set_hint(
        fault, "name one that stands beside it, below it, or is built in; no \"..\" and no \"/\" in front");
    return false;
}

// The built-in of this name, whole or its last part. Where several share the last part, NULL, and *several
// says so.
static const BuiltIn *find_built_in(const Search *search, bool *several) {
    char name[NAME_MOST + 1];
    size_t length = strlen(search->name);
    if (text_ends(search->name, extension_of(search)))
        length -= strlen(extension_of(search));
    memcpy(name, search->name, length);
    name[length] = '\0';
    const BuiltIn *only = NULL;
    *several = false;
    for (int i = 0; i < built_in_count; i++) {
        if (!is_kind(&built_in[i], search->body))
            continue;
        if (strcmp(built_in[i].name, name) == 0) {
            *several = false;
            return &built_in[i];
        }
        if (strcmp(last_part(built_in[i].name), name) != 0)
            continue;
        *several |= only != NULL;
        only = &built_in[i];
    }
    return *several ? NULL : only;
}

static bool is_file_of(const ShelfRecipe *from, const char *path) {
    struct stat one, other;
    return from && from->folder && stat(from->recipe.file, &one) == 0 && stat(path, &other) == 0 &&
           one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

// A file in folder; the caller owns it. A recipe that uses its own name means the built-in it stands before.
static char *find_in_folder(const Search *search, const char *folder) {
    Buffer path;
    buffer_init(&path);
    char *found = NULL;
    for (int extended = 0; extended < 2 && !found; extended++) {
        buffer_clear(&path);
        buffer_add_format(&path, "%s%s%s", folder, search->name, extended ? extension_of(search) : "");
        if (file_exists(path.data) && !is_file_of(search->from, path.data))
            found = mem_text(path.data);
    }
    buffer_finish(&path);
    return found;
}

static char *find_on_disk(const Search *search) {
    char *found = NULL;
    if (search->from && search->from->folder && *search->from->folder)
        found = find_in_folder(search, search->from->folder);
    return found ? found : find_in_folder(search, "");
}

static void add_names(Buffer *out, const char *const *names, int count) {
    for (int i = 0; i < count; i++)
        buffer_add_format(out, "%s%s", i == 0 ? "" : i + 1 == count ? " or " : ", ", names[i]);
}

// All built-ins of the kind whose last part is what the name ends in.
static bool refuse_several(const Search *search, Fault *fault) {
    const char *names[NEAREST_MOST];
    int count = 0;
    for (int i = 0; i < built_in_count && count < NEAREST_MOST; i++)
        if (is_kind(&built_in[i], search->body) &&
            strcmp(last_part(built_in[i].name), last_part(search->name)) == 0)
            names[count++] = built_in[i].name;
    Buffer text;
    buffer_init(&text);
    buffer_add_format(&text, "more than one %s is called '%s'", kind_of(search), search->name);
    refuse(search, fault, text.data);
    buffer_clear(&text);
    add_names(&text, names, count);
    fault_set_hint(fault, "say which: %s", text.data);
    buffer_finish(&text);
    return false;
}

// The nearest names, those that are equally near together: "women-8" may be any of women-80 to women-88.
static int find_nearest(const Search *search, const char **out) {
    const char *typed = search->name;
    char stem[NAME_MOST + 1];
    size_t length = strlen(typed);
    if (text_ends(typed, extension_of(search)))
        length -= strlen(extension_of(search));
    memcpy(stem, typed, length);
    stem[length] = '\0';

    int count = 0, best = 0;
    for (int i = 0; i < built_in_count; i++) {
        if (!is_kind(&built_in[i], search->body))
            continue;
        const char *forms[] = {built_in[i].name, last_part(built_in[i].name)};
        const char *form = text_nearest(strchr(stem, '/') ? stem : last_part(stem), forms, 2);
        if (!form)
            continue;
        int slips = text_slips(stem, form);
        if (count && slips > best)
            continue;
        if (slips < best)
            count = 0;
        best = slips;
        if (count < NEAREST_MOST)
            out[count++] = search->body ? last_part(built_in[i].name) : built_in[i].name;
    }
    return count;
}

static bool refuse_unknown(const Search *search, Fault *fault) {
    Buffer text;
    buffer_init(&text);
    buffer_add_format(&text, "there is no %s '%s', neither on disk nor built in", kind_of(search),
                      search->name);
    refuse(search, fault, text.data);
    const char *names[NEAREST_MOST];
    int count = find_nearest(search, names);
    buffer_clear(&text);
    add_names(&text, names, count);
    if (count)
        fault_set_hint(fault, "did you mean %s?", text.data);
    else
        fault_set_hint(fault, "name a file, or one of those that `rebato list` shows");
    buffer_finish(&text);
    return false;
}

static void note_once(Shelf *shelf, const char *path, const char *name) {
    Buffer note;
    buffer_init(&note);
    buffer_add_format(&note, "%s on disk is used, not the built-in %s.\n", path, name);
    if (!strstr(shelf->notes.data, note.data))
        buffer_add_text(&shelf->notes, note.data);
    buffer_finish(&note);
}

static bool locate(Shelf *shelf, const Search *search, Place *out, Fault *fault) {
    if (!check_name(search, fault))
        return false;
    bool several = false;
    Place place = {.path = find_on_disk(search), .built_in = find_built_in(search, &several)};
    if (!place.path && !place.built_in)
        return several ? refuse_several(search, fault) : refuse_unknown(search, fault);
    if (place.path && place.built_in) {
        note_once(shelf, place.path, place.built_in->name);
        place.built_in = NULL;
    }
    *out = place;
    return true;
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
    folder[last_part(path) - path] = '\0';
    return folder;
}

static ShelfRecipe *find_loaded(const Shelf *shelf, const char *file, bool on_disk) {
    for (int i = 0; i < shelf->recipes.count; i++) {
        ShelfRecipe *entry = shelf->recipes.items[i];
        if ((entry->folder != NULL) == on_disk &&
            (on_disk ? is_file_of(entry, file) : strcmp(entry->recipe.file, file) == 0))
            return entry;
    }
    return NULL;
}

static bool load(Shelf *shelf, const Search *search, ShelfRecipe **out, Fault *fault) {
    Place place;
    if (!locate(shelf, search, &place, fault))
        return false;
    const char *file = place.path ? place.path : place.built_in->file;
    ShelfRecipe *entry = find_loaded(shelf, file, place.path != NULL);
    Buffer text;
    buffer_init(&text);
    bool fine = true;
    if (!entry) {
        Recipe recipe = {0};
        fine = !place.path || file_read(place.path, RECIPE_BYTES_MOST, &text, fault);
        if (fine && !place.path)
            buffer_add(&text, place.built_in->text, place.built_in->length);
        if (fine && !recipe_read(place.path ? search->name : place.built_in->name, file, text.data,
                                 text.length, &recipe, fault)) {
            keep_refused(shelf, file, text.data, text.length);
            fine = false;
        }
        if (fine) {
            entry = mem_new(sizeof *entry);
            *entry = (ShelfRecipe){.recipe = recipe, .folder = place.path ? folder_of(place.path) : NULL};
            ARRAY_ADD(&shelf->recipes, entry);
        }
    }
    buffer_finish(&text);
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

// Recipes may use one another in a ring: one that is on its way counts as linked. No deeper than there are
// recipes.
static bool load_uses(Shelf *shelf, ShelfRecipe *from, int limit, Fault *fault) {
    if (from->linked)
        return true;
    from->linked = true;
    for (int i = 0; i < from->recipe.use_count; i++) {
        const RecipeUse *use = &from->recipe.uses[i];
        const Search search = {.name = use->name, .from = from, .line = use->line};
        ShelfRecipe *to = NULL;
        bool fine =
            shelf->recipes.count < limit || refuse(&search, fault, "more than 64 recipes are used in all");
        fine = fine && load(shelf, &search, &to, fault) && load_uses(shelf, to, limit, fault);
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

const Recipe *shelf_used(const Shelf *shelf, const Recipe *from, const char *name) {
    const ShelfLink *link = find_link(shelf, from, name);
    return link ? link->to : NULL;
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
    if (!locate(shelf, &search, &place, fault))
        return false;
    Buffer text;
    buffer_init(&text);
    const char *file = place.path ? place.path : place.built_in->file;
    bool fine = !place.path || file_read(place.path, MEASURES_BYTES_MOST, &text, fault);
    if (fine && !place.path)
        buffer_add(&text, place.built_in->text, place.built_in->length);
    if (fine && !measures_read(text.data, text.length, file, out, fault)) {
        keep_refused(shelf, file, text.data, text.length);
        fine = false;
    }
    buffer_finish(&text);
    mem_free(place.path);
    return fine;
}
