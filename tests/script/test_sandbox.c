// The sealed state: orders, addresses, libraries, and the walls of the child.
#include <stdio.h>
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <criterion/criterion.h>

#include "bench.h"
#include "script/child.h"
#include "script/post.h"

static void holds(const char *condition) {
    char code[600];
    snprintf(code, sizeof code, "assert(%s)", condition);
    cr_expect_str_empty(fault_of(code), "%s: %s", condition, fault_of(code));
}

Test(sandbox, pairs_and_next_go_in_order) {
    holds("(function() local s = '' for k in pairs({ b = 1, a = 1, [2] = 1, [-1] = 1, c = 1, [1.5] = 1 }) do "
          "s = s .. k .. ' ' end "
          "return s == '-1 1.5 2 a b c ' end)()");
    holds("(function() local s, t, k = '', { z = 1, y = 2, [1] = 3 } repeat k = next(t, k) s = s .. "
          "tostring(k) until k == nil "
          "return s == '1yznil' end)()");
    holds("(function() local t = { a = 1, b = 2 } for k in pairs(t) do t.a, t.b = nil, nil end return "
          "next(t) == nil end)()");
}

Test(sandbox, text_is_as_lua_has_it) {
    holds("('abc'):upper() == 'ABC' and ('%d'):format(3) == '3' and ('a,b'):find(',', 1, true) == 2");
    holds("('x1y22'):gsub('%d+', '#') == 'x#y#' and ('k = v'):match('(%w+) = (%w+)') == 'k'");
    holds("table.concat({ 1, 2, 3 }, '-') == '1-2-3' and select('#', table.unpack({ 1, 2 })) == 2");
    holds("tostring({}) == 'table' and tostring(1.5) == '1.5' and tostring(nil) == 'nil' and "
          "tonumber('0x10') == 16");
    holds("tostring(point(1, 2)) == 'point(1, 2)' and point(1, 2) == point(1, 2) and point(1, 2) ~= point(1, "
          "3)");
    holds("select(2, pcall(error, 'x')) == 'x' and not pcall(error)");
    holds("math.random == nil and math.randomseed == nil and string.dump == nil and table.move == nil");
}

// Every system call but the allowed ones fails, where the system has such a filter; files cannot be opened in
// any case.
Test(child, cannot_open_or_run_anything) {
    int ends[2];
    cr_assert_eq(pipe(ends), 0);
    const pid_t child = fork();
    if (child == 0) {
        child_wall_in(ends[1], 1 << 20, 5);
        const int file = open("/etc/hostname", O_RDONLY), again = open("/etc/hostname", O_RDONLY);
        char said[2] = {file < 0 ? 'n' : 'y', again < 0 ? 'n' : 'y'};
        _exit(write(CHILD_OUT, said, 2) == 2 ? 0 : 1);
    }
    char said[2] = "";
    close(ends[1]);
    cr_expect_eq(read(ends[0], said, 2), 2);
    cr_expect_eq(said[0], 'n');
    cr_expect_eq(said[1], 'n');
    close(ends[0]);
    int status;
    cr_assert_eq(waitpid(child, &status, 0), child);
    cr_expect(WIFEXITED(status) && WEXITSTATUS(status) == 0);
}

Test(post, a_fault_comes_home_as_it_left) {
    Fault fault, home;
    Buffer bytes;
    fault_init(&fault);
    fault_init(&home);
    buffer_init(&bytes);
    fault_set(&fault, "a.md", 12, "it cannot be: %s", "ü");
    fault_set_hint(&fault, "another way");
    fault_pack(&fault, &bytes);
    cr_assert(fault_unpack(bytes.data, bytes.length, &home));
    cr_expect_str_eq(home.file, "a.md");
    cr_expect_eq(home.line, 12);
    cr_expect_str_eq(home.message, "it cannot be: ü");
    cr_expect_str_eq(home.hint, "another way");
    cr_expect_null(home.step);
    for (size_t length = 0; length < bytes.length; length++)
        cr_expect_not(fault_unpack(bytes.data, length, &home), "cut at %zu", length);
    buffer_finish(&bytes);
    fault_finish(&fault);
    fault_finish(&home);
}

Test(post, strange_bytes_are_refused_or_cleaned) {
    static const char *const refused[] = {"",
                                          "\n",
                                          "-3\n-1\n-1\n1\nx-1\n",
                                          "1\n-1\n-1\n999999999\nx-1\n",
                                          "1\n-1\n-1\n-1\n-1\n",
                                          "x\n-1\n-1\n1\nx-1\n",
                                          "1\n-1\n-1\n1\nx-1\nmore"};
    Fault fault;
    fault_init(&fault);
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        cr_expect_not(fault_unpack(refused[i], strlen(refused[i]), &fault), "%s", refused[i]);
    const char *dirty = "1\n-1\n-1\n6\na\033\xff"
                        "b\xc3\xbc-1\n";
    cr_assert(fault_unpack(dirty, strlen(dirty), &fault));
    cr_expect_str_eq(fault.message, "a ?bü");
    fault_finish(&fault);
    char cut[16];
    text_clean("a long text that does not fit", 29, cut, sizeof cut);
    cr_expect_str_eq(cut, "a long t...");
}
