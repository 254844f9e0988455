// The rooms and their floors, checked from the #include lines: a room includes from lower floors and from
// itself, nothing sideways or above, and one room alone knows each foreign library.
#include <criterion/criterion.h>
#include <dirent.h>
#include <stdio.h>
#include <string.h>

#include "base/buffer.h"
#include "base/file.h"
#include "base/text.h"

static const struct {
    const char *name;
    int floor;
} rooms[] = {
    {"base", 0},   {"geometry", 1}, {"recipe", 1},  {"pattern", 2},
    {"script", 3}, {"sheet", 3},    {"booklet", 4}, {"cli", 5},
};
#define ROOMS_COUNT (sizeof rooms / sizeof rooms[0])

static const struct {
    const char *header, *room;
} foreign[] = {
    {"lua.h", "script"},     {"lualib.h", "script"}, {"lauxlib.h", "script"}, {"seccomp.h", "script"},
    {"cairo", "sheet"},      {"pango", "sheet"},     {"ft2build.h", "sheet"}, {"freetype", "sheet"},
    {"fontconfig", "sheet"}, {"glib", "sheet"},      {"cmark.h", "recipe"},
};

static int floor_of(const char *room) {
    for (size_t i = 0; i < ROOMS_COUNT; i++)
        if (strcmp(rooms[i].name, room) == 0)
            return rooms[i].floor;
    return -1;
}

static void check_own(const char *room, const char *file, const char *header) {
    char other[32] = "";
    const char *slash = strchr(header, '/');
    cr_assert(slash && slash - header < (long)sizeof other, "%s includes \"%s\", not written from src/", file,
              header);
    memcpy(other, header, (size_t)(slash - header));
    if (strcmp(room, other) == 0)
        return;
    cr_expect_geq(floor_of(other), 0, "%s includes \"%s\", which is in no room", file, header);
    cr_expect_lt(floor_of(other), floor_of(room), "%s includes \"%s\", which is not on a lower floor", file,
                 header);
}

static void check_foreign(const char *room, const char *file, const char *header) {
    for (size_t i = 0; i < sizeof foreign / sizeof foreign[0]; i++)
        cr_expect(!text_starts(header, foreign[i].header) || strcmp(room, foreign[i].room) == 0,
                  "%s includes <%s>, which only %s may know", file, header, foreign[i].room);
}

static int check_file(const char *room, const char *path) {
    Buffer text;
    Fault fault;
    buffer_init(&text);
    fault_init(&fault);
    cr_assert(file_read(path, 1 << 20, &text, &fault), "%s", path);
    int includes = 0;
    size_t length = 0;
    const char *at = text.data;
    for (int line = 1; at; line++) {
        length = strcspn(at, "\n");
        char own[128], theirs[128];
        if (sscanf(at, "#include \"%127[^\"]\"", own) == 1) {
            check_own(room, path, own);
            includes++;
        } else if (sscanf(at, "#include <%127[^>]>", theirs) == 1) {
            check_foreign(room, path, theirs);
            includes++;
        }
        at = at[length] ? at + length + 1 : NULL;
    }
    buffer_finish(&text);
    fault_finish(&fault);
    return includes;
}

static int check_room(const char *room) {
    char path[512];
    snprintf(path, sizeof path, "%s/%s", SOURCES, room);
    DIR *folder = opendir(path);
    cr_assert_not_null(folder, "%s", path);
    int includes = 0;
    for (struct dirent *entry; (entry = readdir(folder));) {
        if (!text_ends(entry->d_name, ".c") && !text_ends(entry->d_name, ".h"))
            continue;
        snprintf(path, sizeof path, "%s/%s/%.200s", SOURCES, room, entry->d_name);
        includes += check_file(room, path);
    }
    closedir(folder);
    return includes;
}

Test(floors, a_room_includes_only_from_lower_floors) {
    for (size_t i = 0; i < ROOMS_COUNT; i++)
        cr_expect_gt(check_room(rooms[i].name), 5, "%s has hardly any includes: was it read?", rooms[i].name);
}

Test(floors, every_folder_of_sources_is_a_room) {
    DIR *folder = opendir(SOURCES);
    cr_assert_not_null(folder);
    for (struct dirent *entry; (entry = readdir(folder));)
        cr_expect(entry->d_name[0] == '.' || floor_of(entry->d_name) >= 0, "%s has no floor", entry->d_name);
    closedir(folder);
}
