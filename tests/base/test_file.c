#include "base/file.h"

#include <criterion/criterion.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char folder[64];

static void make_folder(void) {
    snprintf(folder, sizeof folder, "/tmp/file.XXXXXX");
    cr_assert_not_null(mkdtemp(folder));
    cr_assert_eq(chdir(folder), 0);
}

static void take_folder_away(void) {
    char command[128];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    cr_assert_eq(chdir("/"), 0);
    cr_assert_eq(system(command), 0);
}

TestSuite(file, .init = make_folder, .fini = take_folder_away);

static void put(const char *path, const char *text) {
    Fault fault;
    fault_init(&fault);
    cr_assert(file_write(path, text, strlen(text), &fault), "%s", fault.message);
    fault_finish(&fault);
}

static void holds(const char *path, const char *wanted) {
    Buffer got;
    Fault fault;
    buffer_init(&got);
    fault_init(&fault);
    cr_assert(file_read(path, 1000, &got, &fault), "%s", fault.message);
    cr_expect_str_eq(got.data, wanted);
    buffer_finish(&got);
    fault_finish(&fault);
}

static void not_read(const char *path, size_t limit, const char *says) {
    Buffer got;
    Fault fault;
    buffer_init(&got);
    fault_init(&fault);
    buffer_add_text(&got, "as it was");
    cr_assert_not(file_read(path, limit, &got, &fault));
    cr_expect_str_eq(got.data, "as it was");
    cr_expect_str_eq(fault.file, path);
    cr_expect_not_null(strstr(fault.message, says), "%s", fault.message);
    buffer_finish(&got);
    fault_finish(&fault);
}

static int files_here(void) {
    int count = 0;
    DIR *here = opendir(".");
    for (struct dirent *entry; (entry = readdir(here));)
        count += entry->d_name[0] != '.';
    closedir(here);
    return count;
}

Test(file, what_is_written_is_read_back) {
    put("a", "first\n");
    holds("a", "first\n");
    put("a", "second");
    holds("a", "second");
    put("a", "");
    holds("a", "");
    cr_assert(file_exists("a") && !file_exists("b") && !file_exists("."));
    cr_assert_eq(files_here(), 1, "nothing is left beside it");
}

Test(file, reading_stops_at_the_limit) {
    put("a", "12345");
    holds("a", "12345");
    not_read("a", 4, "longer than 4 bytes");
}

Test(file, only_plain_files_are_read) {
    not_read("missing", 10, "No such file");
    not_read(".", 10, "not a plain file");
    not_read("/dev/zero", 10, "not a plain file");
    cr_assert_eq(mkfifo("pipe", 0600), 0);
    not_read("pipe", 10, "not a plain file");
}

Test(file, a_failed_write_leaves_the_old_file) {
    cr_assert_eq(mkdir("sub", 0777), 0);
    Fault fault;
    fault_init(&fault);
    cr_assert_not(file_write("sub", "x", 1, &fault));
    cr_assert_not_null(strstr(fault.message, "folder"));
    cr_assert_not(file_write("no/such/place", "x", 1, &fault));
    cr_assert_str_eq(fault.file, "no/such/place");
    cr_assert_not(file_write("/dev/full", "x", 1, &fault));
    cr_assert_eq(files_here(), 1);
    fault_finish(&fault);
}

Test(file, a_link_stays_a_link_and_the_mode_stays_the_mode) {
    put("real", "old");
    cr_assert_eq(chmod("real", 0640), 0);
    cr_assert_eq(symlink("real", "link"), 0);
    put("link", "new");
    holds("real", "new");
    struct stat about;
    cr_assert_eq(lstat("link", &about), 0);
    cr_assert(S_ISLNK(about.st_mode));
    cr_assert_eq(stat("real", &about), 0);
    cr_assert_eq(about.st_mode & 0777u, 0640u);
}

Test(file, a_link_to_what_is_not_there_yet_stays_too) {
    cr_assert_eq(mkdir("far", 0777), 0);
    cr_assert_eq(symlink("far/one", "link"), 0);
    cr_assert_eq(symlink("two", "far/one"), 0); // from the folder of the link
    put("link", "new");
    holds("far/two", "new");
    struct stat about;
    cr_assert_eq(lstat("link", &about), 0);
    cr_assert(S_ISLNK(about.st_mode));
    cr_assert_eq(lstat("far/one", &about), 0);
    cr_assert(S_ISLNK(about.st_mode));
}

Test(file, links_that_go_round_are_an_end_too) {
    cr_assert_eq(symlink("round", "round"), 0);
    char *real = file_real("round");
    cr_expect_str_eq(real, "round");
    free(real);
}

Test(file, a_new_file_gets_the_usual_mode) {
    umask(027);
    put("a", "x");
    struct stat about;
    cr_assert_eq(stat("a", &about), 0);
    cr_assert_eq(about.st_mode & 0777u, 0640u);
}

Test(file, devices_are_written_in_place) {
    put("/dev/null", "gone");
}

static void not_new(const char *path) {
    Fault fault;
    fault_init(&fault);
    cr_assert_not(file_write_new(path, "new", 3, &fault));
    cr_expect_str_eq(fault.file, path);
    cr_expect_not_null(strstr(fault.message, "there already"), "%s", fault.message);
    fault_finish(&fault);
}

Test(file, a_new_file_never_takes_the_place_of_another) {
    Fault fault;
    fault_init(&fault);
    cr_assert(file_write_new("a", "first", 5, &fault), "%s", fault.message);
    holds("a", "first");
    not_new("a");
    holds("a", "first");
    cr_assert_eq(symlink("nowhere", "link"), 0);
    not_new("link");
    not_new(".");
    cr_assert_eq(files_here(), 2, "nothing is left beside it");
    cr_assert_not(file_write_new("no/such/place", "x", 1, &fault));
    fault_finish(&fault);
}
