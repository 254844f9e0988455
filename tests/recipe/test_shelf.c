#include "recipe/shelf.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/file.h"

static char folder[64];

// Each test has the process and an empty current folder for itself.
static void make_folder(void) {
    snprintf(folder, sizeof folder, "/tmp/shelf.XXXXXX");
    cr_assert_not_null(mkdtemp(folder));
    cr_assert_eq(chdir(folder), 0);
}

static void take_folder_away(void) {
    char command[128];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    cr_assert_eq(chdir("/"), 0);
    cr_assert_eq(system(command), 0);
}

TestSuite(shelf, .init = make_folder, .fini = take_folder_away);

static void put(const char *path, const char *text) {
    Fault fault;
    fault_init(&fault);
    cr_assert(file_write(path, text, strlen(text), &fault), "%s", fault.message);
    fault_finish(&fault);
}

static void put_recipe(const char *path, const char *title, const char *code) {
    char text[8192];
    snprintf(text, sizeof text, "# %s\n\n```lua\n%s\n```\n", title, code);
    put(path, text);
}

static const Recipe *found(Shelf *shelf, const char *name) {
    const Recipe *recipe = NULL;
    Fault fault;
    fault_init(&fault);
    cr_assert(shelf_find(shelf, name, &recipe, &fault), "%s", fault.message);
    fault_finish(&fault);
    return recipe;
}

static void not_found(const char *name, const char *file, int line, const char *says, const char *hint) {
    Shelf shelf;
    shelf_init(&shelf);
    const Recipe *recipe = NULL;
    Fault fault;
    fault_init(&fault);
    cr_assert_not(shelf_find(&shelf, name, &recipe, &fault), "%s", name);
    cr_expect_null(recipe);
    cr_expect_not_null(strstr(fault.message, says), "%s: %s", name, fault.message);
    cr_expect(fault.hint && strstr(fault.hint, hint), "%s: %s", name, fault.hint);
    cr_expect_eq(fault.line, line);
    cr_expect((file == NULL) == (fault.file == NULL) && (!file || strcmp(file, fault.file) == 0), "%s",
              fault.file);
    fault_finish(&fault);
    shelf_finish(&shelf);
}

Test(shelf, built_in_recipes_are_found_whole_or_by_their_last_part) {
    Shelf shelf;
    shelf_init(&shelf);
    const Recipe *recipe = found(&shelf, "bands/square-funnel");
    cr_assert_str_eq(recipe->name, "bands/square-funnel");
    cr_assert_str_eq(recipe->file, "stdlib/bands/square-funnel.md");
    cr_assert_eq(found(&shelf, "square-funnel"), recipe);
    cr_assert_eq(found(&shelf, "square-funnel.md"), recipe);
    cr_assert_str_eq(shelf_source(&shelf, "stdlib/bands/square-funnel.md"), recipe->source);
    cr_assert_null(shelf_source(&shelf, "elsewhere.md"));
    cr_assert_null(shelf_source(&shelf, NULL));
    cr_assert_str_eq(shelf.notes.data, "");
    shelf_finish(&shelf);
}

Test(shelf, all_that_is_built_in_reads_and_is_sorted) {
    int count = 0, bodies = 0;
    const BuiltIn *all = shelf_built_in(&count);
    cr_assert_gt(count, 10);
    for (int i = 0; i < count; i++) {
        cr_expect_eq(strlen(all[i].text), all[i].length);
        cr_expect(i == 0 || strcmp(all[i - 1].name, all[i].name) < 0);
        Shelf shelf;
        Fault fault;
        Measures measures = {0};
        const Recipe *recipe = NULL;
        shelf_init(&shelf);
        fault_init(&fault);
        bool body = strcmp(all[i].family, "bodies") == 0;
        bodies += body;
        cr_expect(body ? shelf_measures(&shelf, all[i].name, &measures, &fault)
                       : shelf_find(&shelf, all[i].name, &recipe, &fault),
                  "%s:%d: %s", all[i].file, fault.line, fault.message);
        measures_finish(&measures);
        fault_finish(&fault);
        shelf_finish(&shelf);
    }
    cr_assert_geq(bodies, 10);
}

