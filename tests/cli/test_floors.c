// Rooms have floors: a room includes from itself and from lower floors, nothing sideways, and one room alone
// knows each foreign library.
#include <criterion/criterion.h>

#include <stdio.h>

#include <stdio.h>

#include "said.h"

static void expect_no_line(const char *command) {
    Said s = said("cd \"$TESTS/../src\" && %s", command);
    cr_expect_eq(s.out.length, 0, "%s", s.out.data);
    cr_expect_eq(s.err.length, 0, "%s", s.err.data);
    said_finish(&s);
}

static void expect_only(const char *room, const char *allowed) {
    char command[512];
    snprintf(command, sizeof command,
             "grep -nE '^#include \"[a-z]+/' -r %s | grep -vE '#include \"(%s|%s)/' || true", room, room,
             allowed);
    expect_no_line(command);
}

Test(floors, a_room_includes_only_from_lower_floors) {
    expect_only("base", "base");
    expect_only("geometry", "base");
    expect_only("recipe", "base");
    expect_only("pattern", "base|geometry");
    expect_only("script", "base|geometry|recipe|pattern");
    expect_only("sheet", "base|geometry|pattern");
    expect_only("cli", "base|geometry|recipe|pattern|script|sheet");
}

Test(floors, one_room_knows_each_foreign_library) {
    expect_no_line("grep -nE '#include <(lua|lualib|lauxlib|seccomp)' -r . | grep -v '^./script/' || true");
    expect_no_line("grep -nE '#include <(cairo|pango|ft2build|hb)' -r . | grep -v '^./sheet/' || true");
    expect_no_line("grep -nE '#include <cmark' -r . | grep -v '^./recipe/' || true");
}

Test(floors, no_header_is_left_without_its_one_sentence) {
    expect_no_line("for f in */*.h; do head -n 1 \"$f\" | grep -q '^// .' || echo \"$f\"; done");
}
