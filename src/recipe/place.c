#include "recipe/place.h"

#include <string.h>
#include <sys/stat.h>

#include "base/buffer.h"
#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"

#define NAME_MOST 1024
#define NEAREST_MOST 6

extern const Embedded built_in[]; // written by scripts/embed.py
extern const int built_in_count;

const Embedded *place_built_in(int *count) {
    *count = built_in_count;
    return built_in;
}

static const char *kind_of(const Search *search) {
    return search->body ? "set of measurements" : "recipe";
}

static const char *extension_of(const Search *search) {
    return search->body ? ".txt" : ".md";
}

static bool is_kind(const Embedded *entry, bool body) {
    return (strcmp(entry->family, "bodies") == 0) == body;
}

const char *place_last_part(const char *name) {
    const char *slash = strrchr(name, '/');
    return slash ? slash + 1 : name;
}

bool place_refuse(const Search *search, Fault *fault, const char *says) {
    const Recipe *from = search->from;
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
        place_refuse(search, fault, *search->name ? "the name is too long" : "the name is empty");
        fault_set_hint(fault, "name a file or one of those that `rebato list` shows");
        return false;
    }
    if (!search->from || !leads_out(search->name))
        return true;
    place_refuse(search, fault, "a recipe cannot use one outside its own folder");
    fault_set_hint(
        fault, "name one that stands beside it, below it, or is built in; no \"..\" and no \"/\" in front");
    return false;
}

// The built-in of this name, whole or its last part. Where several share the last part, NULL, and *several
// says so.
static const Embedded *find_built_in(const Search *search, bool *several) {
    char name[NAME_MOST + 1];
    size_t length = strlen(search->name);
    if (text_ends(search->name, extension_of(search)))
        length -= strlen(extension_of(search));
    memcpy(name, search->name, length);
    name[length] = '\0';
    const Embedded *only = NULL;
    *several = false;
    for (int i = 0; i < built_in_count; i++) {
        if (!is_kind(&built_in[i], search->body))
            continue;
        if (strcmp(built_in[i].name, name) == 0) {
            *several = false;
            return &built_in[i];
        }
        if (strcmp(place_last_part(built_in[i].name), name) != 0)
            continue;
        *several |= only != NULL;
        only = &built_in[i];
    }
    return *several ? NULL : only;
}

bool place_same_file(const char *one, const char *other) {
    struct stat a, b;
    return stat(one, &a) == 0 && stat(other, &b) == 0 && a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

// A file in folder; the caller owns it. A recipe that uses its own name means the built-in it stands before.
static char *find_in_folder(const Search *search, const char *folder) {
    Buffer path;
    buffer_init(&path);
    const char *own = search->folder ? search->from->file : NULL;
    char *found = NULL;
    for (int extended = 0; extended < 2 && !found; extended++) {
        buffer_clear(&path);
        buffer_add_format(&path, "%s%s%s", folder, search->name, extended ? extension_of(search) : "");
        if (file_exists(path.data) && !(own && place_same_file(own, path.data)))
            found = mem_text(path.data);
    }
    buffer_finish(&path);
    return found;
}

static char *find_on_disk(const Search *search) {
    char *found = search->folder && *search->folder ? find_in_folder(search, search->folder) : NULL;
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
            strcmp(place_last_part(built_in[i].name), place_last_part(search->name)) == 0)
            names[count++] = built_in[i].name;
    Buffer text;
    buffer_init(&text);
    buffer_add_format(&text, "more than one %s is called '%s'", kind_of(search), search->name);
    place_refuse(search, fault, text.data);
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
        const char *forms[] = {built_in[i].name, place_last_part(built_in[i].name)};
        const char *form = text_nearest(strchr(stem, '/') ? stem : place_last_part(stem), forms, 2);
        if (!form)
            continue;
        int slips = text_slips(stem, form);
        if (count && slips > best)
            continue;
        if (slips < best)
            count = 0;
        best = slips;
        if (count < NEAREST_MOST)
            out[count++] = search->body ? place_last_part(built_in[i].name) : built_in[i].name;
    }
    return count;
}

static bool refuse_unknown(const Search *search, Fault *fault) {
    Buffer text;
    buffer_init(&text);
    buffer_add_format(&text, "there is no %s '%s', neither on disk nor built in", kind_of(search),
                      search->name);
    place_refuse(search, fault, text.data);
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

bool place_find(const Search *search, Place *out, Fault *fault) {
    if (!check_name(search, fault))
        return false;
    bool several = false;
    Place place = {.path = find_on_disk(search), .built_in = find_built_in(search, &several)};
    if (!place.path && !place.built_in)
        return several ? refuse_several(search, fault) : refuse_unknown(search, fault);
    *out = place;
    return true;
}