Test(shelf, a_file_on_disk_is_found_with_or_without_its_ending) {
    cr_assert_eq(mkdir("mine", 0777), 0);
    put_recipe("mine/shawl.md", "My shawl", "x = 1");
    Shelf shelf;
    shelf_init(&shelf);
    const Recipe *recipe = found(&shelf, "mine/shawl");
    cr_assert_str_eq(recipe->title, "My shawl");
    cr_assert_str_eq(recipe->name, "mine/shawl");
    cr_assert_str_eq(recipe->file, "mine/shawl.md");
    cr_assert_eq(found(&shelf, "mine/shawl.md"), recipe);
    cr_assert_eq(found(&shelf, "./mine/../mine/shawl"), recipe, "one file is one recipe");
    shelf_finish(&shelf);
}

Test(shelf, a_file_on_disk_stands_before_a_built_in_and_says_so_once) {
    put_recipe("square-funnel.md", "Mine", "x = 1");
    Shelf shelf;
    shelf_init(&shelf);
    cr_assert_str_eq(found(&shelf, "square-funnel")->title, "Mine");
    cr_assert_str_eq(found(&shelf, "square-funnel")->title, "Mine");
    cr_assert_str_eq(shelf.notes.data,
                     "square-funnel.md on disk is used, not the built-in bands/square-funnel.\n");
    cr_assert_str_neq(found(&shelf, "bands/square-funnel")->title, "Mine");
    shelf_finish(&shelf);
}

Test(shelf, all_that_a_recipe_uses_comes_with_it) {
    cr_assert_eq(mkdir("mine", 0777), 0);
    put_recipe("mine/a.md", "A", "use \"b\"\nuse \"top\"\nuse \"blocks/close-fitting\"");
    put_recipe("mine/b.md", "B beside A", "use \"a\"");
    put_recipe("b.md", "B in the current folder", "x = 1");
    put_recipe("top.md", "Top", "x = 1");
    Shelf shelf;
    shelf_init(&shelf);
    const Recipe *a = found(&shelf, "mine/a");
    const Recipe *b = shelf_used(&shelf, a, "b");
    cr_assert_str_eq(b->title, "B beside A");
    cr_assert_eq(shelf_used(&shelf, b, "a"), a, "recipes may use one another");
    cr_assert_str_eq(shelf_used(&shelf, a, "top")->title, "Top");
    cr_assert_str_eq(shelf_used(&shelf, a, "blocks/close-fitting")->name, "blocks/close-fitting");
    cr_assert_null(shelf_used(&shelf, a, "c"));
    cr_assert_null(shelf_used(&shelf, b, "b"));
    shelf_finish(&shelf);
}

// With what it uses, which is looked for from the current folder.
Test(shelf, a_recipe_is_put_on_it_from_its_text) {
    Shelf shelf;
    Fault fault;
    const Recipe *recipe = NULL;
    shelf_init(&shelf);
    fault_init(&fault);
    put_recipe("other.md", "Other", "x = 1");
    cr_assert(shelf_put(&shelf, "mine", "# Mine\n\nA test.\n\n```lua\nuse \"other\"\n```\n", &recipe, &fault),
              "%s", fault.message);
    cr_expect_str_eq(recipe->title, "Mine");
    cr_expect_eq(shelf_held(&shelf, "mine"), recipe);
    cr_expect_str_eq(shelf_used(&shelf, recipe, "other")->title, "Other");
    cr_expect_not(shelf_put(&shelf, "bad", "# Bad\n\n```lua\nuse \"nowhere\"\n```\n", &recipe, &fault));
    cr_expect_eq(fault.line, 4);
    fault_finish(&fault);
    shelf_finish(&shelf);
}

Test(shelf, a_recipe_that_uses_its_own_name_means_the_built_in) {
    put_recipe("square-funnel.md", "Mine", "use \"square-funnel\"");
    Shelf shelf;
    shelf_init(&shelf);
    const Recipe *mine = found(&shelf, "square-funnel.md");
    cr_assert_str_eq(shelf_used(&shelf, mine, "square-funnel")->name, "bands/square-funnel");
    shelf_finish(&shelf);
}

Test(shelf, unknown_names_are_told_the_nearest) {
    not_found("square-funel", NULL, 0, "no recipe 'square-funel'", "did you mean bands/square-funnel?");
    not_found("bands/square-funel.md", NULL, 0, "no recipe", "bands/square-funnel");
    not_found("quite-another-thing", NULL, 0, "no recipe", "rebato list");
    not_found("", NULL, 0, "empty", "rebato list");
    not_found("women-88", NULL, 0, "no recipe", "rebato list");
}

Test(shelf, faults_of_used_names_stand_at_their_use) {
    put_recipe("a.md", "A", "x = 1\nuse \"blocks/close-fiting\"");
    not_found("a", "a.md", 5, "no recipe 'blocks/close-fiting'", "blocks/close-fitting");
    put_recipe("a.md", "A", "use \"../b\"");
    put_recipe("../b.md", "B", "x = 1");
    not_found("a", "a.md", 4, "outside its own folder", "beside it");
    cr_assert_eq(remove("../b.md"), 0);
    put_recipe("a.md", "A", "use \"/etc/passwd\"");
    not_found("a", "a.md", 4, "outside its own folder", "beside it");
    put_recipe("a.md", "A", "use \"x/../../b\"");
    not_found("a", "a.md", 4, "outside its own folder", "beside it");
    put_recipe("a.md", "A", "use \"b\"");
    put("b.md", "# B\n");
    not_found("a", "b.md", 0, "no code", "```lua");
}

Test(shelf, a_refused_recipe_can_be_shown_with_its_lines) {
    put("b.md", "# B\n\n```lua\nx = 1\n");
    Shelf shelf;
    shelf_init(&shelf);
    const Recipe *recipe = NULL;
    Fault fault;
    fault_init(&fault);
    cr_assert_not(shelf_find(&shelf, "b", &recipe, &fault));
    cr_assert_str_eq(shelf_source(&shelf, fault.file), "# B\n\n```lua\nx = 1\n");
    fault_finish(&fault);
    shelf_finish(&shelf);
}

Test(shelf, no_more_than_64_recipes_are_used) {
    for (int i = 0; i < 70; i++) {
        char path[32], code[32];
        snprintf(path, sizeof path, "r%d.md", i);
        snprintf(code, sizeof code, "use \"r%d\"", i + 1);
        put_recipe(path, "R", i == 69 ? "x = 1" : code);
    }
    not_found("r0", "r63.md", 4, "more than 64", "one recipe");
    Shelf shelf;
    shelf_init(&shelf);
    cr_assert_str_eq(found(&shelf, "r6")->name, "r6");
    shelf_finish(&shelf);
}

static double measured(Shelf *shelf, const char *set, const char *name) {
    Measures measures = {0};
    Fault fault;
    fault_init(&fault);
    cr_assert(shelf_measures(shelf, set, &measures, &fault), "%s", fault.message);
    const BodyMeasure *measure = measures_find(&measures, name);
    cr_assert_not_null(measure, "%s has no %s", set, name);
    double mm = measure->value;
    measures_finish(&measures);
    fault_finish(&fault);
    return mm;
}

Test(shelf, sets_of_measurements_are_found_the_same_way) {
    Shelf shelf;
    shelf_init(&shelf);
    cr_assert_float_eq(measured(&shelf, "women-88", "bust_girth"), 880, 1e-9);
    cr_assert_float_eq(measured(&shelf, "bodies/women-96", "bust_girth"), 960, 1e-9);
    put("anna.txt", "head_girth = 57 cm\n");
    put("women-88.txt", "bust_girth = 87 cm\n");
    cr_assert_float_eq(measured(&shelf, "anna", "head_girth"), 570, 1e-9);
    cr_assert_float_eq(measured(&shelf, "anna.txt", "head_girth"), 570, 1e-9);
    cr_assert_float_eq(measured(&shelf, "women-88", "bust_girth"), 870, 1e-9);
    cr_assert_str_eq(shelf.notes.data, "women-88.txt on disk is used, not the built-in bodies/women-88.\n");
    shelf_finish(&shelf);
}

Test(shelf, unknown_sets_are_told_all_that_are_equally_near) {
    Shelf shelf;
    Fault fault;
    Measures measures = {0};
    shelf_init(&shelf);
    fault_init(&fault);
    cr_assert_not(shelf_measures(&shelf, "women-8", &measures, &fault));
    cr_assert_not_null(strstr(fault.message, "no set of measurements 'women-8'"));
    cr_assert_str_eq(fault.hint, "did you mean women-80, women-84 or women-88?");
    put("bad.txt", "head_girth = 57\n");
    cr_assert_not(shelf_measures(&shelf, "bad", &measures, &fault));
    cr_assert(strcmp(fault.file, "bad.txt") == 0 && fault.line == 1);
    cr_assert_str_eq(shelf_source(&shelf, "bad.txt"), "head_girth = 57\n");
    fault_finish(&fault);
    shelf_finish(&shelf);
}
